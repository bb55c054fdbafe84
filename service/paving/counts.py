"""Rounding to whole things, up or down."""

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

    >>> 0.1 * 3 / 0.1
    3.0000000000000004
    >>> ceil(0.1 * 3 / 0.1)
    3
    """
    return math.ceil(value - _SLACK)


def floor(value: float) -> int:
    """The whole number of things that fit.

    Parameters
    ----------
    value : float
        How many would fit if they could be split [1], 0 or more.

    Returns
    -------
    int
        Whole number [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> floor(2.7)
    2
    >>> floor(0.3 / 0.1)
    3
    """
    return math.floor(value + _SLACK)
