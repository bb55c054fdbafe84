"""Box gaps: rectangles as they lie in their slabs, and which leave room for the blade between them.

Where made edges must be kept a piece may not be moved away from them. This is the quick
way then: every piece as it lies or turned with its slab, seen as the rectangle round it.
"""

from collections.abc import Sequence

import numpy as np

from service.paving.laying.arrays import Flags, Whole
from service.paving.laying.offcuts.parts import Part
from service.paving.laying.offcuts.rules import Stock
from service.paving.laying.offcuts.stands import Stand, stands_as_laid


def clear_boxes(parts: Sequence[Part], stock: Stock) -> Flags:
    """Which two of all stands leave room for the blade, the stands of `stands_as_laid` piece by piece."""
    corners = np.array([(part.x0, part.y0, part.x1, part.y1) for part in parts], dtype=np.int64)
    laid = [_laid(corners, stand) for stand in stands_as_laid(stock)]
    (left, low), (right, high) = np.stack(laid, axis=1).reshape(-1, 2, 2).transpose(1, 2, 0)
    clear: Flags = left[:, None] >= right + stock.kerf
    clear |= low[:, None] >= high + stock.kerf
    return clear | clear.T


def _laid(corners: Whole, stand: Stand) -> Whole:
    """Lower left and upper right corners of boxes at a stand: (piece, corner, x or y)."""
    shift = (stand.x, stand.y)
    turns = ((1, 0, 0, 1), (0, -1, 1, 0), (-1, 0, 0, -1), (0, 1, -1, 0))
    matrix = np.array(turns[stand.turns]).reshape(2, 2)
    points = np.einsum("ij,pcj->pci", matrix, corners.reshape(-1, 2, 2)) + shift
    return np.sort(points, axis=1)
