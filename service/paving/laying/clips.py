"""Clips: what the ground leaves of each box that its edges touch.

Along the left side of a box the ground winds so many times round each point; crossing an
edge on the way to the right adds or takes one. So the area inside is the paved length of
the left side times the length of the box, less what each edge inside cuts off on its right:

          +-------+
          |     / |      area = length x paved part of the left side
          |    /  |             - sum of (rise of the edge x mean distance to the right side)
          |   /   |
          +-------+

Only edges that touch the box are needed, and the winding of its reference point.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.laying.arrays import Flags, Real, Whole
from service.paving.laying.encounters import Encounters
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import Lattice
from service.paving.laying.rows import REFERENCE


@dataclass(frozen=True)
class Sights:
    """Edges seen from the corner of a box each.

    Parameters
    ----------
    x0, y0, x1, y1 : Real
        Start and end of the edge from the lower left corner of the box [grid units].
    length, width : Real
        The box.
    """

    x0: Real
    y0: Real
    x1: Real
    y1: Real
    length: Real
    width: Real

    @cached_property
    def dx(self) -> Real:
        return self.x1 - self.x0

    @cached_property
    def dy(self) -> Real:
        return self.y1 - self.y0

    @cached_property
    def doubt(self) -> float:
        """What the cross product of an edge and a point of its box may be wrong by [grid units squared]."""
        if not self.x0.size:
            return 0.0
        longest = max(np.abs(self.dx).max(), np.abs(self.dy).max())
        farthest = max(np.abs(self.x0).max() + self.length.max(), np.abs(self.y0).max() + self.width.max())
        return float(longest * farthest) * 1e-15

    def only(self, kept: Flags | Whole | slice) -> "Sights":
        return Sights(*(a[kept] for a in (self.x0, self.y0, self.x1, self.y1, self.length, self.width)))


def sights(ground: Ground, lattice: Lattice, met: Encounters) -> Sights:
    """Each edge of the ground seen from the box it meets; whole numbers, which floats hold exactly."""
    left, low, length, width = (row.take(met.kind) for row in lattice.boxes.astype(float))
    x = left + met.place * float(lattice.u[0]) + met.row * float(lattice.v[0])
    y = low + met.place * float(lattice.u[1]) + met.row * float(lattice.v[1])
    (x0, y0), (x1, y1) = ([row.take(met.edge) for row in ends.astype(float)] for ends in (ground.starts, ground.ends))
    return Sights(x0 - x, y0 - y, x1 - x, y1 - y, length, width)


@dataclass(frozen=True)
class Chords:
    """The part of each edge inside its box [grid units from the box's corner].

    Parameters
    ----------
    x0, y0, x1, y1 : Real
        Where it starts and ends.
    """

    x0: Real
    y0: Real
    x1: Real
    y1: Real

    def only(self, kept: Flags | Whole | slice) -> "Chords":
        return Chords(self.x0[kept], self.y0[kept], self.x1[kept], self.y1[kept])


def chords(seen: Sights) -> tuple[Chords, Flags]:
    """Clip each edge to its box, and whether it runs through the inside of the box at all.

    An edge along a side of the box doesn't. Ends on a side lie on it exactly.
    """
    dx, dy = seen.dx, seen.dy
    slope = np.divide(dx, dy, out=np.zeros_like(dx), where=dy != 0)
    y0, y1 = np.clip(seen.y0, 0.0, seen.width), np.clip(seen.y1, 0.0, seen.width)
    x0, x1 = seen.x0 + (y0 - seen.y0) * slope, seen.x1 + (y1 - seen.y1) * slope
    touches = (
        (np.minimum(seen.y0, seen.y1) < seen.width)
        & (np.maximum(seen.y0, seen.y1) > 0)
        & (np.minimum(x0, x1) < seen.length)
        & (np.maximum(x0, x1) > 0)
    )
    steep = np.divide(dy, dx, out=np.zeros_like(dx), where=dx != 0)
    a0, a1 = np.clip(x0, 0.0, seen.length), np.clip(x1, 0.0, seen.length)
    low, high = np.minimum(y0, y1), np.maximum(y0, y1)
    b0, b1 = np.clip(y0 + (a0 - x0) * steep, low, high), np.clip(y1 + (a1 - x1) * steep, low, high)
    return Chords(a0, b0, a1, b1), touches


def on_left(seen: Sights, x: Real | float, y: Real | float) -> Flags:
    """Whether a point of each box lies on the left of its edge, or on it: exactly, however near."""
    side = seen.dx * (y - seen.y0) - seen.dy * (x - seen.x0)
    left: Flags = side >= 0
    doubtful = np.flatnonzero(np.abs(side) <= seen.doubt)
    if doubtful.size:
        px, py = np.broadcast_to(x, side.shape), np.broadcast_to(y, side.shape)
        terms = (seen.dx, py, seen.y0, seen.dy, px, seen.x0)
        exact = zip(*([int(n) for n in term[doubtful]] for term in terms), strict=True)
        left[doubtful] = [dx * (y - y0) >= dy * (x - x0) for dx, y, y0, dy, x, x0 in exact]
    return left


@dataclass(frozen=True)
class Sides:
    """What each edge adds on the left and the bottom side of its box, from its reference point on.

    Parameters
    ----------
    left, bottom : Real
        Paved length it adds [grid units].
    reference : Flags
        Whether the reference point lies on its left.
    """

    left: Real
    bottom: Real
    reference: Flags


def sides(seen: Sights) -> Sides:
    """Follow the left and the bottom side of each box past its edge.

    Beyond the edge the winding changes all the way to the far end of the side; if the reference point
    lies beyond it already, it changes back on the way to the corner.
    """
    x, y = REFERENCE
    reference = on_left(seen, x, y)
    up, along = _crossing(seen.x0, seen.x1, x), -_crossing(seen.y0, seen.y1, y)
    dx, dy = np.where(seen.dx == 0, 1.0, seen.dx), np.where(seen.dy == 0, 1.0, seen.dy)
    meets_y = np.clip(seen.y0 - seen.x0 * seen.dy / dx, 0.0, seen.width)
    meets_x = np.clip(seen.x0 - seen.y0 * seen.dx / dy, 0.0, seen.length)
    return Sides(
        left=up * np.where(reference == (up < 0), seen.width - meets_y, -meets_y),
        bottom=along * np.where(reference == (along < 0), seen.length - meets_x, -meets_x),
        reference=reference,
    )


@dataclass(frozen=True)
class Turns:
    """Windings each edge adds on the way to the other corners of its box.

    Parameters
    ----------
    top_left, bottom_right : Real
        From the reference point.
    top_right : Real
        From the top left corner.
    """

    top_left: Real
    bottom_right: Real
    top_right: Real


def turns(seen: Sights, reference: Flags) -> Turns:
    """Follow the left, the bottom and the top side of each box past its edge, from corner to corner."""
    (x, y), right, top = REFERENCE, seen.length - REFERENCE[0], seen.width - REFERENCE[1]
    top_left, bottom_right, top_right = on_left(seen, x, top), on_left(seen, right, y), on_left(seen, right, top)
    up = _crossing(seen.x0, seen.x1, x)
    along, high = -_crossing(seen.y0, seen.y1, y), -_crossing(seen.y0, seen.y1, top)
    return Turns(
        top_left=up * ((reference == (up < 0)) & (top_left == (up > 0))),
        bottom_right=along * ((reference == (along < 0)) & (bottom_right == (along > 0))),
        top_right=high * ((top_left == (high < 0)) & (top_right == (high > 0))),
    )


def _crossing(first: Real, second: Real, level: Real | float) -> Real:
    """1 where an edge passes a level upwards, −1 downwards, 0 where it doesn't."""
    return (second > level).astype(float) - (first > level)
