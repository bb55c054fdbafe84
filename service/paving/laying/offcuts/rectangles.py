"""Rectangles: pieces cut from slabs as if each were the rectangle round it.

Straight cuts from edge to edge. The kerf is added to the length and width of every piece
and of the slab, so that pieces side by side lie a kerf apart and none is lost at the edge.
The free rectangle that leaves the shorter strip is taken, and split along that strip:

    +-------+-----------+
    | piece |           |
    +-------+   free    |
    | free  |           |
    +-------+-----------+
"""

from collections.abc import Sequence
from dataclasses import dataclass

from service.paving.laying.cut_pieces import Turning
from service.paving.laying.offcuts.rules import Stock

Free = tuple[int, int, int, int]
#: Length and width of a piece, kerf included, and turned a quarter if it may be.
Ways = tuple[tuple[int, int], ...]


@dataclass(slots=True)
class Sheet:
    """A slab with rectangles cut from it; never changed, but not frozen, which would make it slow to make.

    Parameters
    ----------
    free : tuple
        Rectangles left: x, y, length, width, kerf included [µm].
    area : float
        Area of its rectangles, kerf included [µm2].
    members : tuple of int
        Its pieces.
    spots : tuple
        Lower left corner of each [µm], and whether it is turned a quarter (0 or 1).
    """

    free: tuple[Free, ...]
    area: float
    members: tuple[int, ...]
    spots: tuple[tuple[int, int, int], ...]


class Sawyer:
    """Cuts rectangles from slabs with straight cuts from edge to edge.

    Parameters
    ----------
    boxes : sequence of (int, int)
        Length and width of each piece [µm].
    stock : Stock
        Slab and rules.
    """

    def __init__(self, boxes: Sequence[tuple[int, int]], stock: Stock) -> None:
        kerf = stock.kerf
        self._boxes = [(length + kerf, width + kerf) for length, width in boxes]
        self.areas = [float(length) * width for length, width in self._boxes]
        whole: Free = (0, 0, stock.length + kerf, stock.width + kerf)
        self._uncut = Sheet((whole,), 0.0, (), ())
        self._face = float(stock.length + kerf) * (stock.width + kerf)
        quarter = stock.turning is Turning.quarter
        self._ways = [((a, b), (b, a)) if quarter and a != b else ((a, b),) for a, b in self._boxes]

    def deal(self, piece: int, slabs: list[Sheet]) -> None:
        """Cut the piece from the first slab with room for it, or from a new one."""
        ways, room = self._ways[piece], self._face - self.areas[piece]
        for k, sheet in enumerate(slabs):
            if sheet.area <= room and (best := _tightest(sheet.free, ways)):
                slabs[k] = self._cut(sheet, best[0], piece, best[1])
                return
        slabs.append(self._cut(self._uncut, self._uncut.free[0], piece, 0))

    def _cut(self, sheet: Sheet, free: Free, piece: int, turns: int) -> Sheet:
        a, b = self._ways[piece][turns]
        rest = [other for other in sheet.free if other is not free] if len(sheet.free) > 1 else ()
        return Sheet(
            (*rest, *_split(free, a, b)),
            sheet.area + self.areas[piece],
            (*sheet.members, piece),
            (*sheet.spots, (free[0], free[1], turns)),
        )


def _tightest(free: tuple[Free, ...], ways: Ways) -> tuple[Free, int] | None:
    """The free rectangle in which a piece leaves the shortest strip, and which way round: the first such."""
    best = None
    shortest = 0
    for turns, (a, b) in enumerate(ways):
        for one in free:
            along, across = one[2] - a, one[3] - b
            if along >= 0 and across >= 0:
                strip = along if along < across else across
                if best is None or strip < shortest:
                    best, shortest = (one, turns), strip
    return best


def _split(free: Free, a: int, b: int) -> list[Free]:
    """What is left of a free rectangle, less a by b from its lower left corner."""
    x, y, length, width = free
    if length - a < width - b:
        left = [(x + a, y, length - a, b), (x, y + b, length, width - b)]
    else:
        left = [(x + a, y, length - a, width), (x, y + b, a, width - b)]
    return [one for one in left if one[2] > 0 and one[3] > 0]
