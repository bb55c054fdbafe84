"""Spoils: what comes out of the ground, loose and by weight, and what carts it."""

from dataclasses import dataclass
from typing import Any

from service.paving.cartings import Skip, skips, tipper_loads
from service.paving.diggings import Digging, Strip, Stripped
from service.paving.planes import volume_under_plane
from service.paving.sheets import Sheet
from service.paving.soils import bulked_volume, soil, soil_mass


@dataclass(frozen=True, slots=True)
class StripFigures:
    """What is stripped; depth [m], area [m2], volumes [m3], masses [kg]."""

    what: Stripped
    depth: float
    area: float
    volume_in_place: float
    volume_loose: float
    mass: float
    skips: tuple[Skip, ...]


def strip_figures(sheet: Sheet, area: float, strip: Strip | None) -> StripFigures | None:
    """What is stripped over an area [m2], if anything is."""
    if strip is None:
        return None
    earth = soil(strip.what)
    volume = sheet.work("volume_in_place", volume_under_plane, area, sheet.assume(strip.depth))
    loose = sheet.work("volume_loose", bulked_volume, volume, sheet.assume(earth.loose_factor))
    return StripFigures(
        what=strip.what,
        depth=strip.depth.value,
        area=area,
        volume_in_place=volume,
        volume_loose=loose,
        mass=sheet.work("mass", soil_mass, volume, sheet.assume(earth.density)),
        skips=skips(sheet, loose),
    )


def spoil_figures(sheet: Sheet, volume: float, carted: float, digging: Digging) -> dict[str, Any]:
    """Loose volumes, masses and what carts them."""
    earth = digging.soil
    factor, density = sheet.assume(earth.loose_factor), sheet.assume(earth.density)
    carted_loose = sheet.work("carted_loose", bulked_volume, carted, factor)
    carted_mass = sheet.work("carted_mass", soil_mass, carted, density)
    return {
        "volume_loose": sheet.work("volume_loose", bulked_volume, volume, factor),
        "mass": sheet.work("mass", soil_mass, volume, density),
        "mass_low": sheet.work("mass_low", soil_mass, volume, earth.density.low),
        "mass_high": sheet.work("mass_high", soil_mass, volume, earth.density.high),
        "carted_loose": carted_loose,
        "carted_mass": carted_mass,
        "skips": skips(sheet, carted_loose),
        "tipper_loads": tipper_loads(sheet, carted_mass, digging.tipper_payload),
    }
