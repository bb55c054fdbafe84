"""The least number of slabs by trying everything: small whole-number cases only."""

from collections.abc import Sequence
from functools import cache
from itertools import product

Box = tuple[int, int]


def least_slabs(boxes: Sequence[Box], length: int, width: int, quarter: bool) -> int:
    """The least number of slabs that rectangles of whole sizes can be cut from, kerf 0.

    Whole-number places are enough: pushed down and left, every rectangle touches a side or another one.
    """
    together = {0} | {
        s
        for s in range(1, 1 << len(boxes))
        if _fit([b for k, b in enumerate(boxes) if s >> k & 1], length, width, quarter)
    }

    @cache
    def least(left: int) -> int:
        if not left:
            return 0
        first = left & -left
        rest = left ^ first
        part, best = rest, len(boxes)
        while True:
            if part | first in together:
                best = min(best, 1 + least(rest ^ part))
            if not part:
                return best
            part = (part - 1) & rest

    return least((1 << len(boxes)) - 1)


def _fit(boxes: Sequence[Box], length: int, width: int, quarter: bool) -> bool:
    if sum(a * b for a, b in boxes) > length * width:
        return False
    return _place(sorted(boxes, reverse=True), length, width, quarter, frozenset())


def _place(boxes: Sequence[Box], length: int, width: int, quarter: bool, taken: frozenset[Box]) -> bool:
    if not boxes:
        return True
    a, b = boxes[0]
    for w, h in {(a, b), (b, a)} if quarter else {(a, b)}:
        for x, y in product(range(length - w + 1), range(width - h + 1)):
            cells = frozenset(product(range(x, x + w), range(y, y + h)))
            if not cells & taken and _place(boxes[1:], length, width, quarter, taken | cells):
                return True
    return False
