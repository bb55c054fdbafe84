"""Touched boxes: everything the edges of the ground do to each box they run through."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.laying.arrays import Flags, Real, Whole
from service.paving.laying.clips import Chords, Sides, Sights, Turns, chords, sides, sights, turns
from service.paving.laying.encounters import encounters
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import Lattice
from service.paving.laying.rows import Rows, Seen


@dataclass(frozen=True)
class Touched:
    """Boxes that edges run through, in order of their keys: slabs first, then cells.

    Parameters
    ----------
    keys, kinds, winding : Whole
        Each box: its key, its kind, and how often the ground winds round its reference point.
    area : Real
        Its area inside the ground [grid units squared].
    left, bottom : Real
        Paved length of its left and bottom side [grid units].
    """

    keys: Whole
    kinds: Whole
    winding: Whole
    area: Real
    left: Real
    bottom: Real


@dataclass(frozen=True)
class Sawn:
    """The slabs among them, the edges inside each, and the bounds of what is left of it.

    Parameters
    ----------
    cut : Real
        Length of the edges inside [grid units].
    low_x, low_y, high_x, high_y : Real
        Bounds of what is inside the ground, from the corner of the slab [grid units].
    entries : Whole
        How often an edge comes in.
    first : Whole
        Where the slab's edges begin in `edges` and `chords`; one more at the end.
    edges : Whole
        Edges by slab.
    chords : Chords
        What of them is inside.
    """

    cut: Real
    low_x: Real
    low_y: Real
    high_x: Real
    high_y: Real
    entries: Whole
    first: Whole
    edges: Whole
    chords: Chords


@dataclass(frozen=True)
class Measured:
    """What the edges of the ground do to the boxes of a lattice.

    Parameters
    ----------
    touched : Touched
        Boxes that edges run through.
    sawn : Sawn
        The slabs among them.
    along : Real
        Length of left and bottom sides with an edge along them and the paving beside it, by kind of box
        [grid units].
    """

    touched: Touched
    sawn: Sawn
    along: Real


def measured(ground: Ground, lattice: Lattice, seen: Seen, rows: Rows) -> Measured:
    """Clip every box that the edges of the ground run through."""
    met = encounters(lattice, seen)
    keys = rows.places.key(met.kind, met.row, met.place)
    order = np.argsort(keys, kind="stable")
    met, keys = met.only(order), keys.take(order)
    sighted = sights(ground, lattice, met)
    along = np.bincount(met.kind, _along(sighted), lattice.kinds).astype(np.float64)
    clipped, touches = chords(sighted)
    if not touches.all():
        kept = np.flatnonzero(touches)
        met, keys, sighted, clipped = met.only(kept), keys.take(kept), sighted.only(kept), clipped.only(kept)
    followed = sides(sighted)
    touched = _by_box(Grouped(keys), met.kind, sighted, clipped, followed, rows)
    slabs = slice(0, int(np.searchsorted(met.kind, lattice.slabs)))
    sighted, winding = sighted.only(slabs), touched.winding[: np.searchsorted(touched.kinds, lattice.slabs)]
    turned = turns(sighted, followed.reference[slabs])
    sawn = _sawn(Grouped(keys[slabs]), met.edge[slabs], sighted, clipped.only(slabs), turned, winding)
    return Measured(touched, sawn, along)


def _along(seen: Sights) -> Real:
    """Length of the left or bottom side of each box that its edge runs along with the paving on the box's side."""
    upright = (seen.x0 == 0) & (seen.x1 == 0) & (seen.y1 < seen.y0)
    level = (seen.y0 == 0) & (seen.y1 == 0) & (seen.x0 < seen.x1)
    height = np.minimum(seen.y0, seen.width) - np.maximum(seen.y1, 0)
    length = np.minimum(seen.x1, seen.length) - np.maximum(seen.x0, 0)
    return np.maximum(height, 0) * upright + np.maximum(length, 0) * level


@dataclass(frozen=True)
class Grouped:
    """Pairs of an edge and a box in order of the box's key.

    Parameters
    ----------
    keys : Whole
        Key of each pair's box.
    """

    keys: Whole

    @cached_property
    def starts(self) -> Flags:
        """Whether a pair is the first of its box."""
        return np.diff(self.keys, prepend=-1) > 0

    @cached_property
    def first(self) -> Whole:
        """First pair of each box."""
        return np.flatnonzero(self.starts)

    def summed(self, values: Real) -> Real:
        """Sum of values by box."""
        return np.bincount(self._boxes, values, self.first.size).astype(np.float64, copy=False)

    @cached_property
    def _boxes(self) -> Whole:
        return np.cumsum(self.starts) - 1


def _by_box(pairs: Grouped, kind: Whole, seen: Sights, inside: Chords, followed: Sides, rows: Rows) -> Touched:
    first = pairs.first
    length, width, winding = seen.length[first], seen.width[first], rows.at(pairs.keys[first])
    left = pairs.summed(followed.left) + winding * width
    off = (inside.y0 - inside.y1) * (seen.length - (inside.x0 + inside.x1) / 2)
    return Touched(
        keys=pairs.keys[first],
        kinds=kind[first],
        winding=winding,
        area=left * length + pairs.summed(off),
        left=left,
        bottom=pairs.summed(followed.bottom) + winding * length,
    )


def _sawn(pairs: Grouped, edges: Whole, seen: Sights, inside: Chords, turned: Turns, winding: Whole) -> Sawn:
    first, low_left = pairs.first, winding
    top_left, low_right = winding + pairs.summed(turned.top_left), winding + pairs.summed(turned.bottom_right)
    top_right = top_left + pairs.summed(turned.top_right)
    x0, y0, x1, y1 = inside.x0, inside.y0, inside.x1, inside.y1
    enters = (x0 == 0) | (y0 == 0) | (x0 == seen.length) | (y0 == seen.width)
    low_x, high_x = np.minimum.reduceat(np.minimum(x0, x1), first), np.maximum.reduceat(np.maximum(x0, x1), first)
    low_y, high_y = np.minimum.reduceat(np.minimum(y0, y1), first), np.maximum.reduceat(np.maximum(y0, y1), first)
    return Sawn(
        cut=pairs.summed(np.sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2)),
        low_x=np.where((low_left > 0) | (top_left > 0), 0.0, low_x),
        low_y=np.where((low_left > 0) | (low_right > 0), 0.0, low_y),
        high_x=np.where((low_right > 0) | (top_right > 0), seen.length[first], high_x),
        high_y=np.where((top_left > 0) | (top_right > 0), seen.width[first], high_y),
        entries=pairs.summed(enters.astype(float)).astype(np.int64),
        first=np.append(first, pairs.keys.size),
        edges=edges,
        chords=inside,
    )
