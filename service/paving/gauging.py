"""Formulas of gauging: measuring out cement, sand, aggregate and water."""

from service.paving.formulas import formula


@formula
def cement_mass(volume: float, cement_per_volume: float) -> float:
    """Mass of cement in a mix.

    Parameters
    ----------
    volume : float
        Volume of mix [m3].
    cement_per_volume : float
        Mass of cement in a volume of mix [kg/m3].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    Geometry

    Examples
    --------
    >>> cement_mass(0.5, 360.0)
    180.0
    """
    return volume * cement_per_volume


@formula
def part_volume(volume: float, parts: float, yield_parts: float) -> float:
    """Volume of one constituent as it is measured into a mix.

    Parameters
    ----------
    volume : float
        Volume of mix [m3].
    parts : float
        Parts of the constituent [1].
    yield_parts : float
        Parts of mix that all parts together make [1].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> part_volume(2.0, 3.0, 4.0)
    1.5
    """
    return volume * parts / yield_parts


@formula
def part_mass(part_volume: float, bulk_density: float) -> float:
    """Mass of one constituent, measured dry and loose.

    Parameters
    ----------
    part_volume : float
        Volume, dry and loose [m3].
    bulk_density : float
        Density of the loose material [kg/m3].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    Geometry

    Examples
    --------
    >>> part_mass(1.5, 1600.0)
    2400.0
    """
    return part_volume * bulk_density


@formula
def damp_mass(dry_mass: float, moisture: float) -> float:
    """Mass of sand with the water it carries.

    Parameters
    ----------
    dry_mass : float
        Mass of the dry sand [kg].
    moisture : float
        Mass of water to mass of dry sand [1].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    Geometry

    Examples
    --------
    >>> damp_mass(2000.0, 0.04)
    2080.0
    """
    return dry_mass * (1 + moisture)


@formula
def carried_water(dry_mass: float, moisture: float, water_density: float) -> float:
    """Water that comes with damp sand.

    Parameters
    ----------
    dry_mass : float
        Mass of the dry sand [kg].
    moisture : float
        Mass of water to mass of dry sand [1].
    water_density : float
        Density of water [kg/m3].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> carried_water(2000.0, 0.04, 1000.0)
    0.08
    """
    return dry_mass * moisture / water_density


@formula
def water_by_content(volume: float, water_content: float) -> float:
    """All water in a mix, by its share of the volume.

    Parameters
    ----------
    volume : float
        Volume of mix [m3].
    water_content : float
        Volume of water in a volume of mix [1].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> water_by_content(0.5, 0.2)
    0.1
    """
    return volume * water_content


@formula
def water_by_ratio(cement: float, water_cement_ratio: float, water_density: float) -> float:
    """All water in a mix, by its ratio to the cement.

    Parameters
    ----------
    cement : float
        Mass of cement [kg].
    water_cement_ratio : float
        Mass of water to mass of cement [1].
    water_density : float
        Density of water [kg/m3].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> water_by_ratio(180.0, 0.5, 1000.0)
    0.09
    """
    return cement * water_cement_ratio / water_density


@formula
def water_to_add(water_in_mix: float, carried_water: float) -> float:
    """Water to add at the mixer.

    Parameters
    ----------
    water_in_mix : float
        All water in the mix [m3].
    carried_water : float
        Water the sand brings [m3].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> water_to_add(0.2, 0.08)
    0.12000000000000001
    """
    return water_in_mix - carried_water


@formula
def rule_of_thumb(
    dry_volume: float, volume: float, cement_parts: float, all_parts: float, cement_bulk_density: float
) -> float:
    """Mass of cement by the rule of thumb, as a cross-check.

    Parameters
    ----------
    dry_volume : float
        Dry materials to a volume of mix [1].
    volume : float
        Volume of mix [m3].
    cement_parts : float
        Parts of cement [1].
    all_parts : float
        Parts of all constituents together [1].
    cement_bulk_density : float
        Density of loose cement [kg/m3].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    Common practice

    Examples
    --------
    >>> round(rule_of_thumb(1.33, 1.0, 1.0, 5.0, 1440.0), 2)
    383.04
    """
    return dry_volume * volume * cement_parts / all_parts * cement_bulk_density
