"""Parts: cut pieces as an offcut search sees them, measured once."""

from itertools import repeat
from typing import NamedTuple

from service.paving.errors import BrokenIdentity
from service.paving.laying.cut_pieces import CutPieces, MadeEdges, Ring
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
    cuts : CutPieces
        The pieces it is one of.
    number : int
        Which one.
    """

    place: int
    x0: int
    y0: int
    x1: int
    y1: int
    area: float
    cuts: CutPieces
    number: int

    @property
    def rings(self) -> tuple[Ring, ...]:
        """Its outline, and any holes."""
        return self.cuts.outlines[self.number]

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


def parts(cuts: CutPieces, stock: Stock) -> list[Part]:
    """Measure the pieces.

    Raises
    ------
    BrokenIdentity
        If a piece reaches outside its own slab.
    """
    if not cuts.places.size:
        return []
    x0, y0, x1, y1 = cuts.bounds
    if (x0 < 0).any() or (y0 < 0).any() or (x1 > stock.length).any() or (y1 > stock.width).any():
        raise BrokenIdentity("A cut piece reaches outside the slab it is cut from.")
    columns = (cuts.places, x0, y0, x1, y1, cuts.areas)
    return list(map(Part, *(column.tolist() for column in columns), repeat(cuts), range(x0.size)))


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
