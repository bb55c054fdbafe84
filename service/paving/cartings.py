"""Cartings: what takes the spoil away."""

from dataclasses import dataclass

from service.paving.counts import ceil
from service.paving.formulas import formula
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet

#: Skips that soil goes in, by the cubic yards they are named by.
SKIPS = {2: "skip_2", 4: "skip_4", 6: "skip_6", 8: "skip_8"}


@formula
def skips_needed(loose_volume: float, capacity: float) -> float:
    """Number of skips filled level.

    Parameters
    ----------
    loose_volume : float
        Spoil as it is loaded [m3], 0 or more.
    capacity : float
        What one skip holds [m3].

    Returns
    -------
    float
        Whole number of skips [1].

    References
    ----------
    Geometry

    Examples
    --------
    Nine cubic metres of common earth in place, in skips of 8 cubic yards:

    >>> skips_needed(9.0 * 1.25, 6.12)
    2
    """
    return ceil(loose_volume / capacity)


@formula
def loads_needed(mass: float, payload: float) -> float:
    """Number of tipper loads.

    Parameters
    ----------
    mass : float
        Spoil to be carted [kg], 0 or more.
    payload : float
        What one tipper carries [kg].

    Returns
    -------
    float
        Whole number of loads [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> loads_needed(25200.0, 20000.0)
    2
    """
    return ceil(mass / payload)


@dataclass(frozen=True, slots=True)
class Skip:
    """How many skips of one size would take all of it.

    Parameters
    ----------
    capacity_yd3 : int
        The cubic yards it is named by.
    capacity : float
        What it holds [m3].
    count : int
        How many are needed.
    """

    capacity_yd3: int
    capacity: float
    count: int


def skips(sheet: Sheet, loose_volume: float) -> tuple[Skip, ...]:
    """How many skips of each size would take a loose volume [m3], one size or the other."""
    found = []
    for yards, name in SKIPS.items():
        capacity = default("excavations", name).value
        count = sheet.work("skips.count", skips_needed, loose_volume, capacity)
        found.append(Skip(yards, capacity, int(count)))
    return tuple(found)


def tipper_loads(sheet: Sheet, mass: float, payload: Assumption) -> int:
    """How many tipper loads a mass of spoil [kg] makes."""
    return int(sheet.work("tipper_loads", loads_needed, mass, sheet.assume(payload)))
