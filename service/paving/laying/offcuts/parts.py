"""Parts: cut pieces as an offcut search sees them, measured once."""

from collections.abc import Sequence
from itertools import chain
from typing import NamedTuple

import numpy as np

from service.paving.errors import BrokenIdentity
from service.paving.laying.cut_pieces import CutPiece, MadeEdges, Ring
from service.paving.laying.offcuts.rules import Stock


class Part(NamedTuple):
    """A piece to be cut from some slab.

    Parameters
    ----------
    place : int
        Which slab of the layout it belongs to.
    x0, y0, x1, y1 : int
        Rectangle round it, where it lies in its own slab [µm].
    area : float
        Its area, holes left out [µm2].
    rings : tuple of Ring
        Its outline, as in `CutPiece`.
    """

    place: int
    x0: int
    y0: int
    x1: int
    y1: int
    area: float
    rings: tuple[Ring, ...]

    @property
    def length(self) -> int:
        """Length of the rectangle round it [µm]."""
        return self.x1 - self.x0

    @property
    def width(self) -> int:
        """Width of the rectangle round it [µm]."""
        return self.y1 - self.y0


def ring_area(ring: Ring) -> float:
    """Area inside a ring, negative if it runs clockwise [µm2].

    References
    ----------
    Geometry (shoelace formula)

    Examples
    --------
    >>> ring_area(((0, 0), (4, 0), (4, 3)))
    6.0
    """
    x0, y0 = ring[-1]
    doubled = 0
    for x1, y1 in ring:
        doubled += x0 * y1 - x1 * y0
        x0, y0 = x1, y1
    return doubled / 2


def parts(cuts: Sequence[CutPiece], stock: Stock) -> list[Part]:
    """Measure the pieces.

    Raises
    ------
    BrokenIdentity
        If a piece reaches outside its own slab.
    """
    if not cuts:
        return []
    rings = [ring for cut in cuts for ring in cut.outline]
    corners = np.array([len(ring) for ring in rings])
    points = np.fromiter(chain.from_iterable(chain.from_iterable(rings)), np.int64, 2 * int(corners.sum()))
    x, y = points.reshape(-1, 2).T
    last = corners.cumsum() - 1
    following = np.arange(1, x.size + 1)
    following[last] = last - corners + 1
    loops = np.array([len(cut.outline) for cut in cuts])
    first = (last - corners + 1)[loops.cumsum() - loops]
    low, high = (bound.reduceat((x, y), first, axis=1) for bound in (np.minimum, np.maximum))
    if (low < 0).any() or (high[0] > stock.length).any() or (high[1] > stock.width).any():
        raise BrokenIdentity("A cut piece reaches outside the slab it is cut from.")
    area = np.add.reduceat(x * y[following] - x[following] * y, first) / 2
    places, outlines = [cut.place for cut in cuts], [cut.outline for cut in cuts]
    return list(map(Part, places, *low.tolist(), *high.tolist(), area.tolist(), outlines))


def made_lengths(part: Part, stock: Stock) -> tuple[int, int, int, int]:
    """Length of made edge the piece has on the left, lower, right and upper side of its slab [µm]."""
    ring = part.rings[0]
    lengths = [0, 0, 0, 0]
    for (xa, ya), (xb, yb) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if xa == xb and xa in (0, stock.length):
            lengths[0 if xa == 0 else 2] += abs(yb - ya)
        if ya == yb and ya in (0, stock.width):
            lengths[1 if ya == 0 else 3] += abs(xb - xa)
    return lengths[0], lengths[1], lengths[2], lengths[3]


def made_sides(part: Part, stock: Stock) -> tuple[bool, bool, bool, bool]:
    """Left, lower, right and upper side of the slab: along which ones the piece must keep its made edge."""
    if stock.made_edges is MadeEdges.free:
        return False, False, False, False
    left, lower, right, upper = made_lengths(part, stock)
    return left > 0, lower > 0, right > 0, upper > 0
