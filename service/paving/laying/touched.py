"""Touched boxes: everything the edges of the ground do to each box they run through."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from service.paving.laying.arrays import Flags, Real, Whole
from service.paving.laying.clips import Chords, Sides, Sights, chords, sides, sights
from service.paving.laying.encounters import encounters
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import Lattice
from service.paving.laying.rows import Rows, Seen


@dataclass(frozen=True)
class Touched:
    """Boxes that edges run through, in order of their keys.

    Parameters
    ----------
    keys, kinds, winding : Whole
        Each box: its key, its kind, and how often the ground winds round its reference point.
    area, cut : Real
        Its area inside the ground [grid units squared] and the length of the edges inside it [grid units].
    left, bottom : Real
        Paved length of its left and bottom side [grid units].
    low_x, low_y, high_x, high_y : Real
        Bounds of what is inside, from its corner [grid units].
    entries : Whole
        How often an edge comes into it.
    first : Whole
        Where its edges begin in `edges` and `chords`; one more at the end.
    edges : Whole
        Edges by box.
    chords : Chords
        What of them is inside.
    """

    keys: Whole
    kinds: Whole
    winding: Whole
    area: Real
    cut: Real
    left: Real
    bottom: Real
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
    """Boxes that edges run through, and paved sides that edges run along.

    Parameters
    ----------
    touched : Touched
        The boxes.
    along : Real
        Length of left and bottom sides with an edge along them and the paving beside it, by kind of box
        [grid units].
    """

    touched: Touched
    along: Real


def measured(ground: Ground, lattice: Lattice, seen: Seen, rows: Rows) -> Measured:
    """Clip every box that the edges of the ground run through."""
    met = encounters(lattice, seen)
    sighted = sights(ground, lattice, met)
    clipped, touches = chords(sighted)
    along = np.bincount(met.kind, _along(sighted), lattice.boxes.shape[1]).astype(np.float64)
    kept = np.flatnonzero(touches)
    keys = rows.places.key(met.kind[kept], met.row[kept], met.place[kept])
    order = kept[np.argsort(keys, kind="stable")]
    touched = _by_box(np.sort(keys), met.kind[order], met.edge[order], sighted.only(order), clipped.only(order), rows)
    return Measured(touched, along)


def _along(seen: Sights) -> Real:
    """Length of the left or bottom side of each box that its edge runs along with the paving on the box's side."""
    upright = (seen.x0 == 0) & (seen.x1 == 0) & (seen.y1 < seen.y0)
    level = (seen.y0 == 0) & (seen.y1 == 0) & (seen.x0 < seen.x1)
    height = np.minimum(seen.y0, seen.width) - np.maximum(seen.y1, 0)
    length = np.minimum(seen.x1, seen.length) - np.maximum(seen.x0, 0)
    return np.maximum(height, 0) * upright + np.maximum(length, 0) * level


def _by_box(keys: Whole, kind: Whole, edge: Whole, seen: Sights, inside: Chords, rows: Rows) -> Touched:
    first = np.flatnonzero(np.diff(keys, prepend=-1))
    box, followed = keys[first], sides(seen)

    def summed(values: Real) -> Real:
        return np.add.reduceat(values, first)

    length, width, winding = seen.length[first], seen.width[first], rows.at(box)
    left, bottom = summed(followed.left) + winding * width, summed(followed.bottom) + winding * length
    x0, y0, x1, y1 = inside.x0, inside.y0, inside.x1, inside.y1
    corners = _corners(winding, followed, summed)
    low_x, high_x = np.minimum.reduceat(np.minimum(x0, x1), first), np.maximum.reduceat(np.maximum(x0, x1), first)
    low_y, high_y = np.minimum.reduceat(np.minimum(y0, y1), first), np.maximum.reduceat(np.maximum(y0, y1), first)
    return Touched(
        keys=box,
        kinds=kind[first],
        winding=winding,
        area=left * length + summed((y0 - y1) * (seen.length - (x0 + x1) / 2)),
        cut=summed(np.hypot(x1 - x0, y1 - y0)),
        left=left,
        bottom=bottom,
        low_x=np.where(corners[0] | corners[1], 0.0, low_x),
        low_y=np.where(corners[0] | corners[2], 0.0, low_y),
        high_x=np.where(corners[2] | corners[3], length, high_x),
        high_y=np.where(corners[1] | corners[3], width, high_y),
        entries=np.add.reduceat(_on_side(seen, x0, y0).astype(np.int64), first),
        first=np.append(first, keys.size),
        edges=edge,
        chords=inside,
    )


def _corners(winding: Whole, followed: Sides, summed: Callable[[Real], Real]) -> tuple[Flags, Flags, Flags, Flags]:
    """Whether the corners lower left, upper left, lower right and upper right are inside."""
    top_left = winding + summed(followed.top_left)
    bottom_right, top_right = winding + summed(followed.bottom_right), top_left + summed(followed.top_right)
    return winding > 0, top_left > 0, bottom_right > 0, top_right > 0


def _on_side(seen: Sights, x: Real, y: Real) -> Flags:
    return (x == 0) | (y == 0) | (x == seen.length) | (y == seen.width)
