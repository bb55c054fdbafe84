"""Rows: which boxes of a lattice lie inside the ground, by the rows of their reference points.

Each box has a reference point just inside its lower left corner. The reference points of
one kind of box form rows along the vector u; along a row, edges of the ground are crossed
on the way in and out:

        in |  .   .   .   . | out
    -------X----------------X------>  u
           crossing         crossing

A crossing is kept as the last place before it. A reference point on an edge counts as
lying on its left, where the paving is; `clips` decides the same way.
"""

from dataclasses import dataclass

import numpy as np

from service.paving.laying.arrays import Real, Whole, spans
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import Lattice

#: Where reference points stand from the corner of their box [grid units]: not on multiples of STEP, and
#: not on a line at 45 degrees through such a place either, so that ties are rare.
REFERENCE = (1, 2)
#: How near a place on its row a crossing may come before it is decided by whole numbers.
_NEAR = 1e-7


@dataclass(frozen=True)
class Places:
    """Names boxes by kind, row and place in the row as one number that sorts in that order.

    Parameters
    ----------
    first_row, rows, first_place, places : int
        Rows and places that can occur.
    """

    first_row: int
    rows: int
    first_place: int
    places: int

    def key(self, kind: Whole, row: Whole, place: Whole) -> Whole:
        return (kind * self.rows + (row - self.first_row)) * self.places + (place - self.first_place)

    def box(self, key: Whole) -> tuple[Whole, Whole, Whole]:
        """Kind, row and place."""
        line, place = np.divmod(key, self.places)
        kind, row = np.divmod(line, self.rows)
        return kind, row + self.first_row, place + self.first_place


@dataclass(frozen=True)
class Rows:
    """Crossings of all rows, in order of their keys.

    Parameters
    ----------
    places : Places
        How boxes are named.
    keys : Whole
        Kind, row and last place before each crossing.
    winding : Whole
        Times the ground winds round the places just after each crossing.
    inside : Whole
        Reference points inside the ground, by kind of box.
    """

    places: Places
    keys: Whole
    winding: Whole
    inside: Whole

    def at(self, keys: Whole) -> Whole:
        """Times the ground winds round the reference points of some boxes."""
        before = np.searchsorted(self.keys, keys)
        return np.where(before > 0, self.winding[before - 1], 0) if self.keys.size else np.zeros_like(keys)

    def runs(self) -> tuple[Whole, Whole]:
        """Keys of the first and last box of every run of boxes with their reference points inside."""
        inside = np.flatnonzero(self.winding > 0)
        first, last = self.keys[inside] + 1, self.keys[inside + 1]
        kept = first <= last
        return first[kept], last[kept]


@dataclass(frozen=True)
class Seen:
    """The ground's edges seen from the corner of each kind of box, in lattice terms.

    Parameters
    ----------
    rows : tuple of Whole
        Cross product of u with each start and each end: the row times the repeat's area. Kind by edge.
    places : tuple of Whole
        Cross product of each start and each end with v: the place times the repeat's area.
    """

    rows: tuple[Whole, Whole]
    places: tuple[Whole, Whole]


def seen(ground: Ground, lattice: Lattice) -> Seen:
    """The ground seen from the lattice."""
    (ux, uy), (vx, vy) = lattice.u, lattice.v
    corner = lattice.boxes
    row_of, place_of = ux * corner[1] - uy * corner[0], vy * corner[0] - vx * corner[1]
    ends = (ground.starts, ground.ends)
    rows = [ux * y - uy * x - row_of[:, None] for x, y in ends]
    places = [vy * x - vx * y - place_of[:, None] for x, y in ends]
    return Seen((rows[0], rows[1]), (places[0], places[1]))


def all_places(lattice: Lattice, seen: Seen) -> Places:
    """Names for every box the ground can reach, and two to spare."""
    bounds = [
        bound // lattice.area + spare
        for ends in (seen.rows, seen.places)
        for bound, spare in ((min(e.min() for e in ends), -3), (max(e.max() for e in ends), 4))
    ]
    low, high, left, right = (int(bound) for bound in bounds)
    return Places(low, high - low, left, right - left)


def rows(lattice: Lattice, seen: Seen, places: Places) -> Rows:
    """Cross all rows of reference points with the edges of the ground."""
    (ux, uy), (vx, vy) = lattice.u, lattice.v
    row_shift = ux * REFERENCE[1] - uy * REFERENCE[0]
    place_shift = vy * REFERENCE[0] - vx * REFERENCE[1]
    c0, c1 = (ends.ravel() - row_shift for ends in seen.rows)
    d0, d1 = (ends.ravel() - place_shift for ends in seen.places)
    edge, row = spans(-(-np.minimum(c0, c1) // lattice.area), -(-np.maximum(c0, c1) // lattice.area) - 1)
    c0, d0, rise, run = c0[edge], d0[edge], (c1 - c0)[edge], (d1 - d0)[edge]
    last = _last_before(lattice.area, c0, d0, rise, run, row * lattice.area)
    kind = edge // seen.rows[0].shape[1]
    return _in_order(places, kind, row, last, np.sign(rise), lattice.kinds)


def _in_order(places: Places, kind: Whole, row: Whole, last: Whole, sign: Whole, kinds: int) -> Rows:
    keys = places.key(kind, row, last)
    order = np.argsort(keys, kind="stable")
    inside = np.rint(np.bincount(kind, weights=sign * last, minlength=kinds)).astype(np.int64)
    return Rows(places, keys[order], -np.cumsum(sign[order]), inside)


def _last_before(area: int, c0: Whole, d0: Whole, rise: Whole, run: Whole, level: Whole) -> Whole:
    """Last place before each crossing: a place on the edge itself is before one that rises, not one that falls."""
    crossing: Real = (d0 + (level - c0) / rise * run) / area
    whole = np.rint(crossing)
    last = np.floor(crossing).astype(np.int64)
    for k in np.flatnonzero(np.abs(crossing - whole) < _NEAR):
        over = int(d0[k]) * int(rise[k]) + (int(level[k]) - int(c0[k])) * int(run[k])
        under = area * int(rise[k])
        last[k] = over // under if rise[k] > 0 else -(-over // under) - 1
    return last
