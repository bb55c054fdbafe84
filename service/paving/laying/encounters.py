"""Encounters: which boxes each edge of the ground may touch.

Seen along the lattice vectors a box is a parallelogram, and an edge meets the boxes of a
row while it is less than the parallelogram's height away from it. That names a few boxes
too many at the ends, never one too few; `clips` sorts them out.
"""

from dataclasses import dataclass

import numpy as np

from service.paving.laying.arrays import Real, Whole, spans
from service.paving.laying.lattices import Lattice
from service.paving.laying.rows import Seen

#: Allowance for rounding when boxes of a row are named [places].
_SPARE = 1e-6


@dataclass(frozen=True)
class Encounters:
    """Pairs of an edge and a box, kind by kind of box and edge by edge.

    Parameters
    ----------
    edge, kind, row, place : Whole
        The edge, and the box by its kind, row and place.
    """

    edge: Whole
    kind: Whole
    row: Whole
    place: Whole


def encounters(lattice: Lattice, seen: Seen) -> Encounters:
    """Every pair of an edge and a box that may touch."""
    area, edges = lattice.area, seen.rows.shape[2]
    (row_low, place_low), (row_high, place_high) = lattice.reach
    first = -((row_high[:, None] - seen.rows.min(axis=0)) // area)
    last = (seen.rows.max(axis=0) - row_low[:, None]) // area
    pair, row = spans(first.ravel(), last.ravel())
    kind, edge = np.divmod(pair, edges)
    # Widened by one, so that an edge along the row lies between them all the way.
    between = np.array((row_low - 1, row_high + 1)).take(kind, axis=1) + row * area
    from_place, to_place = _stretch(seen, pair, between)
    first = np.ceil((from_place - place_high[kind]) / area - _SPARE).astype(np.int64)
    last = np.floor((to_place - place_low[kind]) / area + _SPARE).astype(np.int64)
    owner, place = spans(first, last)
    edge, kind, row = np.array((edge, kind, row)).take(owner, axis=1)
    return Encounters(edge, kind, row, place)


def _stretch(seen: Seen, pair: Whole, between: Whole) -> tuple[Real, Real]:
    """From which place to which each edge runs while it is between two rows; all times the repeat's area."""
    rows, places = (ends.reshape(2, -1).take(pair, axis=1) for ends in (seen.rows, seen.places))
    rise = rows[1] - rows[0]
    part = np.minimum(np.maximum((between - rows[0]) / (rise + (rise == 0)), 0.0), 1.0)
    start, end = places[0] + part * (places[1] - places[0])
    return np.minimum(start, end), np.maximum(start, end)
