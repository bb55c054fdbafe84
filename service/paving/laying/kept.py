"""Kept: the outlines of what is kept of many cut slabs, traced together.

Through most cut slabs the edge runs once: it comes in somewhere, leaves somewhere, and the
outline goes back along the sides, counter-clockwise:

        +-------X-----+
        | kept   \\    |        X  leaves here, then along the side
        |         \\   |
        +----------X--+        X  to where it came in

These are traced all at once; `loops` traces the rest slab by slab.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np

from service.paving.laying.arrays import Flags, Real, Whole, spans
from service.paving.laying.counts import Counted
from service.paving.laying.loops import TIE, Tracer
from service.paving.laying.tolerances import least_strip

#: Corners of a slab, twice round counter-clockwise from the lower right one, in rows x, y: lengths and widths.
_CORNERS = np.array(((1, 1, 0, 0) * 2, (0, 1, 1, 0) * 2))
#: Where they are along the sides, from the lower left corner: rows lengths, widths.
_STOPS = np.array(((1, 1, 2, 2, 3, 3, 4, 4), (0, 1, 1, 2, 2, 3, 3, 4)))[:, :, None]


@dataclass(frozen=True)
class Kept:
    """What is kept of some cut slabs: loops of corners, slab by slab and part by part.

    Parameters
    ----------
    points : Real
        Rows x, y of all corners, from the lower left corner of their slab [grid units].
    corners : Whole
        How many corners each loop has.
    loops : Whole
        How many loops each connected part has: its outline, counter-clockwise, and any holes, clockwise.
    parts : Whole
        How many parts each slab has.
    """

    points: Real
    corners: Whole
    loops: Whole
    parts: Whole

    @cached_property
    def slabs(self) -> Whole:
        """Which slab each part is of."""
        return np.arange(self.parts.size).repeat(self.parts)

    @cached_property
    def first_loops(self) -> Whole:
        """The first loop of each part."""
        return self.loops.cumsum() - self.loops

    @cached_property
    def first_points(self) -> Whole:
        """The first corner of each part."""
        return (self.corners.cumsum() - self.corners)[self.first_loops]

    @cached_property
    def owners(self) -> Whole:
        """Which slab each corner is of."""
        return self.slabs.repeat(self.loops).repeat(self.corners)

    @cached_property
    def thickness(self) -> Real:
        """Thickness of the thinnest part of each slab, measured along its sides [grid units]."""
        low = np.minimum.reduceat(self.points, self.first_points, axis=1)
        high = np.maximum.reduceat(self.points, self.first_points, axis=1)
        thin: Real = np.minimum.reduceat((high - low).min(axis=0), self.parts.cumsum() - self.parts)
        return thin


class _Loops(NamedTuple):
    """Loops of some slabs in any order: the slab of each corner, loop and part, and what they are."""

    of_points: Whole
    points: Real
    of_loops: Whole
    corners: Whole
    of_parts: Whole
    loops: Whole


def kept(count: Counted, boxes: Whole) -> Kept:
    """What is kept of some touched slabs: the parts big enough to be laid, the biggest in any case."""
    plain, rest = _plain(count, boxes)
    if rest.size:
        plain = _Loops(
            *(np.concatenate(both, axis=-1) for both in zip(plain, _traced(count, boxes, rest), strict=True))
        )
    return Kept(
        plain.points[:, plain.of_points.argsort(kind="stable")],
        plain.corners[plain.of_loops.argsort(kind="stable")],
        plain.loops[plain.of_parts.argsort(kind="stable")],
        np.bincount(plain.of_parts, minlength=boxes.size),
    )


def _plain(count: Counted, boxes: Whole) -> tuple[_Loops, Whole]:
    """Outlines of the slabs that edges come into once, and which slabs aren't such."""
    touched = count.touched
    first, number = touched.first[boxes], touched.first[boxes + 1] - touched.first[boxes]
    once = (touched.entries[boxes] == 1) | (number == 1)
    slabs = np.flatnonzero(once)
    first, number = first[slabs], number[slabs]
    ins = np.append(np.flatnonzero(touched.enters), 0)
    into = np.where(number == 1, first, ins[ins[:-1].searchsorted(first)])
    owner, step = spans(np.zeros_like(number), number - 1)
    pairs = first[owner] + ((into - first)[owner] + step) % number[owner]
    sides = touched.sides[:, boxes[slabs]]
    start, ends = touched.chords[0][:, into], touched.chords[1][:, pairs]
    at = _along(np.array((start, ends[:, number.cumsum() - 1])), sides)
    followed = _followed(count, touched.edges[pairs], owner, number) & _apart(at, sides)
    sure = followed | (number == 1)
    if not sure.all():
        again = np.cumsum(sure) - 1
        of_pairs = sure[owner]
        owner, ends = again[owner[of_pairs]], ends[:, of_pairs]
        slabs, number, sides, start, at = slabs[sure], number[sure], sides[:, sure], start[:, sure], at[:, sure]
    passed_by, corners = _passed(at, sides)
    sizes = 1 + number + np.bincount(passed_by, minlength=slabs.size)
    owners = np.concatenate((slabs, slabs[owner], slabs[passed_by]))
    ones = np.ones_like(slabs)
    plain = _Loops(owners, np.concatenate((start, ends, corners), axis=1), slabs, sizes, slabs, ones)
    rest = np.ones(boxes.size, dtype=bool)
    rest[slabs] = False
    return plain, np.flatnonzero(rest)


