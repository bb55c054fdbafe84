"""Joints: what fills the gaps between slabs."""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.cautions import caution
from service.paving.errors import OutOfRange
from service.paving.gaps import fill_mass, joint_volume, joint_volume_by_area
from service.paving.handling import caution_cement
from service.paving.materials import material
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet


class Filler(StrEnum):
    """What a joint is filled with."""

    MORTAR = "mortar"
    JOINTING_COMPOUND = "jointing_compound"
    DRIED_SAND = "dried_sand"


@dataclass(frozen=True, slots=True)
class Joints:
    """What fills the joints: length [m], volume [m3], mass [kg]."""

    joint_length: float
    volume: float
    mass: float
    mass_low: float = 0.0
    mass_high: float = 0.0


def filler_density(filler: Filler) -> Assumption:
    """Density of a filler in place [kg/m3].

    Examples
    --------
    >>> filler_density(Filler.DRIED_SAND).name
    'dried_sand compacted density'
    """
    return material(filler.value).compacted_density


def joint_fill(
    sheet: Sheet, joint_length: float, width: float, depth: float, filler: Filler, density: Assumption
) -> Joints:
    """Measure what fills joints of even width.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    joint_length : float
        Length of all joints, each once [m].
    width, depth : float
        Width of the joint and the depth that is filled [m].
    filler : Filler
        What fills it.
    density : Assumption
        Density of the filler in place [kg/m3].

    Raises
    ------
    OutOfRange
        If no joint is so wide or so deep, at ``("width",)`` or ``("depth",)``.

    References
    ----------
    Geometry
    """
    _refuse("width", width, "joint_width")
    _refuse("depth", depth, "joint_depth")
    _caution_width(sheet, width, filler)
    return _filled(sheet, joint_length, sheet.work("volume", joint_volume, joint_length, width, depth), filler, density)


def joint_fill_area(
    sheet: Sheet,
    joint_area: float,
    joint_length: float,
    depth: float,
    filler: Filler,
    density: Assumption,
    width: float | None = None,
) -> Joints:
    """Measure what fills joints whose plan area is known, as a layout knows it.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    joint_area : float
        Plan area of all joints [m2].
    joint_length : float
        Their length [m].
    depth : float
        Depth that is filled [m].
    filler : Filler
        What fills it.
    density : Assumption
        Density of the filler in place [kg/m3].
    width : float or None
        Width of the joint [m], if it is even: it decides whether the filler suits.

    Raises
    ------
    OutOfRange
        If no joint is so deep, at ``("depth",)``.

    References
    ----------
    Geometry
    """
    _refuse("depth", depth, "joint_depth")
    if width is not None:
        _caution_width(sheet, width, filler)
    return _filled(sheet, joint_length, sheet.work("volume", joint_volume_by_area, joint_area, depth), filler, density)


def _filled(sheet: Sheet, joint_length: float, volume: float, filler: Filler, density: Assumption) -> Joints:
    if filler is Filler.MORTAR:
        caution_cement(sheet, "Pointing mortar")
    if filler is Filler.DRIED_SAND:
        sheet.caution(caution("brushing_dust", "The joints are brushed full of dried sand."))
    return Joints(
        joint_length=joint_length,
        volume=volume,
        mass=sheet.work("mass", fill_mass, volume, sheet.assume(density)),
        mass_low=volume * density.low,
        mass_high=volume * density.high,
    )


def _refuse(place: str, value: float, limits_name: str) -> None:
    limits = default("joints", limits_name)
    if not limits.low <= value <= limits.high:
        raise OutOfRange(
            f"No joint is filled {value * 1000:g} mm {'wide' if place == 'width' else 'deep'}: "
            f"give {limits.low * 1000:g} to {limits.high * 1000:g} mm.",
            place,
        )


def _caution_width(sheet: Sheet, width: float, filler: Filler) -> None:
    usual = default("joints", f"{filler.value}_joint_width")
    if not usual.low * (1 - 1e-9) <= width <= usual.high * (1 + 1e-9):
        name = material(filler.value).name
        because = (
            f"{name} suits joints of {usual.low * 1000:g} to {usual.high * 1000:g} mm; this one is {width * 1000:g} mm."
        )
        sheet.caution(caution("joint_width", because))
