"""Areas: the plan shape to be paved, with its openings."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from service.paving.formulas import formula
from service.paving.openings import check_openings
from service.paving.outlines import Outline, Point
from service.paving.shape_areas import circle_area as circle_area
from service.paving.shape_areas import polygon_area as polygon_area
from service.paving.shape_areas import rectangle_area as rectangle_area
from service.paving.shapes import Shape as Shape
from service.paving.shapes import circle as circle
from service.paving.shapes import l_shape as l_shape
from service.paving.shapes import polygon as polygon
from service.paving.shapes import rectangle as rectangle
from service.paving.shapes import triangle as triangle
from service.paving.sheets import Sheet


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
        check_openings(shape.outline, checked.openings)
    return checked


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
