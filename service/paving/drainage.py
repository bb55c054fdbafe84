"""Drainage: how fast rain runs off the paving, and the edge it runs over."""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.areas import Area, MeasuredArea
from service.paving.cautions import caution
from service.paving.counts import ceil
from service.paving.errors import OutOfRange
from service.paving.falls import Fall
from service.paving.formulas import formula
from service.paving.low_edges import LowSide, low_sides
from service.paving.planning import Planning, Site, planning
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet


class Rain(StrEnum):
    """Whose rate of rain is reckoned with."""

    APPROVED_DOCUMENT_H = "approved_document_h"
    BS_6367 = "bs_6367"
    EN_12056_3 = "en_12056_3"
    EN_12056_3_LONDON = "en_12056_3_london"
    EN_12056_3_FORT_WILLIAM = "en_12056_3_fort_william"


class Surface(StrEnum):
    """What the rain falls on."""

    PAVING = "paving"
    BRICK = "brick"
    CONCRETE = "concrete"
    ASPHALT = "asphalt"
    LAWN_ON_SAND = "lawn_on_sand"
    LAWN_ON_HEAVY_SOIL = "lawn_on_heavy_soil"
    STEEP_LAWN_ON_HEAVY_SOIL = "steep_lawn_on_heavy_soil"


@formula
def run_off(rainfall_rate: float, area: float, coefficient: float) -> float:
    """Rate at which rain runs off an area.

    Parameters
    ----------
    rainfall_rate : float
        Depth of rain in a time [m/s].
    area : float
        Area on plan [m2].
    coefficient : float
        Share of the rain that runs off [1], 0 to 1.

    Returns
    -------
    float
        Flow [m3/s].

    References
    ----------
    Rational method (FHWA, HEC-22)

    Examples
    --------
    Approved Document H, 0.014 l/s from each square metre of 50:

    >>> round(run_off(1.4e-5, 50.0, 1.0), 7)
    0.0007
    """
    return rainfall_rate * area * coefficient


@formula
def channel_pieces(channel_length: float, piece_length: float) -> float:
    """Pieces of channel along an edge.

    Parameters
    ----------
    channel_length : float
        Length of the edge [m].
    piece_length : float
        Length of a piece [m], above 0.

    Returns
    -------
    float
        Whole number [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> channel_pieces(5.4, 1.0)
    6
    """
    return ceil(channel_length / piece_length)


@dataclass(frozen=True, slots=True)
class RunOff:
    """What runs off, and where to.

    Parameters
    ----------
    flow, flow_low, flow_high : float
        Rate of run-off with the likely, the least and the greatest coefficient [m3/s].
    rainfall_rate : float
        Depth of rain in a time [m/s].
    coefficient : float
        Share of it that runs off [1].
    channel_length : float or None
        Length of the edges the water leaves over [m]; none if the shape or the fall isn't known.
    channel_pieces : int or None
        Pieces of channel along them.
    low_sides : tuple of LowSide
        The edges the water leaves over.
    planning : Planning
        Whether the published rule asks for an application.
    """

    flow: float
    flow_low: float
    flow_high: float
    rainfall_rate: float
    coefficient: float
    channel_length: float | None
    channel_pieces: int | None
    low_sides: tuple[LowSide, ...]
    planning: Planning


def rainfall(rain: Rain) -> Assumption:
    """Rate of rain by a named standard [m/s].

    Examples
    --------
    >>> rainfall(Rain.APPROVED_DOCUMENT_H).value
    1.4e-05
    """
    return default("rainfall", rain)


def run_off_coefficient(surface: Surface) -> Assumption:
    """Share of the rain that runs off a surface [1].

    Examples
    --------
    >>> run_off_coefficient(Surface.PAVING).value
    1.0
    """
    return default("run_off", surface)


def drainage(
    sheet: Sheet,
    area: Area | MeasuredArea,
    rate: Assumption,
    coefficient: Assumption,
    fall: Fall | None,
    site: Site,
) -> RunOff:
    """Measure what runs off paving.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    area : Area or MeasuredArea
        What is paved.
    rate : Assumption
        Rate of rain [m/s].
    coefficient : Assumption
        Share of it that runs off [1].
    fall : Fall or None
        Which way the surface falls, if known.
    site : Site
        Where it lies, for the cautions on planning.

    Raises
    ------
    OutOfRange
        If the fall is level, at ``("fall",)``: water leaves nowhere.

    Notes
    -----
    Without a shape and a fall there is no low edge to measure. A channel also needs an outlet,
    and a section that carries the flow: its maker says how much it carries.
    """
    if fall is not None and fall.is_level:
        raise OutOfRange("A level surface sheds no water: give it a fall.", "fall")
    used, share = sheet.assume(rate), sheet.assume(coefficient)
    sides = low_sides(area.outline, fall) if isinstance(area, Area) and fall else ()
    length = sum(side.length for side in sides) if sides else None
    _caution_method(sheet, area.net)
    return RunOff(
        flow=sheet.work("flow", run_off, used, area.net, share),
        flow_low=used * area.net * coefficient.low,
        flow_high=used * area.net * coefficient.high,
        rainfall_rate=used,
        coefficient=share,
        channel_length=length,
        channel_pieces=None if length is None else _pieces(sheet, length),
        low_sides=sides,
        planning=planning(sheet, area.net, site),
    )


def _pieces(sheet: Sheet, length: float) -> int:
    return int(sheet.work("channel_pieces", channel_pieces, length, sheet.assume(default("drainage", "channel_piece"))))


def _caution_method(sheet: Sheet, area: float) -> None:
    most = default("drainage", "simple_method_area").value
    if area > most:
        sheet.caution(caution("large_catchment", f"The area is {area:g} m2; the simple method ends at {most:g} m2."))
