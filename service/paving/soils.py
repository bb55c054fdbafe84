"""Soils: how they swell when dug, shrink when compacted, and what they weigh.

Cuts are measured in place, haulage loose, fills compacted: the same earth, three volumes.
"""

from dataclasses import dataclass
from functools import cache

from service.paving.errors import refuse_unknown
from service.paving.formulas import formula
from service.paving.reference import Assumption, assumption, table


@formula
def bulked_volume(volume_in_place: float, loose_factor: float) -> float:
    """Volume of earth once it is dug.

    Parameters
    ----------
    volume_in_place : float
        Volume in the ground [m3].
    loose_factor : float
        Loose volume to volume in place [1].

    Returns
    -------
    float
        Loose volume [m3].

    References
    ----------
    US Army, Earthmoving Operations, FM 5-434, soil conversion factors

    Examples
    --------
    >>> bulked_volume(300.0, 1.25)
    375.0
    """
    return volume_in_place * loose_factor


@formula
def compacted_in_place(volume_in_place: float, compacted_factor: float) -> float:
    """Volume of fill that earth in the ground makes.

    Parameters
    ----------
    volume_in_place : float
        Volume in the ground [m3].
    compacted_factor : float
        Compacted volume to volume in place [1].

    Returns
    -------
    float
        Compacted volume [m3].

    References
    ----------
    US Army, Earthmoving Operations, FM 5-434, soil conversion factors

    Examples
    --------
    >>> compacted_in_place(100.0, 0.95)
    95.0
    """
    return volume_in_place * compacted_factor


@formula
def in_place_for_fill(fill: float, compacted_factor: float) -> float:
    """Earth in the ground that a compacted fill takes.

    Parameters
    ----------
    fill : float
        Compacted volume [m3].
    compacted_factor : float
        Compacted volume to volume in place [1].

    Returns
    -------
    float
        Volume in place [m3].

    References
    ----------
    US Army, Earthmoving Operations, FM 5-434, soil conversion factors

    Examples
    --------
    >>> in_place_for_fill(9.0, 0.9)
    10.0
    """
    return fill / compacted_factor


@formula
def soil_mass(volume_in_place: float, density: float) -> float:
    """Mass of earth.

    Parameters
    ----------
    volume_in_place : float
        Volume in the ground [m3].
    density : float
        Density in the ground [kg/m3].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    Geometry

    Examples
    --------
    >>> soil_mass(4.0, 1700.0)
    6800.0
    """
    return volume_in_place * density


@dataclass(frozen=True, slots=True)
class Soil:
    """What is dug.

    Parameters
    ----------
    key : str
        What it is asked for by.
    name : str
        What it is called in an answer.
    poor_fill : str
        Why it makes poor fill under paving, or empty.
    loose_factor, compacted_factor : Assumption
        Loose and compacted volume to volume in place [1].
    density : Assumption
        Density in place [kg/m3].
    """

    key: str
    name: str
    poor_fill: str
    loose_factor: Assumption
    compacted_factor: Assumption
    density: Assumption


def soil(key: str) -> Soil:
    """A soil by its key.

    Raises
    ------
    UnknownName
        If the key isn't on the list; the nearest ones are offered.

    Examples
    --------
    >>> soil("clay").loose_factor.value
    1.43
    """
    entries = table("soils")
    if key not in entries:
        refuse_unknown("soil", key, entries)
    return _soil(key)


def soils() -> tuple[Soil, ...]:
    """All soils, in the order of the reference table."""
    return tuple(_soil(key) for key in table("soils"))


@cache
def _soil(key: str) -> Soil:
    entry = table("soils")[key]
    return Soil(
        key=key,
        name=entry["name"],
        poor_fill=entry["poor_fill"],
        loose_factor=assumption(f"{key} loose to in place", entry["loose_factor"]),
        compacted_factor=assumption(f"{key} compacted to in place", entry["compacted_factor"]),
        density=assumption(f"{key} density in place", entry["density"]),
    )
