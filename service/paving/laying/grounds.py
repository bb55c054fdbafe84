"""Grounds: an area's edges in the pattern's frame, on the grid.

The area is moved so that the origin of the pattern is at (0, 0), turned back by the
pattern's angle, and put on whole micrometres. What follows is exact for this ground.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, chain

import numpy as np
import shapely

from service.paving.laying.arrays import Real, Whole
from service.paving.laying.lattices import MICROMETRES
from service.paving.outlines import Point


@dataclass(frozen=True)
class Frame:
    """The pattern's frame on plan.

    Parameters
    ----------
    origin : Point
        Where its (0, 0) stands on plan [m].
    angle : float
        How far it is turned counter-clockwise [rad].
    """

    origin: Point = (0.0, 0.0)
    angle: float = 0.0

    @cached_property
    def turn(self) -> tuple[float, float]:
        """Cosine and sine of the angle, exact at quarter turns."""
        cosine, sine = math.cos(self.angle), math.sin(self.angle)
        return (round(cosine), round(sine)) if min(abs(cosine), abs(sine)) < 1e-15 else (cosine, sine)

    def from_plan(self, points: Real) -> Real:
        """Points of the plan, in rows x, y, seen from the frame [m]."""
        cosine, sine = self.turn
        x, y = points[0] - self.origin[0], points[1] - self.origin[1]
        return np.array((cosine * x + sine * y, cosine * y - sine * x))

    def to_plan(self, x: Real, y: Real) -> tuple[Real, Real]:
        """Points of the frame seen from the plan [m]."""
        cosine, sine = self.turn
        return self.origin[0] + cosine * x - sine * y, self.origin[1] + sine * x + cosine * y


@dataclass(frozen=True)
class Ground:
    """Edges of an area, the paving on the left of each, in grid units.

    Parameters
    ----------
    starts, ends : Whole
        Rows x, y of where each edge starts and ends.
    following : Whole
        Which edge comes next round the same ring.
    """

    starts: Whole
    ends: Whole
    following: Whole

    @cached_property
    def longest(self) -> int:
        """The farthest any edge goes along x or y [grid units]."""
        return int(np.abs(self.ends - self.starts).max())

    @cached_property
    def area(self) -> float:
        """Area inside the edges [grid units squared]."""
        middle = self.starts[:, :1]
        (x0, y0), (x1, y1) = (self.starts - middle).astype(float), (self.ends - middle).astype(float)
        return float(np.sum(x0 * y1 - x1 * y0)) / 2

    @cached_property
    def polygon(self) -> shapely.Geometry:
        """The ground as a shape, for what isn't worth doing by hand."""
        last = np.flatnonzero(self.following <= np.arange(self.following.size))
        rings = [shapely.LinearRing(ring.T) for ring in np.split(self.starts, last[:-1] + 1, axis=1)]
        outer, holes = [r for r in rings if r.is_ccw], [r for r in rings if not r.is_ccw]
        if len(outer) == 1:
            return shapely.Polygon(outer[0], holes)
        return shapely.difference(*(shapely.union_all([shapely.Polygon(r) for r in half]) for half in (outer, holes)))


def ground(rings: Sequence[Sequence[Point]], frame: Frame, fineness: int) -> Ground:
    """Outline (counter-clockwise) and openings (clockwise) as edges in the pattern's frame.

    Openings that share an edge with the outline or with each other are joined to it first,
    so that no edge has nothing to pave on either side.
    """
    sizes = [len(ring) for ring in rings]
    numbers = np.fromiter(chain.from_iterable(chain.from_iterable(rings)), float, 2 * sum(sizes))
    points = numbers.reshape(-1, 2).T
    placed = np.rint(frame.from_plan(points) * MICROMETRES).astype(np.int64)
    if len(sizes) > 1 and not _plainly_apart(placed, sizes):
        placed, sizes = _joined(placed, sizes)
    return _edges(placed * fineness, sizes)


def _edges(points: Whole, sizes: list[int]) -> Ground:
    """Edges from point to point round each ring; points that fell together on the grid are one."""
    following = _following(sizes)
    ends = points.take(following, axis=1)
    apart = (points != ends).any(axis=0)
    if apart.all():
        return Ground(points, ends, following)
    ring = np.repeat(np.arange(len(sizes)), sizes)[apart]
    return _edges(points[:, apart], np.unique(ring, return_counts=True)[1].tolist())


def _following(sizes: list[int]) -> Whole:
    """Which point comes next round each ring."""
    following = np.arange(1, sum(sizes) + 1)
    for end, size in zip(accumulate(sizes), sizes, strict=True):
        following[end - 1] = end - size
    return following


def _plainly_apart(points: Whole, sizes: list[int]) -> bool:
    """Whether the rectangles round the openings meet neither each other nor any edge of the outline."""
    first = [0, *accumulate(sizes[:-1])]
    low, high = np.minimum.reduceat(points, first[1:], axis=1), np.maximum.reduceat(points, first[1:], axis=1)
    starts = points[:, : sizes[0]]
    ends = starts.take(_following(sizes[:1]), axis=1)
    lows = np.concatenate((np.minimum(starts, ends), low), axis=1)
    highs = np.concatenate((np.maximum(starts, ends), high), axis=1)
    meet = (low[:, :, None] <= highs[:, None]) & (high[:, :, None] >= lows[:, None])
    # Every opening meets itself.
    return int(np.count_nonzero(meet[0] & meet[1])) == len(sizes) - 1


def _joined(points: Whole, sizes: list[int]) -> tuple[Whole, list[int]]:
    """Rings cut clear of each other, if they aren't already."""
    ends = list(accumulate(sizes))
    rings = [points[:, end - size : end].T for end, size in zip(ends, sizes, strict=True)]
    whole = shapely.Polygon(rings[0], rings[1:])
    if whole.is_valid:
        return points, sizes
    openings = shapely.union_all([shapely.Polygon(ring) for ring in rings[1:]], grid_size=1)
    left = shapely.difference(shapely.Polygon(rings[0]), openings, grid_size=1)
    clear = shapely.get_rings(shapely.get_parts(shapely.orient_polygons(left)))
    found = [np.rint(shapely.get_coordinates(ring)[:-1].T).astype(np.int64) for ring in clear]
    return np.concatenate(found, axis=1), [ring.shape[1] for ring in found]
