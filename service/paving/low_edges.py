"""Low edges: the sides that water runs over on its way off the paving.

     fall
+-----|-----+
|     v     |
|     +-----+   low edge
|     |
+-----+         low edge
"""

import math
from dataclasses import dataclass

from service.paving.falls import Fall
from service.paving.outlines import Outline
from service.paving.reference import default
from service.paving.sides import Side, sides_of, turned


@dataclass(frozen=True, slots=True)
class LowSide:
    """A side, or the part of an arc, that water runs over [m]."""

    name: str
    length: float


def low_sides(outline: Outline, fall: Fall) -> tuple[LowSide, ...]:
    """The sides that water leaves an outline over.

    Parameters
    ----------
    outline : Outline
        Edge of the paving.
    fall : Fall
        Which way it falls; not level.

    Returns
    -------
    tuple of LowSide
        In the order of the sides; of an arc the part whose outside lies downhill.

    Notes
    -----
    Water that runs nearly along a side, within a few degrees, counts as not running over it.

    References
    ----------
    Geometry

    Examples
    --------
    >>> low_sides(Outline(((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))), Fall(0.0, 0.02))
    (LowSide(name='side 3', length=4.0),)
    """
    downhill = math.atan2(fall.gradient_y, fall.gradient_x)
    found = (LowSide(f"side {side.number + 1}", _crossed(side, downhill)) for side in sides_of(outline))
    return tuple(side for side in found if side.length > 0)


def _crossed(side: Side, downhill: float) -> float:
    """Length of a side that water runs over [m]."""
    # The outside lies to the right of the walk: water crosses where the walk heads to the left of downhill.
    slack = default("drainage", "least_crossing").value
    if not side.bend:
        return side.length if slack < turned(side.start_heading - downhill) < math.pi - slack else 0.0
    first = turned(side.start_heading - downhill)
    low, high = sorted((first, first + side.bend))
    # The heading may come round once more, so the range that crosses stands at three turns.
    ranges = ((slack + 2 * math.pi * k, math.pi - slack + 2 * math.pi * k) for k in (-1, 0, 1))
    return sum(max(0.0, min(high, end) - max(low, start)) for start, end in ranges) * side.radius
