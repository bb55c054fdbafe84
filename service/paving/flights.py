"""Formulas of steps: rise, going, and what lies under the treads."""

from service.paving.formulas import formula


@formula
def riser_height(rise: float, risers: float) -> float:
    """Height of each riser: all the same.

    Parameters
    ----------
    rise : float
        Height to climb [m].
    risers : float
        How many risers share it [1].

    Returns
    -------
    float
        Height [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> riser_height(0.6, 4)
    0.15
    """
    return rise / risers


@formula
def usual_going(pace: float, rise: float, least: float, most: float) -> float:
    """Going that makes two rises and a going a pace, within its limits.

    Parameters
    ----------
    pace : float
        Two rises and a going [m].
    rise : float
        Height of a riser [m].
    least, most : float
        Limits of the going [m].

    Returns
    -------
    float
        Going [m].

    References
    ----------
    Approved Document K, 1.3 (quoted from memory)

    Examples
    --------
    >>> round(usual_going(0.63, 0.15, 0.28, 0.45), 9)
    0.33
    """
    return min(max(pace - 2 * rise, least), most)


@formula
def two_rises_and_going(rise: float, going: float) -> float:
    """Two rises and a going.

    Parameters
    ----------
    rise : float
        Height of a riser [m].
    going : float
        Going of a tread [m].

    Returns
    -------
    float
        Length [m].

    References
    ----------
    Approved Document K, 1.3 (quoted from memory)

    Examples
    --------
    >>> round(two_rises_and_going(0.15, 0.33), 9)
    0.63
    """
    return 2 * rise + going


@formula
def steps_run(treads: float, going: float) -> float:
    """Length of a flight on plan, from its first riser to its last.

    Parameters
    ----------
    treads : float
        Treads, the paving at the top not counted [1].
    going : float
        Going of each [m].

    Returns
    -------
    float
        Length [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(steps_run(3, 0.33), 9)
    0.99
    """
    return treads * going


@formula
def core_volume(treads: float, rise: float, going: float, width: float, thickness: float) -> float:
    """Volume under the treads down to the ground, treads and their beds not counted.

    Parameters
    ----------
    treads : float
        Treads, the paving at the top not counted [1].
    rise : float
        Height of a riser [m].
    going : float
        Going of a tread [m].
    width : float
        Width of the steps [m].
    thickness : float
        Thickness of a tread with its bed [m].

    Returns
    -------
    float
        Volume [m3].

    Notes
    -----
    Tread k stands k rises up.

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(core_volume(3, 0.15, 0.3, 1.0, 0.05), 9)
    0.225
    """
    return treads * going * width * (rise * (treads + 1) / 2 - thickness)
