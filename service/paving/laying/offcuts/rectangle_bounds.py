"""Rectangle bounds: slabs that no cutting of the rectangles round the pieces can do without.

It says nothing about the true shapes: two triangles may share the rectangle of one.
"""

from collections.abc import Sequence

import numpy as np

from service.paving.laying.arrays import Real, Whole
from service.paving.laying.cut_pieces import Turning
from service.paving.laying.offcuts.rules import Stock
from service.paving.laying.offcuts.shares import shares, thresholds, whole_slabs

#: Most functions of one kind along each side; both ways round cost more.
MOST_LIMITS, MOST_LIMITS_TURNED = 60, 16


def rectangle_bound(boxes: Sequence[tuple[int, int]], stock: Stock) -> int:
    """Slabs needed at least for rectangles of these lengths and widths [µm], wherever they are cut.

    Notes
    -----
    The share of a rectangle is the share of its length times the share of its width; if it may
    be turned, the less of both ways round. Any two functions serve, so the best pair is taken.

    Examples
    --------
    >>> from service.paving.laying.cut_pieces import MadeEdges
    >>> slab = Stock(600, 400, 0, Turning.none, MadeEdges.free)
    >>> rectangle_bound([(301, 201)] * 3, slab)
    3
    """
    lengths, widths = (np.array(boxes, dtype=np.int64).reshape(-1, 2) + stock.kerf).T
    length, width = stock.length + stock.kerf, stock.width + stock.kerf
    if stock.turning is Turning.quarter:
        return whole_slabs(_turned(lengths, widths, length, width))
    along = _rows(lengths, lengths, length, MOST_LIMITS)
    across = _rows(widths, widths, width, MOST_LIMITS)
    # Not a matrix product, which would wake the threads of the algebra library.
    return whole_slabs(float(np.einsum("ik,jk->ij", along, across).max(initial=0)))


def _rows(sizes: Whole, steps: Whole, capacity: int, most: int) -> Real:
    """Shares by every function; not a number for what doesn't fit."""
    limits = thresholds(steps, capacity, most)
    return np.where(sizes > capacity, np.nan, shares(np.minimum(sizes, capacity), capacity, limits))


def _turned(lengths: Whole, widths: Whole, length: int, width: int) -> float:
    most, both = MOST_LIMITS_TURNED, np.concatenate((lengths, widths))
    along = _rows(both, both, length, most)
    across = _rows(both, both, width, most)
    count = lengths.size
    best = 0.0
    for row in along:
        lying = row[:count] * across[:, count:]
        turned = row[count:] * across[:, :count]
        best = max(best, float(np.fmin(lying, turned).sum(axis=1).max(initial=0)))
    return best
