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
    """Pairs of an edge and a box.

    Parameters
    ----------
    edge, kind, row, place : Whole
        The edge, and the box by its kind, row and place.
    """

    edge: Whole
    kind: Whole
    row: Whole
    place: Whole

    def only(self, kept: Whole) -> "Encounters":
        return Encounters(*(a.take(kept) for a in (self.edge, self.kind, self.row, self.place)))


def encounters(lattice: Lattice, seen: Seen) -> Encounters:
    """Every pair of an edge and a box that may touch, edge by edge."""
    area, edges = lattice.area, seen.rows[0].shape[1]
    (row_low, row_high), (place_low, place_high) = _extent(lattice)
    c0, c1 = (ends.T.ravel() for ends in seen.rows)
    low, high, kinds = row_low, row_high, lattice.kinds
    low, high = np.tile(low, edges), np.tile(high, edges)
    pair, row = spans(-(-(np.minimum(c0, c1) - high) // area), (np.maximum(c0, c1) - low) // area)
    start, end = _within(c0[pair], c1[pair], row * area + low[pair], row * area + high[pair])
    d0, d1 = (ends.T.ravel()[pair] for ends in seen.places)
    a, b = d0 + start * (d1 - d0), d0 + end * (d1 - d0)
    kind = pair % kinds
    first = np.ceil((np.minimum(a, b) - place_high[kind]) / area - _SPARE).astype(np.int64)
    last = np.floor((np.maximum(a, b) - place_low[kind]) / area + _SPARE).astype(np.int64)
    owner, place = spans(first, last)
    return Encounters(pair[owner] // kinds, kind[owner], row[owner], place)


def _extent(lattice: Lattice) -> tuple[tuple[Whole, Whole], tuple[Whole, Whole]]:
    """Least and greatest row and place any point of each kind of box lies at, from its corner, times the area."""
    (ux, uy), (vx, vy) = lattice.u, lattice.v
    _, _, length, width = lattice.boxes
    return _reach(-uy * length, ux * width), _reach(vy * length, -vx * width)


def _reach(along: Whole, across: Whole) -> tuple[Whole, Whole]:
    return np.minimum(along, 0) + np.minimum(across, 0), np.maximum(along, 0) + np.maximum(across, 0)


def _within(c0: Whole, c1: Whole, low: Whole, high: Whole) -> tuple[Real, Real]:
    """Between which parts of each edge it lies from low to high; an edge along the row does so all the way."""
    rise = np.where(c1 == c0, 1, c1 - c0)
    a, b = (low - c0) / rise, (high - c0) / rise
    level = c1 == c0
    start = np.where(level, 0.0, np.clip(np.minimum(a, b), 0.0, 1.0))
    end = np.where(level, 1.0, np.clip(np.maximum(a, b), 0.0, 1.0))
    return start, end
