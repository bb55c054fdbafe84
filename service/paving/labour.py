"""Formulas of programmes: labour from quantities and outputs, time from labour and hands."""

from collections.abc import Sequence

from service.paving.formulas import formula


@formula
def labour_by_volume(volume: float, output: float) -> float:
    """Labour on something measured by volume.

    Parameters
    ----------
    volume : float
        How much there is [m3].
    output : float
        What one person does in a time [m3/s].

    Returns
    -------
    float
        Time one person takes [s].

    References
    ----------
    Common practice

    Examples
    --------
    >>> labour_by_volume(6.0, 0.0005)
    12000.0
    """
    return volume / output


@formula
def labour_by_area(area: float, output: float) -> float:
    """Labour on something measured by area.

    Parameters
    ----------
    area : float
        How much there is [m2].
    output : float
        What one person does in a time [m2/s].

    Returns
    -------
    float
        Time one person takes [s].

    References
    ----------
    Common practice

    Examples
    --------
    >>> labour_by_area(20.0, 0.0005)
    40000.0
    """
    return area / output


@formula
def labour_by_length(length: float, output: float) -> float:
    """Labour on something measured by length.

    Parameters
    ----------
    length : float
        How much there is [m].
    output : float
        What one person does in a time [m/s].

    Returns
    -------
    float
        Time one person takes [s].

    References
    ----------
    Common practice

    Examples
    --------
    >>> labour_by_length(25.0, 0.001)
    25000.0
    """
    return length / output


@formula
def labour_by_count(count: float, output: float) -> float:
    """Labour on something that is counted.

    Parameters
    ----------
    count : float
        How many there are [1].
    output : float
        What one person does in a time [1/s].

    Returns
    -------
    float
        Time one person takes [s].

    References
    ----------
    Common practice

    Examples
    --------
    >>> labour_by_count(20, 0.004)
    5000.0
    """
    return count / output


@formula
def compacted_area(area: float, lifts: float) -> float:
    """Area that a plate goes over: all of it in every lift.

    Parameters
    ----------
    area : float
        Area of the sub-base [m2].
    lifts : float
        Lifts it is laid in [1].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> compacted_area(20.0, 2)
    40.0
    """
    return area * lifts


@formula
def stage_labour(tasks: Sequence[float]) -> float:
    """Labour of a stage.

    Parameters
    ----------
    tasks : sequence of float
        Time one person takes for each of its tasks [s]; shown as a number of [tasks].

    Returns
    -------
    float
        Time one person takes [s].

    References
    ----------
    Geometry

    Examples
    --------
    >>> stage_labour((3600.0, 1800.0))
    5400.0
    """
    return sum(task for task in tasks)


@formula
def stage_time(labour: float, hands: float) -> float:
    """Time a gang takes for a stage.

    Parameters
    ----------
    labour : float
        Time one person takes [s].
    hands : float
        How many work on it [1].

    Returns
    -------
    float
        Working time [s].

    References
    ----------
    Common practice

    Examples
    --------
    >>> stage_time(7200.0, 2)
    3600.0
    """
    return labour / hands
