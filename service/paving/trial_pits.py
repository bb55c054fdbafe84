"""Trial pits: how fast the ground takes water.

    ---------------------------  ground
         |~~~~~~~~~~~~~~~|      ---
         |    75 %       |  |    |
         |    50 %       |  |    | effective depth
         |    25 %       |  v    |
         +---------------+      ---

The pit is filled three times; the slowest fall from three quarters full to one quarter counts.
"""

from dataclasses import dataclass

from service.paving.formulas import formula
from service.paving.reference import Assumption
from service.paving.sheets import Sheet


@dataclass(frozen=True, slots=True)
class TrialPit:
    """A pit filled with water to see how fast the ground takes it.

    Parameters
    ----------
    length, width : float
        On plan [m].
    effective_depth : float
        Depth of water when full [m].
    time : float
        From three quarters full to one quarter [s]; the slowest of three fillings.
    """

    length: float
    width: float
    effective_depth: float
    time: float


@formula
def fallen_volume(length: float, width: float, effective_depth: float) -> float:
    """Water that leaves a trial pit while it falls from three quarters full to one quarter.

    Parameters
    ----------
    length, width : float
        Plan of the pit [m].
    effective_depth : float
        Depth of water when full [m].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    BRE Digest 365 (quoted from memory)

    Examples
    --------
    >>> round(fallen_volume(1.2, 0.6, 1.0), 9)
    0.36
    """
    return length * width * effective_depth / 2


@formula
def wetted_area(length: float, width: float, effective_depth: float) -> float:
    """Base of a trial pit and its sides to half the effective depth.

    Parameters
    ----------
    length, width : float
        Plan of the pit [m].
    effective_depth : float
        Depth of water when full [m].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    BRE Digest 365 (quoted from memory)

    Examples
    --------
    >>> round(wetted_area(1.2, 0.6, 1.0), 9)
    2.52
    """
    return length * width + (length + width) * effective_depth


@formula
def infiltration_rate(fallen_volume: float, wetted_area: float, time: float) -> float:
    """Rate at which ground takes water, from a trial pit.

    Parameters
    ----------
    fallen_volume : float
        Water that left while the pit fell from three quarters full to one quarter [m3].
    wetted_area : float
        Base and sides to half depth [m2].
    time : float
        How long that took [s].

    Returns
    -------
    float
        Rate [m/s].

    References
    ----------
    BRE Digest 365 (quoted from memory)

    Examples
    --------
    >>> round(infiltration_rate(0.36, 2.52, 3600.0), 8)
    3.968e-05
    """
    return fallen_volume / (wetted_area * time)


def infiltration(sheet: Sheet, ground: TrialPit | Assumption) -> float:
    """Rate at which ground takes water [m/s], as given or from a trial pit."""
    if isinstance(ground, Assumption):
        return sheet.assume(ground)
    plan = ground.length, ground.width, ground.effective_depth
    fallen = sheet.work("fallen_volume", fallen_volume, *plan)
    wetted = sheet.work("wetted_area", wetted_area, *plan)
    return sheet.work("infiltration", infiltration_rate, fallen, wetted, ground.time)
