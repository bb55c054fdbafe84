"""Offcuts: how many slabs to buy for the cut ones when what is left of one slab is used for another.

    rules               the slab, the kerf, and what may be turned
    parts               pieces, measured
    stands              the ways a piece may stand in a slab
    bodies, gaps        which stands of two pieces leave room for the blade
    rectangles, nests   pieces cut from a slab as rectangles, by true shapes
    searches            the fewest slabs found in so many tries
    shares, *_bounds    slabs that no cutting can do without
    cuttings, buying    the best of all that

What is found is an upper bound, what is proved a lower one; where they meet, the number of
slabs is the least there is.
"""

from service.paving.laying.cut_pieces import MadeEdges, Turning
from service.paving.laying.offcuts.bought import Bought, Source
from service.paving.laying.offcuts.buying import slabs_to_buy
from service.paving.laying.offcuts.rules import Effort

__all__ = ["Bought", "Effort", "MadeEdges", "Source", "Turning", "slabs_to_buy"]
