"""Shapes on plan: rectangles, circles, triangles, Ls and polygons.

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
from typing import Any

import shapely

from service.paving.errors import ImpossibleShape
from service.paving.formulas import Formula
from service.paving.outlines import Outline, Point, outline
from service.paving.shape_areas import (
    arcs_area,
    circle_area,
    half_perimeter,
    l_shape_area,
    polygon_area,
    polygon_with_arcs_area,
    rectangle_area,
    triangle_area,
)
from service.paving.sheets import Sheet

#: An enclosed area that counts as none [m2]: rounding between straight edges.
NO_AREA = 1e-9


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
    inputs: tuple[Any, ...]

    def area(self, sheet: Sheet, figure: str) -> float:
        """Work the area of the shape [m2]."""
        if self.formula is triangle_area:
            half = sheet.work("half_perimeter", half_perimeter, *self.inputs)
            return sheet.work(figure, triangle_area, half, *self.inputs)
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
    if drawn.area <= NO_AREA:
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
