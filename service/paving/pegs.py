"""Pegs: where to drive them, so that a straightedge always reaches from one to the next.

o-----o-----o-----o      corners and edges, no further apart than the straightedge,
|                 |      and a square grid inside
o     o     o     o
|                 |
o-----o-----o-----o
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import shapely

from service.paving.areas import Area
from service.paving.counts import ceil
from service.paving.errors import OutOfRange
from service.paving.outlines import Arc, Outline, Point
from service.paving.reference import default


class Place(StrEnum):
    """Where on the area a peg stands."""

    CORNER = "corner"
    EDGE = "edge"
    INSIDE = "inside"
    OPENING = "opening"


@dataclass(frozen=True, slots=True)
class Stake:
    """A peg's place on plan [m]."""

    place: Place
    x: float
    y: float


def stakes(area: Area, spacing: float) -> list[Stake]:
    """Where pegs go: round the edge, at the corners of openings and on a grid between, in rows from the bottom.

    Parameters
    ----------
    area : Area
        What is levelled.
    spacing : float
        Furthest from one peg to the next along an edge, or along a row or column of the grid [m], above 0.

    Raises
    ------
    OutOfRange
        If it would take more pegs than one answer holds, at ``("peg_spacing",)``.
    """
    _refuse_too_many(area, spacing)
    found = list(_round(area.outline, spacing))
    found += [Stake(Place.OPENING, x, y) for opening in area.openings for x, y in opening.outline.points]
    standing = [(stake.x, stake.y) for stake in found]
    found += [Stake(Place.INSIDE, x, y) for x, y in _inside(area, spacing, standing)]
    return sorted(found, key=lambda stake: (round(stake.y, 6), stake.x))


def _refuse_too_many(area: Area, spacing: float) -> None:
    left, low, right, high = area.outline.bounds
    length, width = right - left, high - low
    most = default("levels", "most_pegs").value
    count = (length / spacing + 1) * (width / spacing + 1) + area.outline.perimeter / spacing + len(area.outline.points)
    if count > most:
        wide = math.sqrt(length * width / most) + 2 * area.outline.perimeter / most
        raise OutOfRange(
            f"That takes some {count:.0f} pegs; {most:.0f} is the most in one answer. Space them {wide:.1f} m or more.",
            "peg_spacing",
        )


def _round(outline: Outline, spacing: float) -> Iterator[Stake]:
    rises = outline.rises or (0.0,) * len(outline.points)
    for k, ((start, end), rise, length) in enumerate(zip(outline.sides, rises, outline.side_lengths, strict=True)):
        yield Stake(Place.EDGE if _runs_on(outline, k, rises) else Place.CORNER, *start)
        count = ceil(length / spacing)
        for step in range(1, count):
            yield Stake(Place.EDGE, *_along(start, end, rise, step / count))


def _runs_on(outline: Outline, k: int, rises: Sequence[float]) -> bool:
    """Whether a side is the same arc as the one before it: there is no corner between the halves of a circle."""
    if not (rises[k - 1] and rises[k]):
        return False
    before, after = (Arc(*outline.sides[j], rises[j]) for j in (k - 1, k))
    return math.dist(before.centre, after.centre) < 1e-9


def _along(start: Point, end: Point, rise: float, share: float) -> Point:
    """The point some share of the way along a side, straight or an arc."""
    (x0, y0), (x1, y1) = start, end
    if not rise:
        return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
    arc = Arc(start, end, rise)
    (cx, cy), turn = arc.centre, math.copysign(arc.angle, rise) * share
    cosine, sine = math.cos(turn), math.sin(turn)
    return cx + (x0 - cx) * cosine - (y0 - cy) * sine, cy + (x0 - cx) * sine + (y0 - cy) * cosine


def _inside(area: Area, spacing: float, standing: list[Point]) -> list[Point]:
    """Points of the grid strictly inside, where no peg stands already."""
    left, low, right, high = area.outline.bounds
    columns, rows = ceil((right - left) / spacing), ceil((high - low) / spacing)
    x, y = np.meshgrid(np.linspace(left, right, columns + 1)[1:-1], np.linspace(low, high, rows + 1)[1:-1])
    paved = shapely.Polygon(area.rings[0], area.rings[1:])
    shapely.prepare(paved)
    inside = shapely.contains_xy(paved, x, y)
    x, y = x[inside], y[inside]
    # A grid point a hand's breadth from a peg of the edge would tell nothing more.
    away = shapely.distance(shapely.points(x, y), shapely.MultiPoint(standing))
    clear = away > default("levels", "least_peg_gap").value
    return list(zip(x[clear].tolist(), y[clear].tolist(), strict=True))
