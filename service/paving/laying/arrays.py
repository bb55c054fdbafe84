"""Arrays of whole numbers and floats, and the one way they are spread out."""

from collections.abc import Iterator
from itertools import islice
from typing import Any

import numpy as np
import numpy.typing as npt

# The arrays of one layout are taken and freed by the hundred. The C library gives freed memory back to the
# system at once, and takes it anew page by page, until it has seen one large block come and go; after
# this one, which is never written to, it keeps up to 16 MB. Counting 100,000 slabs takes a quarter less.
np.empty(8_000_000, dtype=np.uint8)

Whole = npt.NDArray[np.int64]
Real = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]


def spans(first: Whole, last: Whole) -> tuple[Whole, Whole]:
    """Every whole number of many spans, first to last, both included.

    Returns
    -------
    owners, numbers : Whole
        Which span each number is of, and the number.

    Examples
    --------
    >>> owners, numbers = spans(np.array([3, 7, 5]), np.array([4, 6, 5]))
    >>> owners.tolist(), numbers.tolist()
    ([0, 0, 2], [3, 4, 5])
    """
    counts = np.maximum(last - first + 1, 0)
    owners = np.arange(counts.size).repeat(counts)
    return owners, np.arange(owners.size) + (first - counts.cumsum() + counts).take(owners)


def rings(points: npt.NDArray[Any], corners: Whole, loops: Whole) -> Iterator[tuple[tuple[tuple[Any, Any], ...], ...]]:
    """Points one after another as rings, owner by owner.

    Parameters
    ----------
    points : array of numbers
        Rows x, y.
    corners : Whole
        How many points each ring has.
    loops : Whole
        How many rings each owner has.

    Examples
    --------
    >>> list(rings(np.array([[0, 4, 0], [0, 0, 3]]), np.array([3]), np.array([1])))
    [(((0, 0), (4, 0), (0, 3)),)]
    """
    turn = zip(*points.tolist(), strict=True)
    drawn = (tuple(islice(turn, number)) for number in corners.tolist())
    return (tuple(islice(drawn, number)) for number in loops.tolist())
