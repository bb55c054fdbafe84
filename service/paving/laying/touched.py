"""Touched slabs: everything the edges of the ground do to each slab they run through, and to all cells together."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.laying.arrays import Flags, Real, Whole
from service.paving.laying.clips import Sights, chords, sides, sights
from service.paving.laying.encounters import encounters
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import Lattice
from service.paving.laying.rows import Rows, Seen


@dataclass(frozen=True)
class Touched:
    """Slabs that edges run through, in order of their keys.

    Parameters
    ----------
    keys, kinds, winding : Whole
        Each slab: its key, its kind, and how often the ground winds round its reference point.
    sides : Real
        Rows length and width [grid units].
    area : Real
        Its area inside the ground [grid units squared].
    cut : Real
        Length of the edges inside it [grid units].
    paved : Real
        Paved length of its left, bottom, right and top side [grid units].
    first : Whole
        Where its edges begin in `edges` and `chords`; one more at the end.
    edges : Whole
        Edges, slab by slab.
    chords : Real
        What of them is inside, from the corner of the slab [grid units]: start or end by x or y by pair.
    """

    keys: Whole
    kinds: Whole
    winding: Whole
    sides: Real
    area: Real
    cut: Real
    paved: Real
    first: Whole
    edges: Whole
    chords: Real

    @cached_property
    def size(self) -> Real:
        """Rows length and width of the upright rectangle round what is inside the ground [grid units]."""
        if not self.keys.size:
            return self.sides
        starts, ends = self.chords
        low = np.minimum.reduceat(np.minimum(starts, ends), self.first[:-1], axis=1)
        high = np.maximum.reduceat(np.maximum(starts, ends), self.first[:-1], axis=1)
        # Where a chord ends on a side the rectangle reaches it anyway; else all of the side is paved, or none.
        near, far = self.paved[:2] > self.sides[::-1] / 2, self.paved[2:] > self.sides[::-1] / 2
        size: Real = np.where(far, self.sides, high) - np.where(near, 0.0, low)
        return size

    @cached_property
    def enters(self) -> Flags:
        """Whether each edge comes in from outside its slab."""
        start, sides = self.chords[0], self.sides.repeat(self.first[1:] - self.first[:-1], axis=1)
        on_side = (start == 0) | (start == sides)
        return on_side[0] | on_side[1]

    @cached_property
    def entries(self) -> Whole:
        """How often an edge comes into each slab."""
        before = np.zeros(self.edges.size + 1, dtype=np.int64)
        self.enters.cumsum(out=before[1:])
        return before[self.first[1:]] - before[self.first[:-1]]


@dataclass(frozen=True)
class Cells:
    """What the edges of the ground do to all cells together.

    Parameters
    ----------
    seen : Sights
        Edges, from the cell each meets.
    inside : Real
        What of them is inside the cell, as `Sights.ends`.
    touches : Flags
        Whether there is any.
    paved : Real
        Rows left, bottom: paved length each edge adds to these sides of its cell [grid units].
    """

    seen: Sights
    inside: Real
    touches: Flags
    paved: Real

    @cached_property
    def joints(self) -> float:
        """Length that edges add to left and bottom sides, less what runs along an edge [grid units]."""
        return float(((self.paved[0] + self.paved[1]) * self.touches).sum()) - self._along

    @cached_property
    def area(self) -> float:
        """Area that edges add to cells [grid units squared]."""
        added = self.paved[0] * self.seen.sides[0] + _cut_off(self.inside, self.seen.sides[0])
        return float((added * self.touches).sum())

    @property
    def _along(self) -> float:
        """Length of left and bottom sides that an edge runs along with the paving on the cell's side."""
        length = 0.0
        for axis, (start, end) in enumerate(((1, 0), (0, 1))):
            on_side = np.flatnonzero((self.seen.ends[:, axis] == 0).all(axis=0))
            if on_side.size:
                low, high = self.seen.ends[start, 1 - axis, on_side], self.seen.ends[end, 1 - axis, on_side]
                reach = np.minimum(high, self.seen.sides[1 - axis, on_side]) - np.maximum(low, 0.0)
                length += float(reach[(low < high) & (reach > 0)].sum())
        return length


@dataclass(frozen=True)
class Measured:
    """What the edges of the ground do to the boxes of a lattice."""

    touched: Touched
    cells: Cells


def measured(ground: Ground, lattice: Lattice, seen: Seen, rows: Rows) -> Measured:
    """Clip every box that the edges of the ground run through."""
    met = encounters(lattice, seen)
    sighted = sights(ground, lattice, met)
    inside, touches = chords(sighted)
    paved = sides(sighted)
    slabs, cells = met.kind.searchsorted((lattice.slabs, lattice.cells.start)).tolist()
    met_cells = Sights(sighted.ends[:, :, cells:], sighted.sides[:, cells:], sighted.doubt)
    of_cells = Cells(met_cells, inside[:, :, cells:], touches[cells:], paved[:, cells:])
    there = np.flatnonzero(touches[:slabs])
    keys = rows.places.key(met.kind[there], met.row[there], met.place[there])
    order = keys.argsort(kind="stable")
    there, keys = there[order], keys[order]
    first = np.flatnonzero(np.append(True, keys[1:] != keys[:-1])[: keys.size])
    kinds, winding = met.kind[there[first]], rows.at(keys[first])
    box = lattice.boxes[2:].astype(float).take(kinds, axis=1)
    inside = inside.take(there, axis=2)
    added = _by_slab(paved.take(there, axis=1), inside, sighted.sides[0, there], first)
    paved_by = box[::-1] * winding + added[:2]
    touched = Touched(
        keys=keys[first],
        kinds=kinds,
        winding=winding,
        sides=box,
        area=paved_by[0] * box[0] + added[2],
        cut=added[3],
        paved=np.concatenate((paved_by, paved_by + added[4:])),
        first=np.append(first, keys.size),
        edges=met.edge[there],
        chords=inside,
    )
    return Measured(touched, of_cells)


def _by_slab(paved: Real, inside: Real, length: Real, first: Whole) -> Real:
    """Sums by slab, in rows.

    Paved length added on the left and at the bottom, area cut off, length of cut, and by how much more of
    the right side is paved than of the left, of the top than of the bottom.
    """
    added = np.empty((6, length.size))
    added[:2] = paved
    added[2] = _cut_off(inside, length)
    run = inside[1] - inside[0]
    added[3] = np.sqrt(run[0] * run[0] + run[1] * run[1])
    added[4], added[5] = -run[1], run[0]
    # Sums over nothing, which numpy refuses.
    return np.add.reduceat(added, first, axis=1) if first.size else added


def _cut_off(inside: Real, length: Real) -> Real:
    """Area between each edge and the right side of its box, negative where the edge rises [grid units squared]."""
    (x0, y0), (x1, y1) = inside
    off: Real = (y0 - y1) * (length - (x0 + x1) / 2)
    return off
