"""Diggings: what is dug, and how, as it is asked for."""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.build_ups import BuildUp
from service.paving.formulas import formula
from service.paving.reference import Assumption
from service.paving.soils import Soil


@formula
def depth_to_formation(ground_level: float, formation_level: float, stripped: float) -> float:
    """Depth of the dig at one point, under what is stripped.

    Parameters
    ----------
    ground_level, formation_level : float
        Levels there [m].
    stripped : float
        Depth of turf or topsoil taken off first [m].

    Returns
    -------
    float
        Depth [m]; negative where it is fill.

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(depth_to_formation(0.0, -0.28, 0.04), 9)
    0.24
    """
    return ground_level - formation_level - stripped


class FillFrom(StrEnum):
    """Where fill comes from."""

    DIG = "dig"
    IMPORTED = "imported"


class Stripped(StrEnum):
    """What is stripped off the ground before the dig."""

    TURF = "turf"
    TOPSOIL = "topsoil"


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip of turf or topsoil with its depth [m]."""

    what: Stripped
    depth: Assumption


@dataclass(frozen=True, slots=True)
class Digging:
    """How it is dug.

    Parameters
    ----------
    soil : Soil
        What is dug.
    tipper_payload : Assumption
        What a tipper carries [kg].
    over_dig : float
        How far beyond the paved edge [m].
    strip : Strip or None
        What is stripped first, kept apart.
    fill_from : FillFrom
        Where fill comes from, if there is any.
    """

    soil: Soil
    tipper_payload: Assumption
    over_dig: float = 0.0
    strip: Strip | None = None
    fill_from: FillFrom = FillFrom.IMPORTED


def plain_dig(depth: float) -> BuildUp:
    """A build-up known by its depth alone [m]."""
    return BuildUp(0.0, 0.0, depth)
