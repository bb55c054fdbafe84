"""Formulas of soakaways: how much a pit must hold while a storm lasts.

    ---------------------------  ground
         |               |  inflow
         |~~~~~~~~~~~~~~~|      ---
      <- |               | ->    | effective depth
         +---------------+      ---

Water leaves through the sides; the area to half the effective depth stands for the mean.
"""

from service.paving.formulas import formula


@formula
def storm_inflow(area: float, rain_depth: float) -> float:
    """Water that a storm brings.

    Parameters
    ----------
    area : float
        Area that is drained [m2].
    rain_depth : float
        Depth of rain [m].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    BRE Digest 365 (quoted from memory)

    Examples
    --------
    >>> storm_inflow(25.0, 0.010)
    0.25
    """
    return area * rain_depth


@formula
def side_area(length: float, width: float, effective_depth: float) -> float:
    """Sides of a soakaway to half its effective depth; its base silts up and isn't counted.

    Parameters
    ----------
    length, width : float
        Plan of the soakaway [m].
    effective_depth : float
        Depth below the inlet [m].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    BRE Digest 365 (quoted from memory)

    Examples
    --------
    >>> side_area(1.0, 1.0, 1.0)
    2.0
    """
    return (length + width) * effective_depth


@formula
def storm_outflow(side_area: float, infiltration_rate: float, duration: float) -> float:
    """Water that leaves a soakaway while the storm lasts.

    Parameters
    ----------
    side_area : float
        Sides to half depth [m2].
    infiltration_rate : float
        Rate at which the ground takes water [m/s].
    duration : float
        How long the storm lasts [s].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    BRE Digest 365 (quoted from memory)

    Examples
    --------
    >>> round(storm_outflow(2.0, 4e-5, 300.0), 9)
    0.024
    """
    return side_area * infiltration_rate * duration


@formula
def storage_needed(inflow: float, outflow: float) -> float:
    """Water that a soakaway must hold.

    Parameters
    ----------
    inflow, outflow : float
        Water that the storm brings, and that leaves meanwhile [m3].

    Returns
    -------
    float
        Volume [m3]; none if it leaves as fast as it comes.

    References
    ----------
    BRE Digest 365 (quoted from memory)

    Examples
    --------
    >>> round(storage_needed(0.25, 0.024), 9)
    0.226
    """
    return max(inflow - outflow, 0)


@formula
def storage(length: float, width: float, effective_depth: float, voids: float) -> float:
    """Water that a soakaway can hold.

    Parameters
    ----------
    length, width : float
        Plan of the soakaway [m].
    effective_depth : float
        Depth below the inlet [m].
    voids : float
        Share of it that isn't filled with stone or crates [1].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> storage(1.0, 1.0, 1.0, 0.3)
    0.3
    """
    return length * width * effective_depth * voids


@formula
def length_needed(
    inflow: float, width: float, effective_depth: float, voids: float, infiltration_rate: float, duration: float
) -> float:
    """Length at which a soakaway just holds a storm.

    Parameters
    ----------
    inflow : float
        Water that the storm brings [m3].
    width : float
        Width of the soakaway [m].
    effective_depth : float
        Depth below the inlet [m].
    voids : float
        Share of it that isn't filled [1].
    infiltration_rate : float
        Rate at which the ground takes water [m/s].
    duration : float
        How long the storm lasts [s].

    Returns
    -------
    float
        Length [m].

    References
    ----------
    BRE Digest 365 (quoted from memory), solved for the length

    Examples
    --------
    >>> round(length_needed(0.25, 0.6, 1.0, 0.3, 4e-5, 300.0), 4)
    1.2646
    """
    return max(
        (inflow - width * effective_depth * infiltration_rate * duration)
        / (effective_depth * (width * voids + infiltration_rate * duration)),
        0,
    )


@formula
def half_drain_time(stored: float, side_area: float, infiltration_rate: float) -> float:
    """Time in which half of what a soakaway holds drains away.

    Parameters
    ----------
    stored : float
        Water it holds [m3].
    side_area : float
        Sides to half depth [m2].
    infiltration_rate : float
        Rate at which the ground takes water [m/s].

    Returns
    -------
    float
        Time [s].

    References
    ----------
    BRE Digest 365 (quoted from memory)

    Examples
    --------
    >>> round(half_drain_time(0.16, 2.0, 4e-5), 6)
    1000.0
    """
    return stored / 2 / (side_area * infiltration_rate)
