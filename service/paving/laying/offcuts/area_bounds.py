"""Area bounds: slabs that no cutting can do without, whatever the shapes and however they are turned.

Spread every piece by half the kerf all round: pieces a kerf apart then still don't overlap,
and all lie in the slab spread by half the kerf. Their areas are a packing of one number.
"""

import math
from collections.abc import Sequence
from typing import TypeVar

import numpy as np

from service.paving.laying.arrays import Real
from service.paving.laying.offcuts.rules import Stock
from service.paving.laying.offcuts.shares import shares, thresholds, whole_slabs

Number = TypeVar("Number", float, Real)

#: Parts that a slab is divided in so that areas are whole numbers.
FINENESS = 10**9
#: Most functions of one kind.
MOST_LIMITS = 40


def spread_area(area: Number, perimeter: Number, kerf: float) -> Number:
    """Area of a convex shape spread by half the kerf all round.

    Parameters
    ----------
    area, perimeter : float or array of floats
        Area and perimeter [µm2, µm].
    kerf : float
        Kerf [µm].

    Returns
    -------
    float or array of floats
        Area [µm2].

    References
    ----------
    Geometry (Steiner's formula)

    Examples
    --------
    >>> round(spread_area(100.0, 40.0, 2.0), 3)
    143.142
    """
    return area + perimeter * kerf / 2 + math.pi * kerf**2 / 4


def round_spread_area(area: Number, kerf: float) -> Number:
    """Least area that any shape of this area has when spread by half the kerf: that of a disc.

    Parameters
    ----------
    area : float or array of floats
        Area [µm2].
    kerf : float
        Kerf [µm].

    Returns
    -------
    float or array of floats
        Area [µm2].

    References
    ----------
    Geometry (Brunn-Minkowski inequality)

    Examples
    --------
    >>> round(round_spread_area(math.pi, 2.0) / math.pi, 9)
    4.0
    """
    return spread_area(area, 2 * (math.pi * area) ** 0.5, kerf)


def slab_shares(spread: Sequence[float] | Real, stock: Stock) -> Real:
    """Share of the spread slab that each spread piece takes up (0 to 1), rounded down."""
    face = spread_area(stock.area, 2.0 * (stock.length + stock.width), stock.kerf)
    return np.floor(np.array(spread) * (FINENESS / face)) / FINENESS


def quick_area_bound(slab_shares: Real) -> int:
    """Slabs that pieces taking up these shares need at least, by the quickest of the functions alone.

    References
    ----------
    Martello, S., Toth, P., "Lower bounds and reduction procedures for the bin packing problem",
    Discrete Applied Mathematics 28 (1990) (from memory)

    Examples
    --------
    >>> quick_area_bound(np.array([0.6, 0.6, 0.6, 0.1]))
    3
    """
    rising = np.sort(slab_shares)
    below = np.concatenate(([0.0], np.cumsum(rising)))
    limits = np.concatenate(([0.0], rising[: np.searchsorted(rising, 0.5, side="right")], [0.5]))
    alone = np.searchsorted(rising, 1 - limits, side="right")
    counted = below[alone] - below[np.searchsorted(rising, limits, side="left")]
    return whole_slabs(float((counted + rising.size - alone).max()))


def area_bound(slab_shares: Real) -> int:
    """Slabs that pieces taking up these shares need at least.

    Examples
    --------
    >>> area_bound(np.array([0.6, 0.6, 0.6, 0.1]))
    3
    """
    sizes = np.minimum((slab_shares * FINENESS).astype(np.int64), FINENESS)
    limits = thresholds(sizes, FINENESS, MOST_LIMITS)
    return whole_slabs(float(shares(sizes, FINENESS, limits).sum(axis=1).max()))
