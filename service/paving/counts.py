"""Rounding up to whole things."""

import math

#: Share of one whole that is rounding of floats, not a need for one more.
_SLACK = 1e-9


def ceil(value: float) -> int:
    """The whole number of lifts, bags or batches that covers a need.

    Parameters
    ----------
    value : float
        How many are needed [1], 0 or more.

    Returns
    -------
    int
        Whole number [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> ceil(2.3)
    3

    A float that misses a whole number by its rounding isn't a need for one more:

    >>> 0.675 / 0.225
    3.0000000000000004
    >>> ceil(0.675 / 0.225)
    3
    """
    return math.ceil(value - _SLACK)
