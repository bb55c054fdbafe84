"""Insets: an outline drawn again at an even distance inside or outside itself.

    +-----------------+
    |  +-----------+  |
    |  |   inset   |  | distance
    |  +-----------+--+
    +-----------------+

Straight sides stay straight and arcs stay arcs about the same centre, so the inset is exact.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import shapely

from service.paving.areas import Shape, circle_area, polygon_area
from service.paving.errors import ImpossibleShape
from service.paving.outlines import SAGITTA, Arc, Outline, Point
from service.paving.sides import Side, sides_of


def inset_shape(shape: Shape, distance: float) -> Shape:
    """A shape drawn again some distance inside itself.

    Parameters
    ----------
    shape : Shape
        What to start from.
    distance : float
        How far inwards [m]; outwards if negative.

    Raises
    ------
    ImpossibleShape
        If a side is used up, or two sides meet across the shape.
    """
    drawn = inset(shape.outline, distance)
    if shape.formula is circle_area:
        left, _, right, _ = drawn.bounds
        return Shape(drawn, circle_area, (right - left,))
    return Shape(drawn, polygon_area, (drawn.sides,))


def inset(outline: Outline, distance: float) -> Outline:
    """An outline drawn again some distance inside itself.

    Parameters
    ----------
    outline : Outline
        What to start from.
    distance : float
        How far inwards [m]; outwards if negative.

    Raises
    ------
    ImpossibleShape
        If a side is used up, or two sides meet across the outline.

    References
    ----------
    Geometry (parallel curves; each corner is where the parallels of its two sides meet)

    Examples
    --------
    >>> inset(Outline(((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))), 0.5).area
    6.0
    """
    parallels = [_parallel(outline, side, distance) for side in sides_of(outline)]
    points = tuple(_corner(point, parallels[k - 1], parallels[k], distance) for k, point in enumerate(outline.points))
    rises = tuple(_rise(*pair) for pair in zip(parallels, Outline(points).sides, strict=True))
    drawn = Outline(points, rises if outline.rises else ())
    _refuse_used_up(outline, drawn, distance)
    return drawn


@dataclass(frozen=True, slots=True)
class _Parallel:
    """What runs along a side at the distance, and the side's own directions at its start and its end.

    Parameters
    ----------
    point : Point
        A point of a line, or the centre of a circle [m].
    start, end : Point
        Unit vectors along the side.
    radius : float
        Radius of the circle [m]; 0 of a line.
    bend : float
        How far the side turns to the left [rad].
    """

    point: Point
    start: Point
    end: Point
    radius: float
    bend: float


def _parallel(outline: Outline, side: Side, distance: float) -> _Parallel:
    start, end = outline.sides[side.number]
    if not side.bend:
        # Not by its heading: what runs along x or y must go on doing so exactly.
        along = (end[0] - start[0]) / side.length, (end[1] - start[1]) / side.length
        point = start[0] - distance * along[1], start[1] + distance * along[0]
        return _Parallel(point, along, along, 0.0, 0.0)
    radius = side.radius - math.copysign(1, side.bend) * distance
    if radius <= 0:
        raise ImpossibleShape(
            f"The arc of side {side.number + 1}, {side.radius:g} m in radius, is too tight: "
            f"nothing of it is left {_where(distance)}."
        )
    first, last = ((math.cos(heading), math.sin(heading)) for heading in (side.start_heading, side.end_heading))
    return _Parallel(Arc(start, end, outline.rises[side.number]).centre, first, last, radius, side.bend)


def _corner(point: Point, before: _Parallel, after: _Parallel, distance: float) -> Point:
    """Where the parallels before and after a corner meet, nearest to where its tangents' would."""
    (x0, y0), (x1, y1) = before.end, after.start
    reach = distance / (1 + x0 * x1 + y0 * y1)
    mitre = (point[0] - reach * (y0 + y1), point[1] + reach * (x0 + x1))
    if not (before.radius or after.radius) or abs(x0 * y1 - y0 * x1) < 1e-9:
        return mitre
    return min(_meetings(before, after), key=lambda found: math.dist(found, mitre), default=mitre)


def _meetings(one: _Parallel, other: _Parallel) -> Iterator[Point]:
    """Where two parallels meet, one of them a circle at least."""
    if one.radius and other.radius:
        return _on_circles(one, other)
    return _on_line(one, other) if other.radius else _on_line(other, one)


def _on_line(line: _Parallel, circle: _Parallel) -> Iterator[Point]:
    (x, y), (ux, uy) = line.point, line.start
    dx, dy = x - circle.point[0], y - circle.point[1]
    along, across = dx * ux + dy * uy, dx * uy - dy * ux
    half_chord = circle.radius**2 - across**2
    if half_chord >= 0:
        for reach in (math.sqrt(half_chord), -math.sqrt(half_chord)):
            yield x + (reach - along) * ux, y + (reach - along) * uy


def _on_circles(one: _Parallel, other: _Parallel) -> Iterator[Point]:
    (x0, y0), (x1, y1) = one.point, other.point
    apart = math.dist(one.point, other.point)
    if not abs(one.radius - other.radius) <= apart <= one.radius + other.radius or not apart:
        return
    along = (apart**2 + one.radius**2 - other.radius**2) / (2 * apart)
    ux, uy = (x1 - x0) / apart, (y1 - y0) / apart
    half_chord = math.sqrt(max(one.radius**2 - along**2, 0.0))
    for across in (half_chord, -half_chord):
        yield x0 + along * ux - across * uy, y0 + along * uy + across * ux


def _rise(parallel: _Parallel, ends: tuple[Point, Point]) -> float:
    """Rise of the arc from one point of its circle to another [m]; 0 if it is straight."""
    if not parallel.radius:
        return 0.0
    cx, cy = parallel.point
    first, last = (math.atan2(y - cy, x - cx) for x, y in ends)
    sign = math.copysign(1, parallel.bend)
    swept = (last - first) * sign % (2 * math.pi)
    return sign * parallel.radius * (1 - math.cos(swept / 2))


def _refuse_used_up(old: Outline, new: Outline, distance: float) -> None:
    for k, ((p, q), (start, end)) in enumerate(zip(old.sides, new.sides, strict=True)):
        if (q[0] - p[0]) * (end[0] - start[0]) + (q[1] - p[1]) * (end[1] - start[1]) <= 0:
            raise ImpossibleShape(f"Side {k + 1} is too short: nothing of it is left {_where(distance)}.")
    before, after = shapely.LinearRing(old.ring), shapely.Polygon(new.ring)
    if not after.is_valid or before.distance(after.exterior) < abs(distance) - 2 * SAGITTA:
        raise ImpossibleShape(f"The area is too narrow: its edges meet {_where(distance)}.")


def _where(distance: float) -> str:
    return f"{abs(distance) * 1000:g} mm {'inside' if distance > 0 else 'outside'} the outline"
