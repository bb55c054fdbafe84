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
    """Crossings of all rows: those of slabs in order of their keys, those of cells only counted.

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
        before = self.keys.searchsorted(keys)
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
    rows, places : Whole
        The row, and the place in the row, of each start and each end, times the repeat's area: start or
        end by kind by edge.
    """

    rows: Whole
    places: Whole


def seen(ground: Ground, lattice: Lattice) -> Seen:
    """The ground seen from the lattice."""
    rows, places = (lattice.to_rows @ np.array((ground.starts, ground.ends))).swapaxes(0, 1)
    row, place = lattice.corners[:, :, None]
    return Seen(rows[:, None] - row, places[:, None] - place)


def all_places(lattice: Lattice, seen: Seen) -> Places:
    """Names for every box the ground can reach, and two to spare."""
    (low, high), (left, right) = (
        (int(ends.min()) // lattice.area - 3, int(ends.max()) // lattice.area + 4) for ends in (seen.rows, seen.places)
    )
    return Places(low, high - low, left, right - left)


def rows(lattice: Lattice, seen: Seen, places: Places) -> Rows:
    """Cross all rows of reference points with the edges of the ground."""
    row_shift, place_shift = (lattice.to_rows @ REFERENCE).tolist()
    across, along = seen.rows.reshape(2, -1) - row_shift, seen.places.reshape(2, -1) - place_shift
    area = lattice.area
    edge, row = spans(-(-across.min(axis=0) // area), -(-across.max(axis=0) // area) - 1)
    (c0, c1), (d0, d1) = across.take(edge, axis=1), along.take(edge, axis=1)
    rise = c1 - c0
    last, sign, kind = _last_before(area, c0, d0, rise, d1 - d0, row * area), np.sign(rise), edge // seen.rows.shape[2]
    inside = np.rint(np.bincount(kind, weights=sign * last, minlength=lattice.kinds)).astype(np.int64)
    slabs = slice(0, int(kind.searchsorted(lattice.slabs)))
    keys = places.key(kind[slabs], row[slabs], last[slabs])
    order = keys.argsort(kind="stable")
    return Rows(places, keys[order], -sign[slabs][order].cumsum(), inside)


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
