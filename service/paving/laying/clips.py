"""Clips: what the ground leaves of each box that its edges touch.

Along the left side of a box the ground winds so many times round each point; crossing an
edge on the way to the right adds or takes one. So the area inside is the paved length of
the left side times the length of the box, less what each edge inside cuts off on its right:

          +-------+
          |     / |      area = length x paved part of the left side
          |    /  |             - sum of (rise of the edge x mean distance to the right side)
          |   /   |
          +-------+

Only edges that touch the box are needed, and the winding of its reference point.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.laying.arrays import Flags, Real
from service.paving.laying.encounters import Encounters
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import Lattice
from service.paving.laying.rows import REFERENCE


@dataclass(frozen=True)
class Sights:
    """Edges seen from the corner of a box each.

    Parameters
    ----------
    ends : Real
        Start and end of the edge from the lower left corner of the box [grid units]: start or end by
        x or y by pair.
    sides : Real
        Rows length and width of the box.
    doubt : float
        What the cross product of an edge and a point of its box may be wrong by [grid units squared].
    """

    ends: Real
    sides: Real
    doubt: float

    @cached_property
    def run(self) -> Real:
        """How far the edge goes, in rows x, y."""
        return self.ends[1] - self.ends[0]

    @cached_property
    def slopes(self) -> Real:
        """How far the edge goes along y for a step along x, and along x for a step along y; 0 if it takes none."""
        slopes: Real = np.divide(self.run[::-1], self.run, out=np.zeros_like(self.run), where=self.run != 0)
        return slopes


def sights(ground: Ground, lattice: Lattice, met: Encounters) -> Sights:
    """Each edge of the ground seen from the box it meets; whole numbers, which floats hold exactly."""
    boxes = lattice.boxes.astype(float).take(met.kind, axis=1)
    steps = np.array((lattice.u, lattice.v), dtype=float)[:, :, None]
    boxes[:2] += steps[0] * met.place
    boxes[:2] += steps[1] * met.row
    ends = np.array((ground.starts, ground.ends), dtype=float).take(met.edge, axis=2)
    ends -= boxes[:2]
    farthest = 2 * (ground.longest + int(lattice.boxes[2:].max()))
    return Sights(ends, boxes[2:], ground.longest * farthest * 1e-15)


def chords(seen: Sights) -> tuple[Real, Flags]:
    """Clip each edge to its box, and whether it runs through the inside of the box at all.

    An edge along a side of the box doesn't. Ends on a side lie on it exactly.

    Returns
    -------
    inside : Real
        Start and end of what is inside, as `Sights.ends`.
    touches : Flags
        Whether it is more than a point of a side.
    """
    (length, width), (steep, slope) = seen.sides, seen.slopes
    x, y = seen.ends[:, 0], seen.ends[:, 1]
    level = np.empty_like(seen.ends)
    level[:, 1] = np.minimum(np.maximum(y, 0.0), width)
    level[:, 0] = x + (level[:, 1] - y) * slope
    low, high = np.minimum(level[0], level[1]), np.maximum(level[0], level[1])
    within = (low < seen.sides) & (high > 0)
    inside = np.empty_like(level)
    inside[:, 0] = np.minimum(np.maximum(level[:, 0], 0.0), length)
    inside[:, 1] = level[:, 1] + (inside[:, 0] - level[:, 0]) * steep
    inside[:, 1] = np.minimum(np.maximum(inside[:, 1], low[1]), high[1])
    return inside, within[0] & within[1]


def on_left(seen: Sights, x: int, y: int) -> Flags:
    """Whether a point of each box lies on the left of its edge, or on it: exactly, however near."""
    (x0, y0), (dx, dy) = seen.ends[0], seen.run
    side = dx * (y - y0) - dy * (x - x0)
    left: Flags = side >= 0
    doubtful = np.flatnonzero(np.abs(side) <= seen.doubt)
    if doubtful.size:
        exact = zip(*([int(n) for n in term[doubtful]] for term in (dx, y0, dy, x0)), strict=True)
        left[doubtful] = [dx * (y - y0) >= dy * (x - x0) for dx, y0, dy, x0 in exact]
    return left


def sides(seen: Sights) -> Real:
    """Paved length each edge adds on the left and on the bottom side of its box, from its reference point on.

    Beyond the edge the winding changes all the way to the far end of the side; if the reference point
    lies beyond it already, it changes back on the way to the corner.

    Returns
    -------
    Real
        Rows left, bottom [grid units].
    """
    reference = on_left(seen, *REFERENCE)
    beyond = (seen.ends > _REFERENCE).astype(float)
    turns = (beyond[1] - beyond[0]) * _UP_AND_BACK
    far = seen.sides[::-1]
    meets = np.minimum(np.maximum(seen.ends[0, ::-1] - seen.ends[0] * seen.slopes, 0.0), far)
    added: Real = turns * ((reference == (turns < 0)) * far - meets)
    return added


_REFERENCE = np.array(REFERENCE)[:, None]
#: An edge that goes on along x has the paving above it, one that goes on along y has it behind.
_UP_AND_BACK = np.array((1.0, -1.0))[:, None]
