"""Dig areas: the paved area with what is dug beyond its edge.

+- - - - - - - -+
  +-----------+   over-dig all round; corners squared, those sharper than 60 degrees blunted
|  |  paved    |  |
   +-----------+   openings stay as they are: nobody digs wider round a tree or a gully
+- - - - - - - -+
"""

import shapely

from service.paving.areas import Area, Shape, circle, circle_area, polygon_area, rectangle, rectangle_area
from service.paving.outlines import Outline, Point


def dig_area(area: Area, over_dig: float) -> Area:
    """The area that is dug.

    Parameters
    ----------
    area : Area
        What is paved.
    over_dig : float
        How far the dig goes beyond its edge [m], 0 or more.

    Returns
    -------
    Area
        Exact for straight sides and circles; along other arcs to a ten-thousandth of the strip.

    Examples
    --------
    >>> from service.paving.areas import area, rectangle
    >>> round(dig_area(area(rectangle(4.0, 3.0)), 0.15).net, 9)
    14.19
    """
    if over_dig == 0:
        return area
    left, low, _, _ = area.outline.bounds
    corner = (left - over_dig, low - over_dig)
    if area.shape.formula is rectangle_area:
        return Area(rectangle(*(side + 2 * over_dig for side in area.shape.inputs)).at(*corner), area.openings)
    if area.shape.formula is circle_area:
        return Area(circle(*(side + 2 * over_dig for side in area.shape.inputs)).at(*corner), area.openings)
    wider = shapely.buffer(shapely.Polygon(area.outline.ring), over_dig, join_style="mitre", mitre_limit=2)
    rings = [_straight(ring) for ring in shapely.get_rings(shapely.orient_polygons(wider)).tolist()]
    # A bay that closes up leaves a hole that nobody digs.
    return Area(rings[0], (*area.openings, *rings[1:]))


def _straight(ring: shapely.LinearRing) -> Shape:
    points: tuple[Point, ...] = tuple((x, y) for x, y in ring.coords[:-1])
    outline = Outline(points if ring.is_ccw else points[::-1])
    return Shape(outline, polygon_area, (outline.sides,))
