"""Cut pieces: what is kept of slabs that are sawn to fit, drawn on the slab itself."""

from dataclasses import dataclass
from enum import Enum
from functools import cached_property

import numpy as np

from service.paving.laying.arrays import Flags, Real, Whole, rings

Ring = tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class CutPieces:
    """The connected pieces kept of cut slabs of one size, their corners one after another.

    Parameters
    ----------
    places : Whole
        Which slab of the layout each piece is kept of; pieces of one place fit into one slab as they lie.
    points : Whole
        Rows x, y of all corners [µm] in the slab's own frame: the slab lies from (0, 0) to
        (length, width), not turned.
    corners : Whole
        How many of them each ring has; rings are not closed.
    loops : Whole
        How many rings each piece has: the first runs counter-clockwise round the piece, any further
        one clockwise round a hole.

    Notes
    -----
    A side of the slab keeps its made edge where a ring runs along it.

        width +-----------+
              | kept  /   |
              |      /    |
              +-----+-----+
            (0, 0)      length
    """

    places: Whole
    points: Whole
    corners: Whole
    loops: Whole

    def only(self, pieces: Flags) -> "CutPieces":
        """Some of the pieces."""
        of_loops = pieces.repeat(self.loops)
        points = self.points[:, of_loops.repeat(self.corners)]
        return CutPieces(self.places[pieces], points, self.corners[of_loops], self.loops[pieces])

    @cached_property
    def outlines(self) -> tuple[tuple[Ring, ...], ...]:
        """The rings of each piece."""
        return tuple(rings(self.points, self.corners, self.loops))

    @cached_property
    def bounds(self) -> Whole:
        """Rows least x, least y, greatest x, greatest y of each piece [µm]."""
        low, high = (bound.reduceat(self.points, self._first, axis=1) for bound in (np.minimum, np.maximum))
        return np.concatenate((low, high))

    @cached_property
    def areas(self) -> Real:
        """Area of each piece, holes left out [µm2].

        References
        ----------
        Geometry (shoelace formula)
        """
        x, y = self.points
        last = self.corners.cumsum() - 1
        following = np.arange(1, x.size + 1)
        following[last] = last - self.corners + 1
        return np.add.reduceat(x * y[following] - x[following] * y, self._first) / 2

    @cached_property
    def _first(self) -> Whole:
        """First corner of each piece."""
        return (self.corners.cumsum() - self.corners)[self.loops.cumsum() - self.loops]


class MadeEdges(Enum):
    """What becomes of the edges a slab was made with.

    `kept`: a piece that has a made edge keeps it on its outside. `free`: any side may be a sawn one.
    """

    kept = "kept"
    free = "free"


class Turning(Enum):
    """Whether an offcut may be turned on the face of the slab it is cut from.

    `none`: the surface has a direction, so only as it lies or upside down (half a turn).
    `quarter`: a quarter turn as well.
    """

    none = "none"
    quarter = "quarter"
