"""Formulas of mixes by absolute volumes: what a cubic metre of mortar or concrete takes.

Parts are measured loose, by volume, cement first. What each fills when the grains lie
without a gap is its solids; solids, water and air together are the mix:

    parts, loose     | cement |      sand       |          aggregate          |
    solids           |ce|   sand   |    aggregate     |
    mix              |ce|   sand   |    aggregate     |  water  |air|
"""

from service.paving.formulas import formula


@formula
def dry_parts(damp_parts: float, bulking: float) -> float:
    """Parts of dry sand in parts measured damp.

    Parameters
    ----------
    damp_parts : float
        Parts as measured [1].
    bulking : float
        How much more room the damp sand takes [1].

    Returns
    -------
    float
        Parts [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> dry_parts(5.0, 0.25)
    4.0
    """
    return damp_parts / (1 + bulking)


@formula
def solids(parts: float, bulk_density: float, particle_density: float) -> float:
    """Volume of the grains alone, in parts.

    Parameters
    ----------
    parts : float
        Parts measured loose [1].
    bulk_density : float
        Density of the loose material [kg/m3].
    particle_density : float
        Density of its grains [kg/m3].

    Returns
    -------
    float
        Parts without voids [1].

    References
    ----------
    US Navy, Engineering Aid, chapter 17, absolute volume method

    Examples
    --------
    >>> round(solids(1.0, 1440.0, 3150.0), 4)
    0.4571
    """
    return parts * bulk_density / particle_density


@formula
def mortar_solids(cement_solids: float, sand_solids: float) -> float:
    """Volume of all grains of a mortar, in parts.

    Parameters
    ----------
    cement_solids, sand_solids : float
        Grains of each [1].

    Returns
    -------
    float
        Parts without voids [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> mortar_solids(0.5, 2.5)
    3.0
    """
    return cement_solids + sand_solids


@formula
def concrete_solids(cement_solids: float, sand_solids: float, aggregate_solids: float) -> float:
    """Volume of all grains of a concrete, in parts.

    Parameters
    ----------
    cement_solids, sand_solids, aggregate_solids : float
        Grains of each [1].

    Returns
    -------
    float
        Parts without voids [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> concrete_solids(0.5, 1.25, 2.25)
    4.0
    """
    return cement_solids + sand_solids + aggregate_solids


@formula
def yield_by_content(solids: float, water_content: float, air_content: float) -> float:
    """Volume of mix the parts make, in parts, when water and air are shares of the mix.

    Parameters
    ----------
    solids : float
        Volume of all grains [1].
    water_content, air_content : float
        Volume of water and of air in a volume of mix [1], together below 1.

    Returns
    -------
    float
        Parts of mix [1].

    References
    ----------
    US Navy, Engineering Aid, chapter 17, absolute volume method

    Examples
    --------
    >>> yield_by_content(3.0, 0.2, 0.05)
    4.0
    """
    return solids / (1 - water_content - air_content)


@formula
def water_parts(
    cement_parts: float, water_cement_ratio: float, cement_bulk_density: float, water_density: float
) -> float:
    """Volume of water in parts, by its ratio to the cement.

    Parameters
    ----------
    cement_parts : float
        Parts of cement [1].
    water_cement_ratio : float
        Mass of water to mass of cement [1].
    cement_bulk_density : float
        Density of loose cement [kg/m3].
    water_density : float
        Density of water [kg/m3].

    Returns
    -------
    float
        Parts of water [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> water_parts(1.0, 0.5, 1440.0, 1000.0)
    0.72
    """
    return cement_parts * water_cement_ratio * cement_bulk_density / water_density


@formula
def yield_by_ratio(solids: float, water_parts: float, air_content: float) -> float:
    """Volume of mix the parts make, in parts, when the water is given by its ratio to the cement.

    Parameters
    ----------
    solids : float
        Volume of all grains [1].
    water_parts : float
        Volume of water [1].
    air_content : float
        Volume of air in a volume of mix [1], below 1.

    Returns
    -------
    float
        Parts of mix [1].

    References
    ----------
    US Navy, Engineering Aid, chapter 17, absolute volume method

    Examples
    --------
    >>> yield_by_ratio(2.25, 0.75, 0.0)
    3.0
    """
    return (solids + water_parts) / (1 - air_content)


@formula
def cement_in_mix(cement_parts: float, cement_bulk_density: float, yield_parts: float) -> float:
    """Mass of cement in a volume of mix.

    Parameters
    ----------
    cement_parts : float
        Parts of cement [1].
    cement_bulk_density : float
        Density of loose cement [kg/m3].
    yield_parts : float
        Parts of mix that all parts together make [1].

    Returns
    -------
    float
        Mass in a volume [kg/m3].

    References
    ----------
    US Navy, Engineering Aid, chapter 17, absolute volume method

    Examples
    --------
    >>> cement_in_mix(1.0, 1440.0, 4.0)
    360.0
    """
    return cement_parts * cement_bulk_density / yield_parts
