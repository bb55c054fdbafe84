"""The sides of an outline as they are walked: length, bend, and the turn onto each."""

import math
from dataclasses import dataclass

from service.paving.outlines import Arc, Outline, Point


@dataclass(frozen=True, slots=True)
class Side:
    """One side of an outline.

    Parameters
    ----------
    number : int
        Which side, counted from 0.
    length : float
        Length along it [m].
    start_heading, end_heading : float
        Direction of the walk at its start and its end, from the x axis [rad].
    bend : float
        How far it turns to the left on its way [rad]; negative if it is a hollow arc.
    turn : float
        How far the walk turns to the left onto this side, between −π and π [rad]; negative at a
        corner that points into the outline.
    """

    number: int
    length: float
    start_heading: float
    end_heading: float
    bend: float
    turn: float

    @property
    def radius(self) -> float:
        """Radius of an arc [m]."""
        return self.length / abs(self.bend)

    def square_within(self, slack: float) -> bool:
        """Whether the corner onto this side is square, give or take some angle [rad]."""
        return abs(abs(self.turn) - math.pi / 2) < slack


def sides_of(outline: Outline) -> tuple[Side, ...]:
    """The sides of an outline in order."""
    walked = [_walked(*ends, rise) for ends, rise in zip(outline.sides, _rises(outline), strict=True)]
    return tuple(
        Side(k, length, start, end, bend, turned(start - walked[k - 1][2]))
        for k, (length, start, end, bend) in enumerate(walked)
    )


def turned(angle: float) -> float:
    """An angle brought between −π and π [rad]."""
    return math.remainder(angle, 2 * math.pi)


def _rises(outline: Outline) -> tuple[float, ...]:
    return outline.rises or (0.0,) * len(outline.points)


def _walked(start: Point, end: Point, rise: float) -> tuple[float, float, float, float]:
    """Length, heading at the start and at the end, and bend."""
    heading = math.atan2(end[1] - start[1], end[0] - start[0])
    if not rise:
        return math.dist(start, end), heading, heading, 0.0
    arc = Arc(start, end, rise)
    half = math.copysign(arc.angle / 2, rise)
    return arc.length, heading - half, heading + half, 2 * half
