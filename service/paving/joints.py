"""Joints: what fills the gaps between slabs.

        width
        >| |<
    +-----+ +-----+  ---
    |     | |     |   | depth
    |     | |     |  ---
    +-----+ +-----+

Either the joints are as wide everywhere, and length × width × depth is their volume, or
a layout knows their plan area exactly.
"""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.cautions import caution
from service.paving.errors import OutOfRange
from service.paving.formulas import formula
from service.paving.handling import caution_cement
from service.paving.materials import material
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet


class Filler(StrEnum):
    """What a joint is filled with."""

    MORTAR = "mortar"
    JOINTING_COMPOUND = "jointing_compound"
    DRIED_SAND = "dried_sand"


@formula
def joint_volume(joint_length: float, width: float, depth: float) -> float:
    """Volume of joints of even width.

    Parameters
    ----------
    joint_length : float
        Length of all joints, each once [m].
    width : float
        Width of the joint [m].
    depth : float
        Depth that is filled [m].

    Returns
    -------
    float
        Volume [m3].

    Notes
    -----
    Where joints cross, the square of the crossing counts with each of them unless the
    length leaves it out.

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(joint_volume(100.0, 0.01, 0.04), 6)
    0.04
    """
    return joint_length * width * depth


@formula
def joint_volume_by_area(joint_area: float, depth: float) -> float:
    """Volume of joints whose plan area is known.

    Parameters
    ----------
    joint_area : float
        Plan area of all joints [m2].
    depth : float
        Depth that is filled [m].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> joint_volume_by_area(0.5, 0.04)
    0.02
    """
    return joint_area * depth


@formula
def joint_share(length: float, width: float, joint: float) -> float:
    """Share of the paving that is joint, inside a pattern of one slab size.

    Parameters
    ----------
    length, width : float
        Face size of the slab [m], above 0.
    joint : float
        Width of the joint [m], 0 or more.

    Returns
    -------
    float
        Area of joint in an area of paving [1].

    Notes
    -----
    Stack and stretcher bond; herringbone and basket weave only where a length and its
    joint are two widths with theirs. The edge of the paving isn't counted.

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(joint_share(0.2, 0.1, 0.003), 5)
    0.04347
    """
    return 1 - length * width / ((length + joint) * (width + joint))


@formula
def joint_length_in_area(area: float, length: float, width: float, joint: float) -> float:
    """Length of joint in an area, inside a pattern of one slab size, each crossing counted once.

    Parameters
    ----------
    area : float
        Area of paving [m2].
    length, width : float
        Face size of the slab [m], above 0.
    joint : float
        Width of the joint [m], 0 or more.

    Returns
    -------
    float
        Length [m].

    Notes
    -----
    To each slab belong the joint along one length and one width and the crossing between
    them. With no joint it is area × (1 ÷ length + 1 ÷ width).

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(joint_length_in_area(1.0, 0.2, 0.1, 0.0), 9)
    15.0
    """
    return area * (length + width + joint) / ((length + joint) * (width + joint))


@formula
def fill_mass(volume: float, density: float) -> float:
    """Mass of what fills the joints.

    Parameters
    ----------
    volume : float
        Volume in place [m3].
    density : float
        Density in place [kg/m3].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    Geometry

    Examples
    --------
    >>> fill_mass(0.04, 1700.0)
    68.0
    """
    return volume * density


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
