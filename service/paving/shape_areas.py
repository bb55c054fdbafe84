"""Formulas of the areas of shapes."""

import math
from collections.abc import Sequence

from service.paving.formulas import formula
from service.paving.outlines import Point


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
