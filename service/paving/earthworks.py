"""Earthworks: the earth between a ground and a formation, cut and fill apart.

Both are planes over each piece of the plan, so each piece is split along the line where they
meet (the zero line) and is a prism on either side of it: area times the depth at its centroid.

    ground      ' - . _  cut
    formation  --------X---------
                         ' - . _  fill

Pieces are cut out of the rings of an area by half planes. A ring may be cut into parts joined
along the cutting line; they count there and back, so areas and volumes stay exact.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from service.paving.areas import Area
from service.paving.formulas import formula
from service.paving.outlines import Point
from service.paving.planes import Plane, mean_over

Ring = Sequence[Point]

#: Depths below this are rounding of floats [m].
_NOTHING = 1e-9


@formula
def end_area_volume(first_area: float, second_area: float, distance: float) -> float:
    """Volume of earth between two cross-sections by the average of their areas.

    Parameters
    ----------
    first_area, second_area : float
        Area of the cross-sections [m2], 0 or more.
    distance : float
        Distance between them [m].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    US Navy, Equipment Operator, NAVEDTRA 14080, chapter 4 (average end area)

    Examples
    --------
    >>> end_area_volume(1.0, 1.4, 2.5)
    3.0
    """
    return (first_area + second_area) / 2 * distance


@formula
def prismoidal_volume(first_area: float, middle_area: float, second_area: float, distance: float) -> float:
    """Volume of a prismoid: exact where the average of the end areas isn't.

    Parameters
    ----------
    first_area, middle_area, second_area : float
        Area of the cross-sections at either end and half way [m2], 0 or more.
    distance : float
        Distance between the ends [m].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry (prismoidal formula, Simpson's rule)

    Examples
    --------
    A pyramid on 6 m2, 2 m high, is a third of its box:

    >>> prismoidal_volume(6.0, 1.5, 0.0, 2.0)
    4.0
    """
    return (first_area + 4 * middle_area + second_area) * distance / 6


@formula
def prisms_volume(prism_volumes: Sequence[float]) -> float:
    """Volume of all prisms of earth together.

    Parameters
    ----------
    prism_volumes : sequence of float
        Volume of each prism [m3], its area times the depth at its centroid; shown as a number of [prisms].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> prisms_volume((1.0, 0.5))
    1.5
    """
    return sum(volume for volume in prism_volumes)


@dataclass(frozen=True, slots=True)
class Prism:
    """Earth over a piece of the plan: area [m2] and mean depth [m], 0 or more."""

    area: float
    depth: float

    @property
    def volume(self) -> float:
        """Volume [m3]."""
        return self.area * self.depth


@dataclass(frozen=True, slots=True)
class Earthwork:
    """What is dug and what is filled over an area.

    Parameters
    ----------
    cut, fill : tuple of Prism
        Where the ground lies above the formation, and where below.
    deepest, highest : float
        Greatest depth of cut and of fill [m], 0 if there is none.
    """

    cut: tuple[Prism, ...]
    fill: tuple[Prism, ...]
    deepest: float
    highest: float


def even_earthwork(area: float, depth: float) -> Earthwork:
    """Earthwork of the same depth everywhere [m], negative where it is fill, over an area [m2]."""
    if depth >= _NOTHING:
        return Earthwork((Prism(area, depth),), (), depth, 0.0)
    if depth <= -_NOTHING:
        return Earthwork((), (Prism(area, -depth),), 0.0, -depth)
    return Earthwork((), (), 0.0, 0.0)


def plane_earthwork(area: Area, depth: Plane) -> Earthwork:
    """Earthwork where one plane lies above another by `depth` [m] over an area."""
    over = depth.over(area)
    if over.least > -_NOTHING or over.greatest < _NOTHING:
        whole = even_earthwork(area.net, mean_over(area, depth))
        return Earthwork(whole.cut, whole.fill, max(over.greatest, 0.0), max(-over.least, 0.0))
    return joined((rings_earthwork(area.rings, depth),))


def rings_earthwork(rings: Sequence[Ring], depth: Plane) -> Earthwork:
    """Earthwork under a plane of depths [m] over rings, those that run clockwise taken off."""
    depths = [[depth.at(point) for point in ring] for ring in rings]
    cut, deepest = _prism(rings, depths)
    fill, highest = _prism(rings, [[-value for value in values] for values in depths])
    return Earthwork(cut, fill, deepest, highest)


def joined(parts: Sequence[Earthwork]) -> Earthwork:
    """Earthworks side by side as one."""
    return Earthwork(
        tuple(prism for part in parts for prism in part.cut),
        tuple(prism for part in parts for prism in part.fill),
        max((part.deepest for part in parts), default=0.0),
        max((part.highest for part in parts), default=0.0),
    )


def rings_within(rings: Sequence[Ring], corners: Sequence[Point]) -> list[Ring]:
    """The part of rings within a convex outline that runs counter-clockwise."""
    kept = list(rings)
    for (x0, y0), (x1, y1) in pairwise((*corners, corners[0])):
        dx, dy = x1 - x0, y1 - y0
        cut = (_kept(ring, [dx * (y - y0) - dy * (x - x0) for x, y in ring])[0] for ring in kept)
        kept = [ring for ring in cut if len(ring) > 2]
    return kept


def _prism(rings: Sequence[Ring], depths: Sequence[Sequence[float]]) -> tuple[tuple[Prism, ...], float]:
    """The prism where a depth, given at each point, is above nothing, if there is one; and its greatest depth [m]."""
    deepest = max((value for values in depths for value in values), default=0.0)
    if deepest < _NOTHING:
        return (), 0.0
    area = volume = 0.0
    for ring, values in zip(rings, depths, strict=True):
        ring_area, ring_volume = _measured(*_kept(ring, values))
        area, volume = area + ring_area, volume + ring_volume
    return ((Prism(area, volume / area),) if area > 0 else (), deepest)


def _kept(ring: Ring, values: Sequence[float]) -> tuple[Ring, Sequence[float]]:
    """The part of a ring where a value given at its points, linear between them, is 0 or more; with its values."""
    if min(values) >= 0:
        return ring, values
    if max(values) < 0:
        return (), ()
    kept: list[tuple[Point, float]] = []
    (x0, y0), before = ring[-1], values[-1]
    for (x, y), value in zip(ring, values, strict=True):
        if (before < 0) != (value < 0):
            share = before / (before - value)
            kept.append(((x0 + (x - x0) * share, y0 + (y - y0) * share), 0.0))
        if value >= 0:
            kept.append(((x, y), value))
        x0, y0, before = x, y, value
    return [point for point, _ in kept], [value for _, value in kept]


def _measured(ring: Ring, depths: Sequence[float]) -> tuple[float, float]:
    """Area of a ring and volume under the depths at its points, as triangles fanned out from its first point."""
    if len(ring) < 3:
        return 0.0, 0.0
    area = volume = 0.0
    x, y = ring[0]
    for (x0, y0), (x1, y1), a, b in zip(ring[1:-1], ring[2:], depths[1:-1], depths[2:], strict=True):
        cross = (x0 - x) * (y1 - y) - (x1 - x) * (y0 - y)
        area, volume = area + cross / 2, volume + cross * (depths[0] + a + b) / 6
    return area, volume
