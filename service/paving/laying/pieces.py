"""Pieces: every slab as laid, on plan, and every part of a cut slab, on the slab itself."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, repeat
from operator import not_
from typing import NamedTuple

import numpy as np

from service.paving.laying.arrays import Real, Whole, rings, spans
from service.paving.laying.counts import Counted
from service.paving.laying.cut_pieces import CutPieces
from service.paving.laying.cuts import Cuts
from service.paving.laying.grounds import Frame
from service.paving.laying.lattices import MICROMETRES, Lattice
from service.paving.outlines import Point

Outlines = tuple[tuple[Point, ...], ...]


class Piece(NamedTuple):
    """A slab as laid. A named tuple, because there may be a hundred thousand of them.

    Parameters
    ----------
    name : str
        Name of the slab.
    whole : bool
        Whether it is laid whole.
    x, y : float
        Its lower left corner before it is turned about that corner, on plan [m].
    length, width : float
        Its own size [m].
    angle : float
        How far its length is turned counter-clockwise from the x axis [rad].
    outlines : tuple of tuple of Point
        For a cut slab the outline of each piece kept, counter-clockwise on plan [m], any hole in it
        clockwise; empty for a whole one.
    """

    name: str
    whole: bool
    x: float
    y: float
    length: float
    width: float
    angle: float
    outlines: Outlines = ()


@dataclass(frozen=True)
class Sorts:
    """What all slabs of one tile of the repeat have in common, tile by tile.

    Parameters
    ----------
    names : list of str
        Names.
    lengths, widths : list of float
        Their own sizes [m].
    angles : list of float
        How far their length is turned on plan [rad].
    corners : list of float
        How far their own lower left corner lies from the lower left corner of the box, along x of the
        pattern's frame [m].
    """

    names: list[str]
    lengths: list[float]
    widths: list[float]
    angles: list[float]
    corners: list[float]


def sorts(lattice: Lattice, frame: Frame, names: Sequence[str]) -> Sorts:
    """What is the same for every slab of a tile."""
    tiles = lattice.repeat.tiles
    sides = [(float(t.box.length) / MICROMETRES, float(t.box.width) / MICROMETRES) for t in tiles]
    own = [side[::-1] if t.quarter_turns else side for t, side in zip(tiles, sides, strict=True)]
    return Sorts(
        names=[names[t.slab] for t in tiles],
        lengths=[length for length, _ in own],
        widths=[width for _, width in own],
        angles=[frame.angle + t.quarter_turns * (math.pi / 2) for t in tiles],
        corners=[t.quarter_turns * side[0] for t, side in zip(tiles, sides, strict=True)],
    )


def whole_slabs(cuts: Cuts, frame: Frame, names: Sequence[str]) -> tuple[Piece, ...]:
    """Every slab laid whole."""
    keys = whole_keys(cuts.counted)
    return tuple(_pieces(cuts.counted, frame, sorts(cuts.counted.lattice, frame, names), keys, repeat((), keys.size)))


def cut_slabs(cuts: Cuts, frame: Frame, names: Sequence[str]) -> tuple[Piece, ...]:
    """Every slab laid cut, with the outlines of what is kept of it."""
    keys = cuts.counted.touched.keys[cuts.counted.cut]
    return tuple(_pieces(cuts.counted, frame, sorts(cuts.counted.lattice, frame, names), keys, outlines(cuts, frame)))


def whole_keys(counted: Counted) -> Whole:
    """Keys of all slabs laid whole, in order: along each row of each tile of the repeat."""
    first, last = counted.rows.runs()
    _, keys = spans(first, last)
    inside = np.isin(keys, counted.touched.keys, assume_unique=True, invert=True)
    return np.sort(np.concatenate((keys[inside], counted.touched.keys[counted.whole])))


@dataclass(frozen=True)
class Course:
    """Whole slabs side by side along the first vector of the repeat.

    Parameters
    ----------
    tile : int
        Which slab of the repeat they are.
    x, y : float
        Lower left corner of the first one in the pattern's frame [m].
    slabs : int
        How many there are.
    """

    tile: int
    x: float
    y: float
    slabs: int


def courses(counted: Counted) -> tuple[Course, ...]:
    """All whole slabs in courses, so that a drawing needn't list every slab."""
    keys = whole_keys(counted)
    first = np.flatnonzero(np.diff(keys, prepend=-2) > 1)
    tile, x, y = corners(counted, keys[first])
    slabs = np.diff(np.append(first, keys.size))
    return tuple(map(Course, tile.tolist(), x.tolist(), y.tolist(), slabs.tolist()))


def _pieces(counted: Counted, frame: Frame, common: Sorts, keys: Whole, kept: Iterable[Outlines]) -> Iterator[Piece]:
    """Slabs by their keys, which come in order, so that those of one tile come together."""
    tile, x, y = corners(counted, keys)
    plan_x, plan_y = frame.to_plan(x + np.array(common.corners)[tile], y)
    outlines, numbers = tuple(kept), np.bincount(tile, minlength=len(common.names)).tolist()
    names, *sizes = (
        chain.from_iterable(map(repeat, column, numbers))
        for column in (common.names, common.lengths, common.widths, common.angles)
    )
    rows = zip(names, map(not_, outlines), plan_x.tolist(), plan_y.tolist(), *sizes, outlines, strict=True)
    # As `Piece` does it, without a call of Python for each of a hundred thousand.
    return map(tuple.__new__, repeat(Piece), rows)


def corners(counted: Counted, keys: Whole) -> tuple[Whole, Real, Real]:
    """Tile and lower left corner of boxes in the pattern's frame [m]."""
    kind, row, place = counted.rows.places.box(keys)
    (ux, uy), (vx, vy), (x, y, _, _) = counted.lattice.u, counted.lattice.v, counted.lattice.boxes
    units = counted.lattice.units
    return kind, (x[kind] + place * ux + row * vx) / units, (y[kind] + place * uy + row * vy) / units


def outlines(cuts: Cuts, frame: Frame) -> Iterator[Outlines]:
    """Outlines of all pieces kept of each cut slab, on plan [m]."""
    counted, kept = cuts.counted, cuts.kept
    _, x, y = corners(counted, counted.touched.keys[counted.cut])
    points = kept.points / counted.lattice.units
    plan = np.array(frame.to_plan(points[0] + x[kept.owners], points[1] + y[kept.owners]))
    return rings(plan, kept.corners, np.bincount(kept.slabs, kept.loops).astype(np.int64))


def cut_pieces(cuts: Cuts, sizes: int) -> tuple[CutPieces, ...]:
    """Every part kept of every cut slab, drawn on the slab itself, size by size."""
    lattice, kept = cuts.counted.lattice, cuts.kept
    x, y = np.rint(kept.points / lattice.fineness).astype(np.int64)
    # A slab that lies across is turned back about its box.
    turned = np.array([tile.quarter_turns for tile in lattice.repeat.tiles])[cuts.tiles]
    if turned.any():
        lies = turned[kept.owners] > 0
        across = (lattice.boxes[2] // lattice.fineness)[cuts.tiles][kept.owners]
        x, y = np.where(lies, y, x), np.where(lies, across - x, y)
    drawn = CutPieces(kept.slabs, np.array((x, y)), kept.corners, kept.loops)
    if sizes == 1:
        return (drawn,)
    size = lattice.sizes[cuts.tiles][kept.slabs]
    return tuple(drawn.only(size == k) for k in range(sizes))
