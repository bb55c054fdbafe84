"""Closed outlines on plan, of straight sides and arcs.

An outline is a list of points joined in turn, counter-clockwise, each side straight or
bulged into an arc by its rise:

            rise
          . - ^ - .
        /     |     \\
    point ----+---- next point        rise > 0 bulges out of the outline

A circle is two half-circle arcs, so one kind of outline serves every shape.
"""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

Point = tuple[float, float]

#: Greatest distance between an arc and the chords it is laid out by [m]: half a millimetre, finer than a joint.
SAGITTA = 0.0005

#: The four directions.
_QUARTERS = ((1, 0), (0, 1), (-1, 0), (0, -1))


@dataclass(frozen=True)
class Arc:
    """A circular arc from one point to another.

    Parameters
    ----------
    start, end : Point
        Ends [m].
    rise : float
        Height of the arc over its chord [m], positive to the right of the walk from
        start to end (outwards on a counter-clockwise outline), at most half the chord.

    Notes
    -----
    Radius R = (c²/4 + h²) / 2h and angle θ = 4 atan(2h/c) for a chord c and a rise h.

    References
    ----------
    Geometry (circular segment).
    """

    start: Point
    end: Point
    rise: float

    @cached_property
    def _measures(self) -> tuple[float, float, Point]:
        """Radius and angle, and the unit vector across the chord to the side the arc bulges."""
        (x0, y0), (x1, y1), rise = self.start, self.end, abs(self.rise)
        chord = math.hypot(x1 - x0, y1 - y0)
        sign = math.copysign(1 / chord, self.rise)
        return (
            (chord**2 / 4 + rise**2) / (2 * rise),
            4 * math.atan(2 * rise / chord),
            ((y1 - y0) * sign, (x0 - x1) * sign),
        )

    @property
    def radius(self) -> float:
        return self._measures[0]

    @property
    def angle(self) -> float:
        """Angle at the centre [rad]."""
        return self._measures[1]

    @property
    def length(self) -> float:
        radius, angle, _ = self._measures
        return radius * angle

    @property
    def area(self) -> float:
        """Signed area between arc and chord [m2]."""
        radius, angle, _ = self._measures
        return math.copysign(radius**2 * (angle - math.sin(angle)) / 2, self.rise)

    @property
    def outward(self) -> Point:
        """Unit vector across the chord, to the side the arc bulges."""
        return self._measures[2]

    @property
    def centre(self) -> Point:
        return self._along(abs(self.rise) - self.radius)

    @property
    def centroid(self) -> Point:
        """Centroid of the segment between arc and chord [m]."""
        radius, angle, _ = self._measures
        reach = 4 * radius * math.sin(angle / 2) ** 3 / (3 * (angle - math.sin(angle)))
        return self._along(abs(self.rise) - radius + reach)

    def chords(self, sagitta: float) -> list[Point]:
        """Points between start and end whose chords enclose exactly the arc's area.

        The inner points stand on a slightly larger radius: with n chords of angle φ,
        (n−2) s r²/2 + R s r = R² θ/2, s = sin φ, solved for r.
        """
        count = max(2, math.ceil(self.angle / (2 * math.acos(max(0.0, 1 - sagitta / self.radius)))))
        sine = math.sin(self.angle / count)
        a, b, c = (count - 2) * sine / 2, self.radius * sine, -(self.radius**2) * self.angle / 2
        inner = -c / b if count == 2 else (math.sqrt(b * b - 4 * a * c) - b) / (2 * a)
        (cx, cy), (x0, y0) = self.centre, self.start
        first = math.atan2(y0 - cy, x0 - cx)
        turn = math.copysign(self.angle / count, self.rise)
        return [
            (cx + inner * math.cos(first + k * turn), cy + inner * math.sin(first + k * turn)) for k in range(1, count)
        ]

    def extremes(self) -> Iterator[Point]:
        """Points of the arc furthest left, right, up and down, where it passes them: beyond its chord."""
        radius, _, (nx, ny) = self._measures
        chord = radius - abs(self.rise)  # its distance from the centre
        cx, cy = self.centre
        for dx, dy in _QUARTERS:
            if radius * (dx * nx + dy * ny) > chord:
                yield cx + radius * dx, cy + radius * dy

    def _along(self, distance: float) -> Point:
        (x0, y0), (x1, y1), (nx, ny) = self.start, self.end, self.outward
        return (x0 + x1) / 2 + nx * distance, (y0 + y1) / 2 + ny * distance


