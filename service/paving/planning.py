"""Planning: what published rules say of paving that sheds its rain; the local authority decides."""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.cautions import caution
from service.paving.reference import default
from service.paving.sheets import Sheet


class Country(StrEnum):
    """Whose rules are looked at."""

    ENGLAND = "england"
    SCOTLAND = "scotland"
    ELSEWHERE = "elsewhere"


class Position(StrEnum):
    """Where the paving lies."""

    FRONT = "front"
    ELSEWHERE = "elsewhere"


class DrainsTo(StrEnum):
    """Where its rain goes: off the plot to road or drain, or into open ground within it."""

    ROAD = "road"
    OPEN_GROUND = "open_ground"
    THROUGH_PAVING = "through_paving"


class Planning(StrEnum):
    """What the published rule says."""

    NO_APPLICATION = "no application"
    APPLICATION = "application"
    ASK = "ask the local authority"


@dataclass(frozen=True, slots=True)
class Site:
    """Where paving lies and its rain goes."""

    country: Country = Country.ELSEWHERE
    position: Position = Position.ELSEWHERE
    drains_to: DrainsTo = DrainsTo.ROAD


def planning(sheet: Sheet, area: float, site: Site) -> Planning:
    """What the published rule says of some area of paving [m2].

    Parameters
    ----------
    sheet : Sheet
        Where the cautions go.
    area : float
        Area of the paving [m2].
    site : Site
        Where it lies and where its rain goes.

    Returns
    -------
    Planning
        For a front garden in England an answer; elsewhere the local authority's to give.

    References
    ----------
    Guidance on the permeable surfacing of front gardens (2008, revised 2009); Scottish Building
    Standards Technical Handbook (Domestic), 3.6
    """
    sheet.caution(caution("local_codes", "Water is led off the paving."))
    if site.country is Country.SCOTLAND:
        return _scotland(sheet, area)
    if site.country is Country.ENGLAND and site.position is Position.FRONT:
        return _english_front_garden(sheet, area, site.drains_to)
    return Planning.ASK


def _english_front_garden(sheet: Sheet, area: float, drains_to: DrainsTo) -> Planning:
    most = sheet.assume(default("drainage", "front_garden_area"))
    if drains_to is not DrainsTo.ROAD or area <= most:
        return Planning.NO_APPLICATION
    because = f"{area:.3g} m2 of impermeable paving in a front garden drain to the road; the limit is {most:g} m2."
    sheet.caution(caution("front_garden", because))
    return Planning.APPLICATION


def _scotland(sheet: Sheet, area: float) -> Planning:
    most = sheet.assume(default("drainage", "scottish_paved_surface"))
    if area > most:
        because = f"{area:.4g} m2 is more than the {most:g} m2 from which it counts as a paved surface."
        sheet.caution(caution("scottish_surface_water", because))
    return Planning.ASK
