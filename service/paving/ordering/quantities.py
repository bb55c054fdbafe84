"""Quantities as sold: what is needed, turned into the unit a good is sold in."""

from service.paving.errors import OutOfRange
from service.paving.ordering.goods import Good, Unit
from service.paving.slabs import Slab

#: What one unit of sale is in SI, by what it measures.
MASS_UNITS: dict[Unit, float] = {"t": 1000.0, "kg": 1.0}
VOLUME_UNITS: dict[Unit, float] = {"m3": 1.0, "l": 0.001}


def mass_as_sold(good: Good, mass: float) -> float:
    """Quantity of a good by its mass.

    Parameters
    ----------
    good : Good
        What is sold.
    mass : float
        Mass needed [kg], 0 or more.

    Returns
    -------
    float
        Quantity in the good's unit.

    Raises
    ------
    OutOfRange
        If the good isn't sold by mass and the catalogue doesn't know its mass.

    References
    ----------
    Geometry

    Examples
    --------
    >>> mass_as_sold(Good("A", "Stone", "type_1", "t", ()), 2100.0)
    2.1
    """
    return mass / unit_mass(good)


def volume_as_sold(good: Good, volume: float) -> float:
    """Quantity of a good by its loose volume.

    Parameters
    ----------
    good : Good
        What is sold.
    volume : float
        Volume as delivered [m3], 0 or more.

    Returns
    -------
    float
        Quantity in the good's unit.

    Raises
    ------
    OutOfRange
        If the good isn't sold by volume and the catalogue doesn't know its loose density.

    References
    ----------
    Geometry

    Examples
    --------
    >>> volume_as_sold(Good("A", "Stone", "type_1", "t", (), loose_density=1700.0), 2.0)
    3.4
    """
    if good.unit in VOLUME_UNITS:
        return volume / VOLUME_UNITS[good.unit]
    if good.loose_density is None:
        raise _cannot_compare(good, "a volume", "its loose density")
    return mass_as_sold(good, volume * good.loose_density)


def count_as_sold(good: Good, slabs: int) -> float:
    """Quantity of a good by a number of slabs.

    Parameters
    ----------
    good : Good
        Slabs, kerbs or edgings of one size.
    slabs : int
        How many, 0 or more.

    Returns
    -------
    float
        Quantity in the good's unit.

    Raises
    ------
    OutOfRange
        If the good isn't sold by the piece, the square metre or the metre, or the
        catalogue doesn't know the slab's size.

    References
    ----------
    Geometry

    Examples
    --------
    >>> flag = Good("A", "Flag", "slab", "m2", (), slabs=(Slab("Flag", 0.6, 0.5, 0.038),))
    >>> count_as_sold(flag, 10)
    3.0
    """
    if good.unit == "each":
        return float(slabs)
    if good.slab is None or good.unit not in ("m2", "m"):
        raise _cannot_compare(good, "a number of slabs", "the size of one")
    return slabs * slab_measure(good.slab, good.unit)


def area_as_sold(good: Good, area: float) -> float:
    """Quantity of a good by the area it covers.

    Parameters
    ----------
    good : Good
        Slabs, or a membrane.
    area : float
        Area [m2], 0 or more.

    Returns
    -------
    float
        Quantity in the good's unit; slabs by the piece are not rounded up here.

    Raises
    ------
    OutOfRange
        If the good isn't sold by area and the catalogue doesn't know the slab's size.

    References
    ----------
    Geometry

    Examples
    --------
    >>> flag = Good("A", "Flag", "slab", "each", (), slabs=(Slab("Flag", 0.6, 0.5, 0.038),))
    >>> area_as_sold(flag, 3.0)
    10.0
    """
    if good.unit == "m2":
        return area
    if good.slab is None or good.unit != "each":
        raise _cannot_compare(good, "an area", "the size of a slab")
    return area / slab_measure(good.slab, "m2")


def length_as_sold(good: Good, length: float) -> float:
    """Quantity of a good by the length it makes.

    Parameters
    ----------
    good : Good
        Kerbs or edgings, or a roll.
    length : float
        Length [m], 0 or more.

    Returns
    -------
    float
        Quantity in the good's unit; pieces are not rounded up here.

    Raises
    ------
    OutOfRange
        If the good isn't sold by length and the catalogue doesn't know the size of a piece.

    References
    ----------
    Geometry

    Examples
    --------
    >>> length_as_sold(Good("A", "Roll", "membrane", "m", ()), 4.5)
    4.5
    """
    if good.unit == "m":
        return length
    if good.slab is None or good.unit != "each":
        raise _cannot_compare(good, "a length", "the size of a piece")
    return length / slab_measure(good.slab, "m")


def unit_mass(good: Good) -> float:
    """Mass of one unit of a good [kg].

    Raises
    ------
    OutOfRange
        If the good isn't sold by mass and the catalogue doesn't know its mass.
    """
    if good.unit in MASS_UNITS:
        return MASS_UNITS[good.unit]
    if good.mass is not None:
        return good.mass
    if good.unit in VOLUME_UNITS and good.loose_density is not None:
        return VOLUME_UNITS[good.unit] * good.loose_density
    raise _cannot_compare(good, "a mass", f"the mass of one {good.unit}")


def slab_measure(slab: Slab, unit: Unit) -> float:
    """Face of a slab [m2], or its length [m]."""
    return slab.length * slab.width if unit == "m2" else slab.length


def _cannot_compare(good: Good, what: str, missing: str) -> OutOfRange:
    return OutOfRange(
        f"'{good.name}' is sold by {good.unit}, and {what} can't be turned into that: the catalogue lacks {missing}.",
        "sku",
    )