@dataclass(frozen=True)
class Outline:
    """A closed outline, counter-clockwise.

    Parameters
    ----------
    points : tuple of Point
        Corners in order [m], three or more (two if both sides are arcs), not closed.
    rises : tuple of float
        Rise of each side [m], from its point to the next; 0 is straight.
    """

    points: tuple[Point, ...]
    rises: tuple[float, ...] = ()

    @cached_property
    def sides(self) -> tuple[tuple[Point, Point], ...]:
        return tuple(zip(self.points, (*self.points[1:], self.points[0]), strict=True))

    @cached_property
    def arcs(self) -> tuple[Arc, ...]:
        """The sides that are arcs."""
        return tuple(filter(None, self._bent))

    @cached_property
    def _bent(self) -> tuple[Arc | None, ...]:
        """Each side that is an arc, in its place; nothing at all if none is."""
        return tuple(Arc(*side, rise) if rise else None for side, rise in zip(self.sides, self.rises, strict=False))

    @cached_property
    def side_lengths(self) -> tuple[float, ...]:
        """Length of each side along its arc or its straight line [m]."""
        if not self.rises:
            return tuple(itertools.starmap(math.dist, self.sides))
        return tuple(arc.length if arc else math.dist(*side) for side, arc in zip(self.sides, self._bent, strict=True))

    @cached_property
    def perimeter(self) -> float:
        return sum(self.side_lengths)

    @cached_property
    def area(self) -> float:
        """Enclosed area [m2]."""
        return self._corner_area + sum(arc.area for arc in self.arcs)

    @cached_property
    def _corner_area(self) -> float:
        x, y = self.points[0]
        return sum((x0 - x) * (y1 - y) - (x1 - x) * (y0 - y) for (x0, y0), (x1, y1) in self.sides) / 2

    @cached_property
    def centroid(self) -> Point:
        """Centroid of the enclosed area [m]."""
        x, y = self.points[0]
        sum_x = sum_y = 0.0
        for (x0, y0), (x1, y1) in self.sides:
            cross = (x0 - x) * (y1 - y) - (x1 - x) * (y0 - y)
            sum_x += cross * (x0 + x1 - 2 * x) / 6
            sum_y += cross * (y0 + y1 - 2 * y) / 6
        for arc in self.arcs:
            ax, ay = arc.centroid
            sum_x += arc.area * (ax - x)
            sum_y += arc.area * (ay - y)
        return x + sum_x / self.area, y + sum_y / self.area

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y [m]."""
        points = (
            [*self.points, *(point for arc in self.arcs for point in arc.extremes())] if self.rises else self.points
        )
        xs, ys = zip(*points, strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    @cached_property
    def ring(self) -> tuple[Point, ...]:
        """The outline as straight chords of exactly the same area, not closed."""
        if not self.arcs:
            return self.points
        ring: list[Point] = []
        for point, arc in zip(self.points, self._bent, strict=True):
            ring.append(point)
            if arc:
                ring.extend(arc.chords(SAGITTA))
        return tuple(ring)

    def moved(self, dx: float, dy: float) -> "Outline":
        """The same outline standing elsewhere."""
        return Outline(tuple((x + dx, y + dy) for x, y in self.points), self.rises)


def outline(points: tuple[Point, ...], rises: tuple[float, ...] = ()) -> Outline:
    """An outline from points in either order; rises follow their sides."""
    drawn = Outline(points, rises)
    if drawn._corner_area >= 0:
        return drawn
    back = tuple(reversed(points))
    # Side k joins point k to k+1; walked backwards the sides come in reverse, the last one still last.
    return Outline(back, (*reversed(rises[:-1]), rises[-1]) if rises else ())
