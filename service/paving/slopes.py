"""Formulas of ramps: how long, in how many flights, and what lies under and on them."""

from service.paving.counts import ceil
from service.paving.formulas import formula


@formula
def flights_needed(rise: float, gradient: float, longest_flight: float) -> float:
    """Flights that a ramp is split into.

    Parameters
    ----------
    rise : float
        Height to climb [m].
    gradient : float
        Height over length on plan [1].
    longest_flight : float
        Longest flight at that gradient, on plan [m].

    Returns
    -------
    float
        Whole number [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> flights_needed(0.7, 0.1, 5.0)
    2
    """
    return ceil(rise / (gradient * longest_flight))


@formula
def flight_length(rise: float, gradient: float, flights: float) -> float:
    """Length of each flight on plan.

    Parameters
    ----------
    rise : float
        Height to climb [m].
    gradient : float
        Height over length on plan [1].
    flights : float
        How many flights share it [1].

    Returns
    -------
    float
        Length [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> flight_length(0.5, 0.1, 2)
    2.5
    """
    return rise / gradient / flights


@formula
def ramp_length(flight_length: float, flights: float, landing_length: float) -> float:
    """Length of a ramp on plan, its landings between flights included.

    Parameters
    ----------
    flight_length : float
        Length of each flight on plan [m].
    flights : float
        How many [1].
    landing_length : float
        Length of a landing [m].

    Returns
    -------
    float
        Length [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> ramp_length(4.0, 2, 1.5)
    9.5
    """
    return flight_length * flights + landing_length * (flights - 1)


@formula
def ramp_paving(slope_length: float, flights: float, landing_length: float, width: float) -> float:
    """Area to pave on a ramp, measured along the slope.

    Parameters
    ----------
    slope_length : float
        Length of each flight along its slope [m].
    flights : float
        How many [1].
    landing_length : float
        Length of a landing [m].
    width : float
        Width of the ramp [m].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(ramp_paving(4.0, 2, 1.5, 1.2), 9)
    11.4
    """
    return (slope_length * flights + landing_length * (flights - 1)) * width


@formula
def ramp_body(rise: float, flight_length: float, flights: float, landing_length: float, width: float) -> float:
    """Volume between a ramp's surface and the ground it starts from, up to the top of the last flight.

    Parameters
    ----------
    rise : float
        Height to climb [m].
    flight_length : float
        Length of each flight on plan [m].
    flights : float
        How many [1].
    landing_length : float
        Length of a landing [m].
    width : float
        Width of the ramp [m].

    Returns
    -------
    float
        Volume [m3]; paving and layers are part of it.

    References
    ----------
    Geometry (wedges and steps: half the rise lies under the mean flight and the mean landing)

    Examples
    --------
    >>> ramp_body(0.5, 6.0, 1, 1.5, 1.0)
    1.5
    """
    return rise / 2 * (flight_length * flights + landing_length * (flights - 1)) * width
