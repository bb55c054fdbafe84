"""Materials: what layers, beds and joints are made of, with their densities."""

from dataclasses import dataclass
from functools import cache

from service.paving.errors import refuse_unknown
from service.paving.reference import Assumption, assumption, table


@dataclass(frozen=True, slots=True)
class Material:
    """A material sold by mass and measured by volume.

    Parameters
    ----------
    key : str
        What it is asked for by.
    name : str
        What it is called on the bill.
    kind : str
        "sub_base", "bedding", "aggregate", "jointing" or "mixed" (mortar and concrete).
    compacted_density : Assumption
        Density in place [kg/m3].
    loose_density : Assumption
        Density as delivered [kg/m3]; of a wet mix the same as in place.
    note : str
        What to know when choosing it.
    largest_stone : float
        Size of its largest stones [m].
    """

    key: str
    name: str
    kind: str
    compacted_density: Assumption
    loose_density: Assumption
    note: str
    largest_stone: float = 0.0


def material(key: str) -> Material:
    """A material by its key.

    Raises
    ------
    UnknownName
        If the key isn't on the list; the nearest ones are offered.

    Examples
    --------
    >>> material("type_1").compacted_density.value
    2100.0
    """
    entries = table("materials")
    if key not in entries:
        refuse_unknown("material", key, entries)
    return _material(key)


def materials() -> tuple[Material, ...]:
    """All materials, in the order of the reference table."""
    return tuple(_material(key) for key in table("materials"))


@cache
def _material(key: str) -> Material:
    entry = table("materials")[key]
    return Material(
        key=key,
        name=entry["name"],
        kind=entry["kind"],
        compacted_density=assumption(f"{key} compacted density", entry["compacted_density"]),
        loose_density=assumption(f"{key} loose density", entry["loose_density"]),
        note=entry["note"],
        largest_stone=entry["largest_stone"],
    )
