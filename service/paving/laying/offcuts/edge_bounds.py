"""Edge bounds: slabs that no cutting can do without when pieces keep their made edges.

A slab has four made sides to give. Each made edge of a piece takes its length of one side,
and between two pieces on one side the blade takes its kerf:

    +----+ +--+ +---+
    | A  | |B | | C |     made edges downwards: lengths and two kerfs within one side
    +====+=+==+=+===+
"""

import math
from collections.abc import Collection, Sequence

import numpy as np

from service.paving.laying.arrays import Real
from service.paving.laying.cut_pieces import MadeEdges, Turning
from service.paving.laying.offcuts.area_bounds import area_bound
from service.paving.laying.offcuts.parts import Part, made_lengths
from service.paving.laying.offcuts.rules import Stock


def edge_bound(parts: Sequence[Part], stock: Stock, together: Collection[int]) -> int:
    """Slabs needed at least for the made edges of the pieces.

    Parameters
    ----------
    parts : sequence of Part
        The pieces.
    stock : Stock
        Slab and rules.
    together : collection of int
        Pieces of slabs that keep several: the blade needn't pass between those.

    Returns
    -------
    int
        Slabs; 0 if made edges needn't be kept.
    """
    if stock.made_edges is MadeEdges.free:
        return 0
    edges = np.array([made_lengths(part, stock) for part in parts], dtype=float)
    kerfs = np.full((len(parts), 1), float(stock.kerf))
    kerfs[list(together)] = 0
    needed = np.where(edges > 0, edges + kerfs, 0.0)
    if stock.turning is Turning.quarter:
        longest = max(stock.length, stock.width) + stock.kerf
        around = 2 * (stock.length + stock.width) + 4 * stock.kerf
        return max(math.ceil(_sides(needed, longest) / 4), math.ceil(float(needed.sum()) / around - 1e-6))
    upright = _sides(needed[:, ::2], stock.width + stock.kerf)
    level = _sides(needed[:, 1::2], stock.length + stock.kerf)
    return max(math.ceil(upright / 2), math.ceil(level / 2))


def _sides(needed: Real, length: int) -> int:
    """Sides of this length that hold the edges at least."""
    return area_bound(needed[needed > 0] / length)
