"""How much of an outline lies inside a disc, exactly, arcs and all.

Seen from the middle of the disc, the area in common is the sum over the outline of
½ ∫ min(r, R)² dθ: along the parts that lie within the disc the ordinary ½ ∫ (x dy − y dx),
along those beyond it ½ R² times the angle they are seen under.

          . - - .
        /    +---\\---------+
       |  R  |    |        |
        \\    +---/---------+
          ' - - '
"""

import math
from collections.abc import Iterator
from itertools import pairwise

from service.paving.areas import Area
from service.paving.outlines import Arc, Outline, Point


def disc_overlap(area: Area, middle: Point, radius: float) -> float:
    """Part of an area that lies in a disc.

    Parameters
    ----------
    area : Area
        The area with its openings.
    middle : Point
        Where the middle of the disc stands on plan [m].
    radius : float
        Radius of the disc [m], above 0.

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry (Green's theorem)

    Examples
    --------
    >>> from service.paving.areas import area, rectangle
    >>> round(disc_overlap(area(rectangle(4.0, 3.0)), (0.0, 0.0), 2.0), 9)
    3.141592654
    """
    openings = sum(_outline_in_disc(opening.outline, middle, radius) for opening in area.openings)
    return _outline_in_disc(area.outline, middle, radius) - openings


def _outline_in_disc(outline: Outline, middle: Point, radius: float) -> float:
    mx, my = middle
    moved = outline.moved(-mx, -my)
    rises = moved.rises or (0.0,) * len(moved.points)
    return sum(_side_in_disc(p, q, rise, radius) for (p, q), rise in zip(moved.sides, rises, strict=True))


def _side_in_disc(start: Point, end: Point, rise: float, radius: float) -> float:
    """What a side adds, part by part; the disc stands at (0, 0)."""
    if rise:
        return sum(_arc_part(part, radius) for part in _arc_parts(Arc(start, end, rise), radius))
    return sum(_line_part(p, q, radius) for p, q in pairwise(_line_points(start, end, radius)))


def _line_points(start: Point, end: Point, radius: float) -> Iterator[Point]:
    """A straight side's ends, and where it crosses the circle between them."""
    (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
    square, half = dx * dx + dy * dy, x * dx + y * dy
    root = half * half - square * (x * x + y * y - radius * radius)
    yield start
    if root > 0:
        for sign in (-1, 1):
            share = (-half + sign * math.sqrt(root)) / square
            if 0 < share < 1:
                yield x + share * dx, y + share * dy
    yield end


def _line_part(start: Point, end: Point, radius: float) -> float:
    cross, dot = _products(start, end)
    if math.hypot(start[0] + end[0], start[1] + end[1]) / 2 < radius:
        return cross / 2
    return radius**2 / 2 * math.atan2(cross, dot)


def _arc_parts(arc: Arc, radius: float) -> Iterator[Arc]:
    """An arc in parts, each wholly within the circle or wholly beyond it."""
    (cx, cy), (x, y), sign = arc.centre, arc.start, math.copysign(1, arc.rise)
    first = math.atan2(y - cy, x - cx)

    def at(turn: float) -> Point:
        return cx + arc.radius * math.cos(first + sign * turn), cy + arc.radius * math.sin(first + sign * turn)

    turns = sorted((angle - first) * sign % (2 * math.pi) for angle in _crossings(arc, radius))
    marks = [0.0, *(turn for turn in turns if 1e-9 < turn < arc.angle - 1e-9), arc.angle]
    for before, after in pairwise(marks):
        yield Arc(at(before), at(after), sign * arc.radius * (1 - math.cos((after - before) / 2)))


def _crossings(arc: Arc, radius: float) -> Iterator[float]:
    """Angles about an arc's centre at which its whole circle crosses that of the disc [rad]."""
    away = math.hypot(*arc.centre)
    if not abs(arc.radius - radius) < away < arc.radius + radius:
        return
    towards = math.atan2(-arc.centre[1], -arc.centre[0])
    aside = math.acos((away**2 + arc.radius**2 - radius**2) / (2 * away * arc.radius))
    yield from (towards - aside, towards + aside)


def _arc_part(arc: Arc, radius: float) -> float:
    cross, dot = _products(arc.start, arc.end)
    (x0, y0), (x1, y1), (nx, ny) = arc.start, arc.end, arc.outward
    rise = abs(arc.rise)
    if math.hypot((x0 + x1) / 2 + nx * rise, (y0 + y1) / 2 + ny * rise) < radius:
        return cross / 2 + arc.area
    seen = math.atan2(cross, dot)
    # Between chord and arc the middle sees the arc the other way round from its chord.
    if seen * arc.rise < 0 and math.hypot(*arc.centre) < arc.radius:
        seen += math.copysign(2 * math.pi, arc.rise)
    return radius**2 / 2 * seen


def _products(p: Point, q: Point) -> tuple[float, float]:
    return p[0] * q[1] - q[0] * p[1], p[0] * q[0] + p[1] * q[1]
