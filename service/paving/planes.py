"""Planes: a surface that falls evenly, and what lies under it.

level |.                      z = level − gradient x × reach x − gradient y × reach y
      |  ` ' - . _
      |            ` ' - .    Under a plane the volume over any shape is its area
      +--------------------   times the depth at its centroid.
"""

import math
from dataclasses import dataclass

from service.paving.areas import Area, MeasuredArea
from service.paving.formulas import formula
from service.paving.outlines import Outline, Point


@formula
def steepest_gradient(gradient_x: float, gradient_y: float) -> float:
    """Gradient of a plane along its steepest line.

    Parameters
    ----------
    gradient_x, gradient_y : float
        Fall along x and along y [1].

    Returns
    -------
    float
        Gradient [1].

    References
    ----------
    Geometry (Pythagoras)

    Examples
    --------
    >>> steepest_gradient(0.03, 0.04)
    0.05
    """
    return (gradient_x**2 + gradient_y**2) ** 0.5


@formula
def fall_height(gradient: float, run: float) -> float:
    """How much a plane drops over a run in the direction of its fall.

    Parameters
    ----------
    gradient : float
        Gradient [1], 0 or more.
    run : float
        Length on plan in the direction of the fall [m].

    Returns
    -------
    float
        Height [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> fall_height(0.025, 5.0)
    0.125
    """
    return gradient * run


@formula
def plane_level(level: float, gradient_x: float, reach_x: float, gradient_y: float, reach_y: float) -> float:
    """Level of a plane at some reach from a point of known level.

    Parameters
    ----------
    level : float
        Known level [m].
    gradient_x, gradient_y : float
        Fall along x and along y [1].
    reach_x, reach_y : float
        Distance from the known point along x and along y [m].

    Returns
    -------
    float
        Level [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> plane_level(0.0, 0.02, 4.0, 0.01, 3.0)
    -0.11
    """
    return level - gradient_x * reach_x - gradient_y * reach_y


@formula
def volume_under_plane(area: float, depth_at_centroid: float) -> float:
    """Volume between two planes over an area of any shape.

    Parameters
    ----------
    area : float
        Area on plan [m2].
    depth_at_centroid : float
        Distance between the planes at the centroid of the area [m].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> volume_under_plane(20.0, 0.25)
    5.0
    """
    return area * depth_at_centroid


@dataclass(frozen=True, slots=True)
class Reach:
    """The least and the greatest of something over an area [m]."""

    least: float
    greatest: float


@dataclass(frozen=True, slots=True)
class Plane:
    """A plane over the plan, or the distance between two of them.

    Parameters
    ----------
    level : float
        Level at the point it is known at [m].
    gradient_x, gradient_y : float
        Fall along x and along y [1]; negative where it rises.
    known_at : Point
        Where the level is known [m].
    """

    level: float
    gradient_x: float = 0.0
    gradient_y: float = 0.0
    known_at: Point = (0.0, 0.0)

    def at(self, point: Point) -> float:
        """Level at a point [m].

        Examples
        --------
        >>> round(Plane(0.1, gradient_x=0.02).at((3.0, 7.0)), 9)
        0.04
        """
        return self.level - self.drop(point)

    def drop(self, point: Point) -> float:
        """How far a point lies below the known one [m]."""
        (x, y), (x0, y0) = point, self.known_at
        return self.gradient_x * (x - x0) + self.gradient_y * (y - y0)

    def lowered(self, by: float) -> "Plane":
        """The plane some distance further down [m]."""
        return Plane(self.level - by, self.gradient_x, self.gradient_y, self.known_at)

    def above(self, other: "Plane") -> "Plane":
        """The distance from another plane up to this one, a plane itself.

        Examples
        --------
        >>> Plane(0.0, 0.02).above(Plane(-0.2)).at((5.0, 0.0))
        0.1
        """
        return Plane(
            self.level - other.at(self.known_at),
            self.gradient_x - other.gradient_x,
            self.gradient_y - other.gradient_y,
            self.known_at,
        )

    @property
    def gradient(self) -> float:
        """Gradient along the steepest line [1]."""
        return math.hypot(self.gradient_x, self.gradient_y)

    @property
    def is_level(self) -> bool:
        return self.gradient_x == self.gradient_y == 0

    def over(self, area: Area) -> Reach:
        """Least and greatest level over an area [m], exact along arcs too."""
        if self.is_level:
            return Reach(self.level, self.level)
        near, far = _ends(area.outline, (self.gradient_x, self.gradient_y))
        return Reach(self.at(far), self.at(near))


def mean_over(area: Area, plane: Plane) -> float:
    """Mean of a plane over an area, openings left out [m].

    Examples
    --------
    >>> from service.paving.areas import area, rectangle
    >>> round(mean_over(area(rectangle(4.0, 3.0)), Plane(0.1, 0.02)), 9)
    0.06
    """
    return plane.at(area.centroid)


def fall_run(area: Area, plane: Plane) -> float:
    """How far an area reaches in the direction a plane falls [m]; 0 if it is level.

    Examples
    --------
    >>> from service.paving.areas import area, circle
    >>> round(fall_run(area(circle(4.0)), Plane(0.0, 0.03, 0.04)), 9)
    4.0
    """
    if plane.is_level:
        return 0.0
    near, far = _ends(area.outline, (plane.gradient_x, plane.gradient_y))
    return plane.drop(far) / plane.gradient - plane.drop(near) / plane.gradient


def section_ends(area: Area | MeasuredArea, plane: Plane) -> tuple[Point, Point]:
    """Ends of a section through the middle of an area, from where a plane lies high to where it lies low [m].

    Along x where it is level; of an area without a shape, across a square of the same size.
    """
    if isinstance(area, MeasuredArea):
        return (0.0, 0.0), (math.sqrt(area.net), 0.0)
    gx, gy = (1.0, 0.0) if plane.is_level else (plane.gradient_x / plane.gradient, plane.gradient_y / plane.gradient)
    (cx, cy), ends = area.centroid, _ends(area.outline, (gx, gy))
    near, far = ((x - cx) * gx + (y - cy) * gy for x, y in ends)
    return (cx + gx * near, cy + gy * near), (cx + gx * far, cy + gy * far)


def lowest_point(area: Area, plane: Plane) -> Point:
    """A point of the outline that lies lowest [m]."""
    return _ends(area.outline, (plane.gradient_x, plane.gradient_y))[1]


def highest_point(area: Area, plane: Plane) -> Point:
    """A point of the outline that lies highest [m]."""
    return _ends(area.outline, (plane.gradient_x, plane.gradient_y))[0]


def _ends(outline: Outline, direction: Point) -> tuple[Point, Point]:
    """The points of an outline that lie nearest and furthest in a direction."""
    dx, dy = direction
    length = math.hypot(dx, dy)
    points = list(outline.points)
    for arc in outline.arcs if length else ():
        (cx, cy), (x0, y0), (nx, ny) = arc.centre, arc.start, arc.outward
        for radius in (arc.radius, -arc.radius):
            point = (cx + radius * dx / length, cy + radius * dy / length)
            if (point[0] - x0) * nx + (point[1] - y0) * ny > 0:
                points.append(point)
    ordered = sorted(points, key=lambda point: point[0] * dx + point[1] * dy)
    return ordered[0], ordered[-1]
