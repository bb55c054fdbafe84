"""Grounds: the earth as it lies before the dig, a plane or a survey of spot levels.

A survey is joined up into triangles, each a plane; beyond its outermost spots the ground keeps
the level of the nearest point of their edge:

    o-------o-------o
    |    .' | '.    |   ...  level runs on  ...
    | .'    |    '. |
    o-------o-------o
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely

from service.paving.areas import Area
from service.paving.earthworks import Earthwork, Ring, joined, plane_earthwork, rings_earthwork, rings_within
from service.paving.errors import ImpossibleShape
from service.paving.outlines import Point
from service.paving.planes import Plane
from service.paving.reference import default

#: A triangle thinner than this share of its longest side is a line.
_SLIVER = 1e-9


@dataclass(frozen=True, slots=True)
class SpotLevel:
    """The level of the ground at a point [m]."""

    x: float
    y: float
    level: float


@dataclass(frozen=True)
class Facet:
    """A triangle of ground: corners counter-clockwise on plan, with their levels [m]."""

    corners: tuple[SpotLevel, SpotLevel, SpotLevel]

    @cached_property
    def outline(self) -> tuple[Point, Point, Point]:
        a, b, c = self.corners
        return (a.x, a.y), (b.x, b.y), (c.x, c.y)

    @cached_property
    def middle(self) -> Point:
        return sum(c.x for c in self.corners) / 3, sum(c.y for c in self.corners) / 3

    @cached_property
    def plane(self) -> Plane:
        """The plane through its corners."""
        a, b, c = self.corners
        (ux, uy, uz), (vx, vy, vz) = ((p.x - a.x, p.y - a.y, p.level - a.level) for p in (b, c))
        cross = ux * vy - uy * vx
        return Plane(a.level, (uy * vz - uz * vy) / cross, (uz * vx - ux * vz) / cross, (a.x, a.y))

    @property
    def is_sliver(self) -> bool:
        (x0, y0), (x1, y1), (x2, y2) = self.outline
        longest = max(math.dist(p, q) for p in self.outline for q in self.outline)
        return (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0) <= _SLIVER * longest**2

    def holds(self, point: Point) -> bool:
        """Whether a point lies on it, edges included."""
        x, y = point
        (ax, ay), (bx, by), (cx, cy) = self.outline
        sides = ((ax, ay, bx, by), (bx, by, cx, cy), (cx, cy, ax, ay))
        return all((x1 - x0) * (y - y0) - (x - x0) * (y1 - y0) >= -_SLIVER for x0, y0, x1, y1 in sides)


@dataclass(frozen=True)
class Survey:
    """Ground known by spot levels.

    Parameters
    ----------
    facets : tuple of Facet
        Triangles between the spots.
    edge : tuple of SpotLevel
        The outermost spots, counter-clockwise.
    """

    facets: tuple[Facet, ...]
    edge: tuple[SpotLevel, ...]

    @cached_property
    def hull(self) -> shapely.Polygon:
        """What the spots cover."""
        return shapely.Polygon([(spot.x, spot.y) for spot in self.edge])

    def at(self, point: Point) -> float:
        """Level at a point [m]; beyond the spots that of the nearest point of their edge."""
        near = shapely.shortest_line(self.hull, shapely.Point(point)).coords[0]
        facet = min(self.facets, key=lambda each: (not each.holds(near), math.dist(each.middle, near)))
        return facet.plane.at(near)

    def reaching(self, rings: Sequence[Ring]) -> tuple[Facet, ...]:
        """The facets, with the ground run on level as far as rings reach past the spots."""
        past = max(self.past(rings))
        return self.facets if past == 0 else (*self.facets, *_apron(self.edge, 2 * past))

    def past(self, rings: Sequence[Ring]) -> list[float]:
        """How far each point of rings lies past the outermost spots [m]."""
        points = shapely.points([point for ring in rings for point in ring])
        distances: list[float] = shapely.distance(points, self.hull).tolist()
        return distances


Ground = Plane | Survey


def survey(spots: Sequence[SpotLevel]) -> Survey:
    """Join spot levels up into triangles.

    Raises
    ------
    ImpossibleShape
        If a point is given twice, or all of them lie in one line; the place is the spot's number.
    """
    levels: dict[Point, float] = {}
    for k, spot in enumerate(spots):
        if (spot.x, spot.y) in levels:
            raise ImpossibleShape(f"There is a level at ({spot.x:g}, {spot.y:g}) m already; give a spot once.", k)
        levels[spot.x, spot.y] = spot.level
    # Sorted, so that the order they were measured in changes nothing where four spots make a square.
    plan = shapely.MultiPoint(sorted(levels))
    facets = [_facet(triangle, levels) for triangle in shapely.delaunay_triangles(plan).geoms]
    facets = [facet for facet in facets if not facet.is_sliver]
    if not facets:
        raise ImpossibleShape("Spot levels need three points or more that don't lie in one line.")
    return Survey(tuple(facets), tuple(SpotLevel(x, y, levels[x, y]) for x, y in _outermost(plan)))


def earthwork(area: Area, ground: Ground, formation: Plane) -> Earthwork:
    """What is dug and filled over an area to bring the ground to the formation."""
    if isinstance(ground, Plane):
        return plane_earthwork(area, ground.above(formation))
    return joined(_pieces(ground.reaching(area.rings), area.rings, formation))


def refuse_uncovered(area: Area, ground: Survey) -> None:
    """Refuse spot levels that don't cover an area.

    Raises
    ------
    ImpossibleShape
        If the area reaches past the outermost spots.
    """
    points = [point for ring in area.rings for point in ring]
    past = ground.past(area.rings)
    furthest = max(past)
    if furthest > default("excavations", "survey_slack").value:
        x, y = points[past.index(furthest)]
        raise ImpossibleShape(
            f"The spot levels don't cover the area: at ({x:g}, {y:g}) m it reaches {furthest:.2f} m past the "
            "outermost of them. Measure spots at or beyond its edge."
        )


def _facet(triangle: shapely.Polygon, levels: dict[Point, float]) -> Facet:
    turned = shapely.orient_polygons(triangle).exterior.coords[:3]
    a, b, c = (SpotLevel(x, y, levels[x, y]) for x, y in turned)
    return Facet((a, b, c))


def _outermost(plan: shapely.MultiPoint) -> list[Point]:
    """The points on the edge of the plan, counter-clockwise, those along its straight sides too."""
    edge = shapely.orient_polygons(plan.convex_hull).exterior
    points = [point for point in plan.geoms if edge.distance(point) < _SLIVER]
    return [(point.x, point.y) for point in sorted(points, key=edge.project)]


def _pieces(facets: Sequence[Facet], rings: Sequence[Ring], formation: Plane) -> list[Earthwork]:
    """The earthwork under each facet; halved again and again, so that a ring is only cut where it is near."""
    if not rings or not facets:
        return []
    if len(facets) == 1:
        (facet,) = facets
        return [rings_earthwork(rings_within(rings, facet.outline), facet.plane.above(formation))]
    xs, ys = zip(*(point for facet in facets for point in facet.outline), strict=True)
    left, low, right, high = min(xs), min(ys), max(xs), max(ys)
    near = rings_within(rings, ((left, low), (right, low), (right, high), (left, high)))
    axis = 0 if right - left > high - low else 1
    ordered = sorted(facets, key=lambda facet: facet.middle[axis])
    half = len(ordered) // 2
    return _pieces(ordered[:half], near, formation) + _pieces(ordered[half:], near, formation)


def _apron(edge: Sequence[SpotLevel], reach: float) -> list[Facet]:
    """Triangles round the outermost spots on which the ground runs on level."""
    facets: list[Facet] = []
    for k, b in enumerate(edge):
        a, c = edge[k - 1], edge[(k + 1) % len(edge)]
        (nx, ny), (mx, my) = _outward(a, b), _outward(b, c)
        out = [SpotLevel(p.x + nx * reach, p.y + ny * reach, p.level) for p in (a, b)]
        turned = SpotLevel(b.x + mx * reach, b.y + my * reach, b.level)
        # The corner between two strips is wedge-shaped; past a right angle it is filled as far as a mitre reaches.
        share = reach / (1 + nx * mx + ny * my)
        tip = SpotLevel(b.x + (nx + mx) * share, b.y + (ny + my) * share, b.level)
        facets += [Facet((a, out[0], b)), Facet((out[0], out[1], b)), Facet((b, out[1], tip)), Facet((b, tip, turned))]
    return [facet for facet in facets if not facet.is_sliver]


def _outward(a: SpotLevel, b: SpotLevel) -> Point:
    length = math.dist((a.x, a.y), (b.x, b.y))
    return (b.y - a.y) / length, (a.x - b.x) / length
