"""Shares: how much of a slab a piece takes up at least, by dual feasible functions.

A dual feasible function turns sizes into shares such that whatever sizes fit into the
capacity together, their shares never add up to more than 1. The shares of all pieces
together are then a number of slabs that no cutting can do with less than.

References
----------
Fekete, S. P., Schepers, J., "New classes of fast lower bounds for bin packing problems",
Mathematical Programming 91 (2001); Carlier, J., Clautiaux, F., Moukrim, A., "New reduction
procedures and lower bounds for the two-dimensional bin packing problem with fixed
orientation", Computers & Operations Research 34 (2007) (both from memory; held against
exhaustive search in the tests).
"""

import numpy as np

from service.paving.laying.arrays import Real, Whole

#: Steps of the functions that round sizes down to steps.
STEPS = (1, 2, 3, 4, 5)


def thresholds(sizes: Whole, capacity: int, most: int) -> Whole:
    """Sizes up to half the capacity at which the shares change, evenly thinned to at most so many."""
    small = np.append(np.minimum(sizes, capacity - sizes), capacity // 2)
    found = np.unique(small[small > 0])
    if found.size <= most:
        return found
    return found[np.linspace(0, found.size - 1, most).astype(int)]


def shares(sizes: Whole, capacity: int, limits: Whole) -> Real:
    """Shares of pieces of these sizes, one row for each function.

    Parameters
    ----------
    sizes : Whole
        Sizes, each from 0 to the capacity.
    capacity : int
        Capacity, above 0.
    limits : Whole
        Thresholds of the functions, above 0 and at most half the capacity.

    Examples
    --------
    >>> rows = shares(np.array([6, 5, 5]), 10, np.array([5]))
    >>> round(float(rows.sum(axis=1).max()), 9)
    2.0
    """
    plain = (sizes / capacity)[None, :]
    raised, halved = _raised(sizes, capacity, limits), _halved(sizes, capacity, limits)
    return np.concatenate((plain, _rounded(sizes, capacity), raised, halved))


def _raised(sizes: Whole, capacity: int, limits: Whole) -> Real:
    """What leaves less than the limit takes the whole slab; what is below the limit, nothing."""
    limit = limits[:, None]
    return np.where(sizes > capacity - limit, 1.0, np.where(sizes >= limit, sizes / capacity, 0.0))


def _rounded(sizes: Whole, capacity: int) -> Real:
    """Sizes rounded down to so many equal steps and one."""
    steps = np.array(STEPS)[:, None]
    whole, rest = np.divmod(sizes * (steps + 1), capacity)
    return np.where(rest == 0, sizes / capacity, whole / steps)


def _halved(sizes: Whole, capacity: int, limits: Whole) -> Real:
    """Sizes counted in limits; above half, whatever the limits in the rest leave."""
    limit = limits[:, None]
    most = capacity // limit
    doubled = np.where(
        2 * sizes > capacity,
        2 * (most - (capacity - sizes) // limit),
        np.where(2 * sizes == capacity, most, 2 * (sizes // limit)),
    )
    return doubled / (2 * most)


def whole_slabs(sum_of_shares: float) -> int:
    """Slabs that shares add up to at least, a rounding error forgiven.

    Examples
    --------
    >>> whole_slabs(2.0000000001), whole_slabs(2.1)
    (2, 3)
    """
    return int(np.ceil(sum_of_shares - 1e-6))
