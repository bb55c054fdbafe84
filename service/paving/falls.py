"""Falls: which way the finished surface sheds water, and whether that is enough, or into the house.

An angle runs counter-clockwise from x, as everywhere on plan; the four sides of the paper have names:

                 top
            +-----------+
       left |   area    | right      a fall towards the right is an angle of 0
            +-----------+
               bottom
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from service.paving.areas import Area
from service.paving.cautions import caution
from service.paving.errors import OutOfRange
from service.paving.outlines import Outline, Point
from service.paving.planes import Plane
from service.paving.reference import default
from service.paving.sheets import Sheet


class PlanSide(StrEnum):
    """A side of the plan as it lies on paper."""

    RIGHT = "right"
    TOP = "top"
    LEFT = "left"
    BOTTOM = "bottom"

    @property
    def direction(self) -> Point:
        """Unit vector towards it."""
        x = (self is PlanSide.RIGHT) - (self is PlanSide.LEFT)
        return float(x), float((self is PlanSide.TOP) - (self is PlanSide.BOTTOM))


@dataclass(frozen=True, slots=True)
class Fall:
    """How much a surface falls along x and along y [1]; negative where it rises."""

    gradient_x: float
    gradient_y: float

    @property
    def is_level(self) -> bool:
        return self.gradient_x == self.gradient_y == 0

    def from_point(self, point: Point, level: float) -> Plane:
        """The surface with this fall and a known level [m] at a point."""
        return Plane(level, self.gradient_x, self.gradient_y, point)


#: No fall at all.
LEVEL = Fall(0.0, 0.0)


def fall_to_side(gradient: float, side: PlanSide) -> Fall:
    """A fall straight towards a side.

    Examples
    --------
    >>> fall_to_side(0.02, PlanSide.TOP)
    Fall(gradient_x=0.0, gradient_y=0.02)
    """
    x, y = side.direction
    return Fall(gradient * x + 0.0, gradient * y + 0.0)


def fall_at_angle(gradient: float, angle: float) -> Fall:
    """A fall in any direction.

    Parameters
    ----------
    gradient : float
        Gradient [1], 0 or more.
    angle : float
        Direction, counter-clockwise from x [rad].

    Returns
    -------
    Fall
        Exact at quarter turns.

    Examples
    --------
    >>> fall_at_angle(0.02, math.pi / 2)
    Fall(gradient_x=0.0, gradient_y=0.02)
    """
    cosine, sine = (0.0 if abs(part) < 1e-12 else part for part in (math.cos(angle), math.sin(angle)))
    return Fall(gradient * cosine, gradient * sine)


@dataclass(frozen=True, slots=True)
class DampProofCourse:
    """A damp-proof course in the wall of a house.

    Parameters
    ----------
    level : float
        Its level relative to the datum [m].
    wall : PlanSide, int or None
        Where the wall stands: along a side of the plan, along one side of the outline counted
        from 1, or, if it isn't said, anywhere round the area.
    """

    level: float
    wall: PlanSide | int | None = None


def caution_gradient(sheet: Sheet, gradient: float) -> None:
    """Caution against a fall too flat to shed water, too steep to lay, walk or drive on [1]."""
    because = f"The fall is {in_words(gradient)}."
    limits = {name: default("levels", name).value for name in ("flattest_flags", "flattest_blocks")}
    if gradient < limits["flattest_flags"] * (1 - 1e-9):
        sheet.caution(caution("flat_fall", because))
    if gradient < limits["flattest_blocks"] * (1 - 1e-9):
        sheet.caution(caution("flat_fall_for_blocks", because))
    for code, name in (
        ("steep_fall", "steepest_flags"),
        ("ramp", "gentle_slope"),
        ("drive_transition", "drive_transition"),
        ("drive_too_steep", "steepest_drive"),
    ):
        if gradient > default("levels", name).value * (1 + 1e-9):
            sheet.caution(caution(code, because))


def caution_wall(sheet: Sheet, area: Area, surface: Plane, dpc: DampProofCourse) -> None:
    """Caution against a surface that runs to the wall or stands too near its damp-proof course.

    Raises
    ------
    OutOfRange
        If the outline has no such side, or none that lies along that side of the plan.
    """
    walls = wall_sides(area.outline, dpc.wall)
    highest = max(surface.at(point) for side in walls for point in side)
    gap, least = dpc.level - highest, default("levels", "least_below_dpc").value
    if gap < least - 1e-9:
        stands = f"{gap * 1000:.0f} mm below" if gap >= 0 else f"{-gap * 1000:.0f} mm above"
        sheet.caution(caution("near_dpc", f"At the wall the finished level stands {stands} the damp-proof course."))
    towards = max((_towards(surface, side) for side in walls), default=0.0)
    if dpc.wall is not None and towards > 1e-9:
        sheet.caution(caution("fall_to_wall", f"The surface falls {in_words(towards)} towards the wall."))


def wall_sides(outline: Outline, wall: PlanSide | int | None) -> list[tuple[Point, Point]]:
    """The sides of an outline that stand against a wall.

    Raises
    ------
    OutOfRange
        If there is no such side.
    """
    if wall is None:
        return list(outline.sides)
    if isinstance(wall, int):
        if wall > len(outline.sides):
            raise OutOfRange(f"There is no side {wall}: the outline has {len(outline.sides)} sides.", "wall")
        return [outline.sides[wall - 1]]
    dx, dy = wall.direction
    furthest = max(x * dx + y * dy for x, y in outline.points)
    along = [side for side in outline.sides if all(x * dx + y * dy > furthest - 1e-9 for x, y in side)]
    if not along:
        raise OutOfRange(f"No straight side of the outline lies along the {wall}; give the side by its number.", "wall")
    return along


def in_words(gradient: float) -> str:
    """A gradient as the trade says it: "1 in 60"; "level" if there is none.

    Examples
    --------
    >>> in_words(0.025), in_words(0.0)
    ('1 in 40', 'level')
    """
    return f"1 in {1 / gradient:.4g}" if gradient > 0 else "level"


def _towards(surface: Plane, side: tuple[Point, Point]) -> float:
    """How much a surface falls outwards across a side of a counter-clockwise outline [1]."""
    (x0, y0), (x1, y1) = side
    return (surface.gradient_x * (y1 - y0) - surface.gradient_y * (x1 - x0)) / math.dist(*side)