def _along(points: Real, sides: Real) -> Real:
    """Distance along the sides counter-clockwise to points on them; below 0 for one inside."""
    x, y = points[:, 0], points[:, 1]
    length, width = sides
    round_left = np.where(x == 0, 2 * (length + width) - y, -1.0)
    round_top = np.where(y == width, 2 * length + width - x, round_left)
    return np.where(y == 0, x, np.where(x == length, length + y, round_top))


def _followed(count: Counted, edges: Whole, owner: Whole, number: Whole) -> Flags:
    """Whether the edges through each slab follow one another round a ring, one by one."""
    broken = (owner[1:] == owner[:-1]) & (count.ground.following[edges[:-1]] != edges[1:])
    return np.bincount(owner[1:][broken], minlength=number.size) == 0


def _apart(at: Real, sides: Real) -> Flags:
    """Whether edges come in and leave on the sides, and not so near each other that the two can't be told apart."""
    perimeter = 2 * (sides[0] + sides[1])
    gap = (at[1] - at[0]) % perimeter
    apart: Flags = (at[0] >= 0) & (at[1] >= 0) & (gap >= TIE) & (perimeter - gap >= TIE)
    return apart


def _passed(at: Real, sides: Real) -> tuple[Whole, Real]:
    """Corners of slabs passed on the way from where edges leave to where they come in: whose, and where."""
    enters, leaves = at
    stops = _STOPS[0] * sides[0] + _STOPS[1] * sides[1]
    end = np.where(enters > leaves, enters, enters + stops[3])
    owner, which = np.nonzero(((stops > leaves) & (stops < end)).T)
    return owner, _CORNERS[:, which] * sides[:, owner]


def _traced(count: Counted, boxes: Whole, slabs: Whole) -> _Loops:
    """Outlines of slabs that have to be traced one by one."""
    tracer = Tracer(count.ground, count.lattice, count.touched, count.rows.places, boxes[slabs])
    strip = least_strip().value * count.lattice.units
    parts = [(slab, part) for k, slab in enumerate(slabs.tolist()) for part in tracer.big_enough(k, strip)]
    loops = [(slab, loop) for slab, part in parts for loop in part.loops]
    corners = np.array([len(loop) for _, loop in loops])
    of_loops = np.array([slab for slab, _ in loops])
    points = np.array([point for _, loop in loops for point in loop]).T
    of_parts, numbers = np.array([(slab, len(part.loops)) for slab, part in parts]).T
    return _Loops(of_loops.repeat(corners), points, of_loops, corners, of_parts, numbers)
