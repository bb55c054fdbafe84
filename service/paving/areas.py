"""Areas: the plan shape to be paved, with its openings.

x runs to the right, y up. A rectangle and an L stand with their lower left corner at
(0, 0), length along x; the notch of the L is at the upper right. A circle's bounding
square stands at (0, 0). A triangle has side a on the x axis from (0, 0), side b rising
from its far end, side c back to (0, 0).

    +--------+                         c /\\ b
    |        | notch width              /  \\
    |        +------+                  /    \\
    |         notch length            +------+
    +---------------+                     a
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely

from service.paving.errors import ImpossibleShape
from service.paving.formulas import Formula, formula
from service.paving.outlines import Outline, Point, outline
from service.paving.sheets import Sheet

#: Least x, least y, greatest x, greatest y [m].
Box = tuple[float, float, float, float]

#: Overlap that counts as none [m2]: rounding between straight edges, and half a millimetre along arcs.
_STRAIGHT_SLACK, _ARC_SLACK = 1e-9, 1e-4


@formula
def rectangle_area(length: float, width: float) -> float:
    """Area of a rectangle.

    Parameters
    ----------
    length, width : float
        Sides [m], above 0.

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> rectangle_area(4.0, 2.5)
    10.0
    """
    return length * width


@formula
def circle_area(diameter: float) -> float:
    """Area of a circle.

    Parameters
    ----------
    diameter : float
        Diameter [m], above 0.

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(circle_area(4.2), 3)
    13.854
    """
    return math.pi * diameter**2 / 4


@formula
def half_perimeter(side_a: float, side_b: float, side_c: float) -> float:
    """Half the perimeter of a triangle.

    Parameters
    ----------
    side_a, side_b, side_c : float
        Sides [m], above 0.

    Returns
    -------
    float
        Length [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> half_perimeter(3.0, 4.0, 5.0)
    6.0
    """
    return (side_a + side_b + side_c) / 2


@formula
def triangle_area(half_perimeter: float, side_a: float, side_b: float, side_c: float) -> float:
    """Area of a triangle from its three sides.

    Parameters
    ----------
    half_perimeter : float
        Half the sum of the sides [m].
    side_a, side_b, side_c : float
        Sides [m], none as long as the other two together.

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry (Heron's formula)

    Examples
    --------
    >>> triangle_area(6.0, 3.0, 4.0, 5.0)
    6.0
    """
    return (half_perimeter * (half_perimeter - side_a) * (half_perimeter - side_b) * (half_perimeter - side_c)) ** 0.5


@formula
def l_shape_area(length: float, width: float, notch_length: float, notch_width: float) -> float:
    """Area of an L: a rectangle less the rectangle cut from its corner.

    Parameters
    ----------
    length, width : float
        Sides of the rectangle round the L [m], above 0.
    notch_length, notch_width : float
        Sides of the corner that is missing [m], above 0 and less than the rectangle's.

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> l_shape_area(6.0, 5.0, 2.0, 2.0)
    26.0
    """
    return length * width - notch_length * notch_width


@formula
def polygon_area(sides: Sequence[tuple[Point, Point]]) -> float:
    """Area inside straight sides walked counter-clockwise.

    Parameters
    ----------
    sides : sequence of (Point, Point)
        Ends of each side [m], the end of one the start of the next; shown as a number of [sides].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry (shoelace formula)

    Examples
    --------
    >>> polygon_area((((0, 0), (2, 0)), ((2, 0), (2, 3)), ((2, 3), (0, 3)), ((0, 3), (0, 0))))
    6.0
    """
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in sides) / 2


@formula
def arcs_area(arc_areas: Sequence[float]) -> float:
    """Area that arcs add to the polygon of their chords (less what hollow arcs take).

    Parameters
    ----------
    arc_areas : sequence of float
        Area of each segment, R² (θ − sin θ) ÷ 2, negative if hollow; shown as a number of [arcs].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry (circular segment)

    Examples
    --------
    >>> arcs_area((1.0, -0.25))
    0.75
    """
    return sum(area for area in arc_areas)


@formula
def polygon_with_arcs_area(straight_area: float, arcs_area: float) -> float:
    """Area of a polygon with arcs for some of its sides.

    Parameters
    ----------
    straight_area : float
        Area inside the chords [m2].
    arcs_area : float
        Area the arcs add [m2].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> polygon_with_arcs_area(4.0, 0.5)
    4.5
    """
    return straight_area + arcs_area


@formula
def net_area(gross_area: float, openings_area: float) -> float:
    """Area to be paved.

    Parameters
    ----------
    gross_area : float
        Area inside the outline [m2].
    openings_area : float
        Area of all openings [m2].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> net_area(10.0, 1.5)
    8.5
    """
    return gross_area - openings_area


@formula
def diagonal_length(length: float, width: float) -> float:
    """Diagonal of a rectangle: both must measure this if its corners are square.

    Parameters
    ----------
    length, width : float
        Sides [m], above 0.

    Returns
    -------
    float
        Length [m].

    References
    ----------
    Geometry (Pythagoras)

    Examples
    --------
    >>> diagonal_length(3.0, 4.0)
    5.0
    """
    return (length**2 + width**2) ** 0.5


@dataclass(frozen=True)
class Shape:
    """A shape as it was asked for: its outline and how its area is worked.

    Parameters
    ----------
    outline : Outline
        Where it stands.
    formula : Formula
        Formula of its area.
    inputs : tuple
        What goes into the formula.
    """

    outline: Outline
    formula: Formula[...]
    inputs: tuple[object, ...]

    def area(self, sheet: Sheet, figure: str) -> float:
        """Work the area of the shape [m2]."""
        if self.formula is triangle_area:
            half = sheet.work("half_perimeter", half_perimeter, *self.inputs)  # type: ignore[arg-type]
            return sheet.work(figure, triangle_area, half, *self.inputs)  # type: ignore[arg-type]
        if self.outline.arcs and self.formula is polygon_area:
            straight = sheet.work("straight_area", polygon_area, self.outline.sides)
            arcs = sheet.work("arcs_area", arcs_area, tuple(arc.area for arc in self.outline.arcs))
            return sheet.work(figure, polygon_with_arcs_area, straight, arcs)
        return sheet.work(figure, self.formula, *self.inputs)

    def at(self, x: float, y: float) -> "Shape":
        """The shape with its own (0, 0) standing at (x, y)."""
        moved = self.outline.moved(x, y)
        return Shape(moved, self.formula, (moved.sides,) if self.formula is polygon_area else self.inputs)


def rectangle(length: float, width: float) -> Shape:
    """A rectangle with its lower left corner at (0, 0)."""
    corners = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    return Shape(Outline(corners), rectangle_area, (length, width))


def circle(diameter: float) -> Shape:
    """A circle whose bounding square stands at (0, 0)."""
    radius = diameter / 2
    return Shape(Outline(((0.0, radius), (diameter, radius)), (radius, radius)), circle_area, (diameter,))


def triangle(side_a: float, side_b: float, side_c: float) -> Shape:
    """A triangle with side a on the x axis.

    Raises
    ------
    ImpossibleShape
        If one side is as long as the other two together, or longer.
    """
    sides = {"side_a": side_a, "side_b": side_b, "side_c": side_c}
    longest = max(sides, key=lambda name: sides[name])
    others = sum(sides.values()) - sides[longest]
    if sides[longest] >= others:
        raise ImpossibleShape(
            f"The sides can't close: {longest} must be shorter than the other two together, {others:g} m.",
            longest,
        )
    x = (side_a**2 + side_c**2 - side_b**2) / (2 * side_a)
    apex = (x, math.sqrt(max(side_c**2 - x**2, 0.0)))
    return Shape(Outline(((0.0, 0.0), (side_a, 0.0), apex)), triangle_area, tuple(sides.values()))


def l_shape(length: float, width: float, notch_length: float, notch_width: float) -> Shape:
    """An L with its notch at the upper right.

    Raises
    ------
    ImpossibleShape
        If the notch is as long or as wide as the rectangle, or more.
    """
    for name, notch, whole in (("notch_length", notch_length, length), ("notch_width", notch_width, width)):
        if notch >= whole:
            raise ImpossibleShape(f"The notch must be smaller than the L: below {whole:g} m here.", name)
    x, y = length - notch_length, width - notch_width
    corners = ((0.0, 0.0), (length, 0.0), (length, y), (x, y), (x, width), (0.0, width))
    return Shape(Outline(corners), l_shape_area, (length, width, notch_length, notch_width))


def polygon(points: Sequence[Point], rises: dict[int, float]) -> Shape:
    """A polygon where its points say.

    Parameters
    ----------
    points : sequence of Point
        Three or more corners in order, either way round [m], not closed.
    rises : dict
        Rise [m] of the sides that are arcs, by side counted from 0; positive outwards.

    Raises
    ------
    ImpossibleShape
        If sides cross or touch, a side has no length, an arc is more than a half circle,
        or nothing is enclosed.
    """
    if len(points) < 3:
        raise ImpossibleShape("A polygon needs three points or more.", "points")
    given = tuple(points)
    drawn = outline(given, tuple(rises.get(k, 0.0) for k in range(len(given))) if rises else ())
    _check_sides(given, rises)
    ring = shapely.Polygon(drawn.ring)
    if not ring.is_valid:
        raise ImpossibleShape(*_crossing(given, ring))
    if drawn.area <= _STRAIGHT_SLACK:
        raise ImpossibleShape("The polygon encloses no area.", "points")
    return Shape(drawn, polygon_area, (drawn.sides,))


def _check_sides(points: Sequence[Point], rises: dict[int, float]) -> None:
    for k, point in enumerate(points):
        chord = math.dist(point, points[(k + 1) % len(points)])
        if chord == 0:
            hint = "leave the last one out: the polygon closes itself" if k == len(points) - 1 else "give it once"
            raise ImpossibleShape(f"Two points in a row are the same; {hint}.", "points", (k + 1) % len(points))
        if abs(rises.get(k, 0.0)) > chord / 2 * (1 + 1e-12):
            raise ImpossibleShape(
                f"An arc is at most a half circle: the rise of side {k + 1} is at most {chord / 2:g} m.", "arcs"
            )
    for k in rises:
        if k >= len(points):
            raise ImpossibleShape(f"There is no side {k + 1}: the polygon has {len(points)} sides.", "arcs")


def _crossing(points: Sequence[Point], ring: shapely.Polygon) -> tuple[str, str | int, int]:
    """Which two sides cross and where, as a sentence and a place."""
    where = shapely.is_valid_reason(ring).rpartition("[")[2].rstrip("]").replace(" ", ", ")
    sides = [shapely.LineString((p, points[(k + 1) % len(points)])) for k, p in enumerate(points)]
    last = len(sides) - 1
    for i, side in enumerate(sides):
        for j in range(i + 2, len(sides)):
            if (i, j) != (0, last) and side.intersects(sides[j]):
                return f"Side {i + 1} and side {j + 1} meet at ({where}); sides may not cross or touch.", "points", j
    return f"The outline crosses or touches itself at ({where}).", "points", 0


@dataclass(frozen=True)
class Area:
    """A plan area to be paved: an outline with openings taken out.

    Parameters
    ----------
    shape : Shape
        What the outline encloses.
    openings : tuple of Shape
        Openings, standing where they are.
    """

    shape: Shape
    openings: tuple[Shape, ...] = ()

    @property
    def outline(self) -> Outline:
        return self.shape.outline

    @cached_property
    def gross(self) -> float:
        """Area inside the outline [m2]."""
        return self.outline.area

    @cached_property
    def openings_area(self) -> float:
        """Area of all openings [m2]."""
        return sum(opening.outline.area for opening in self.openings)

    @cached_property
    def net(self) -> float:
        """Area to be paved [m2]."""
        return self.gross - self.openings_area

    @cached_property
    def centroid(self) -> Point:
        """Centroid of the net area [m]."""
        x, y = self.outline.centroid
        sum_x, sum_y = x * self.gross, y * self.gross
        for opening in self.openings:
            ox, oy = opening.outline.centroid
            sum_x -= ox * opening.outline.area
            sum_y -= oy * opening.outline.area
        return sum_x / self.net, sum_y / self.net

    @cached_property
    def rings(self) -> tuple[tuple[Point, ...], ...]:
        """Outline (counter-clockwise) and openings (clockwise) as chords of exactly the same area."""
        return (self.outline.ring, *(tuple(reversed(o.outline.ring)) for o in self.openings))

    @property
    def right_angled(self) -> bool:
        """Whether every side runs along x or y."""
        return all(
            not shape.outline.arcs and all(p[0] == q[0] or p[1] == q[1] for p, q in shape.outline.sides)
            for shape in (self.shape, *self.openings)
        )


@dataclass(frozen=True, slots=True)
class MeasuredArea:
    """An area known only by its measure [m2], with no shape."""

    net: float


def area(shape: Shape, openings: Sequence[Shape] = ()) -> Area:
    """An area with its openings checked against the outline and each other.

    Raises
    ------
    ImpossibleShape
        If an opening leaves the area, overlaps another, or nothing is left to pave.
    """
    checked = Area(shape, tuple(openings))
    if openings:
        _check_openings(checked)
    return checked


def _check_openings(area: Area) -> None:
    if not _plainly_apart(area):
        _compare_openings(area)
    if area.net <= _slack(area):
        raise ImpossibleShape("The openings leave nothing to pave.", "openings")


def _slack(area: Area) -> float:
    curved = any(shape.outline.arcs for shape in (area.shape, *area.openings))
    return _ARC_SLACK if curved else _STRAIGHT_SLACK


def _plainly_apart(area: Area) -> bool:
    """Whether the boxes round the openings already show that they lie inside the area and apart.

    A box that no straight side of the outline enters, and whose middle lies inside, is inside.
    """
    boxes = [opening.outline.bounds for opening in area.openings]
    if area.outline.arcs or any(_meet(box, other) for k, box in enumerate(boxes) for other in boxes[:k]):
        return False
    return all(
        not any(_enters(side, box) for side in area.outline.sides)
        and _encloses(area.outline, ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2))
        for box in boxes
    )


def _meet(first: Box, second: Box) -> bool:
    return first[0] < second[2] and second[0] < first[2] and first[1] < second[3] and second[1] < first[3]


def _enters(side: tuple[Point, Point], box: Box) -> bool:
    """Whether a side may enter a box: their own boxes meet, and the box's corners lie on both sides of it."""
    (x0, y0), (x1, y1) = side
    if not _meet((min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)), box):
        return False
    turns = [(x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) for x in box[::2] for y in box[1::2]]
    return min(turns) < 0 < max(turns)


def _encloses(outline: Outline, point: Point) -> bool:
    """Whether a point lies inside straight sides: a ray from it crosses them an odd number of times."""
    x, y = point
    crossed = False
    for (x0, y0), (x1, y1) in outline.sides:
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            crossed = not crossed
    return crossed


def _compare_openings(area: Area) -> None:
    whole = shapely.Polygon(area.outline.ring)
    holes = [shapely.Polygon(opening.outline.ring) for opening in area.openings]
    slack = _slack(area)
    for k, hole in enumerate(holes):
        if hole.area - hole.intersection(whole).area > slack:
            raise ImpossibleShape(_outside(area, k), "openings", k)
        for j in range(k):
            if hole.intersection(holes[j]).area > slack:
                raise ImpossibleShape(
                    f"Opening {k + 1} overlaps opening {j + 1}; move one, or join them.", "openings", k
                )


def _outside(area: Area, k: int) -> str:
    left, low, right, high = area.outline.bounds
    x0, y0, x1, y1 = area.openings[k].outline.bounds
    return (
        f"Opening {k + 1} reaches outside the area: it stands at x {x0:g} to {x1:g} m, y {y0:g} to {y1:g} m; "
        f"the area at x {left:g} to {right:g} m, y {low:g} to {high:g} m."
    )


@dataclass(frozen=True, slots=True)
class SetSquare:
    """Legs and diagonal of a 3-4-5 triangle to square a corner with [m]."""

    short_leg: float
    long_leg: float
    diagonal: float


@dataclass(frozen=True, slots=True)
class Edge:
    """One side of the outline with its length [m]."""

    name: str
    length: float


@dataclass(frozen=True, slots=True)
class AreaFigures:
    """What is measured of an area; lengths [m], areas [m2]."""

    area: float
    gross_area: float
    openings_area: float
    perimeter: float
    openings_perimeter: float
    bounding_length: float
    bounding_width: float
    diagonal: float
    edges: tuple[Edge, ...]
    set_square: SetSquare | None


def area_figures(sheet: Sheet, area: Area) -> AreaFigures:
    """Measure an area: areas, lengths, and what squares it up."""
    gross = area.shape.area(sheet, "gross_area")
    openings = sum(o.area(sheet.section(f"openings.{k}"), "area") for k, o in enumerate(area.openings))
    left, low, right, high = area.outline.bounds
    return AreaFigures(
        area=sheet.work("area", net_area, gross, openings),
        gross_area=gross,
        openings_area=openings,
        perimeter=area.outline.perimeter,
        openings_perimeter=sum(o.outline.perimeter for o in area.openings),
        bounding_length=right - left,
        bounding_width=high - low,
        diagonal=sheet.work("diagonal", diagonal_length, right - left, high - low),
        edges=tuple(Edge(f"side {k + 1}", length) for k, length in enumerate(area.outline.side_lengths)),
        set_square=set_square(right - left, high - low),
    )


def set_square(length: float, width: float) -> SetSquare | None:
    """The largest 3-4-5 triangle in whole tenths of a metre a leg that fits the site; none if it is too small."""
    steps = math.floor(min(min(length, width) / 3, max(length, width) / 4) * 10 + 1e-9)
    if steps < 1:
        return None
    return SetSquare(short_leg=3 * steps / 10, long_leg=4 * steps / 10, diagonal=5 * steps / 10)
