"""Layers of sub-base and other unbound material: volume, mass, lifts.

    ---  +------------------------+
     |   |        lift 2          |   greatest lift or less
    depth|- - - - - - - - - - - - |
     |   |        lift 1          |
    ---  +------------------------+

Masses are given low, likely and high, from the range of the density in place.
"""

from dataclasses import dataclass

from service.paving.areas import Area, MeasuredArea
from service.paving.cautions import caution
from service.paving.counts import ceil
from service.paving.depths import Along as Along
from service.paving.depths import Depth as Depth
from service.paving.depths import mean_depth, refuse_depth
from service.paving.formulas import formula
from service.paving.handling import caution_compaction
from service.paving.materials import Material
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet


@formula
def compacted_volume(area: float, mean_depth: float) -> float:
    """Volume of a layer in place.

    Parameters
    ----------
    area : float
        Area covered [m2], above 0.
    mean_depth : float
        Mean depth after compaction [m], above 0.

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> compacted_volume(20.0, 0.15)
    3.0
    """
    return area * mean_depth


@formula
def layer_mass(compacted_volume: float, compacted_density: float) -> float:
    """Mass of a layer.

    Parameters
    ----------
    compacted_volume : float
        Volume in place [m3].
    compacted_density : float
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
    >>> layer_mass(3.0, 2100.0)
    6300.0
    """
    return compacted_volume * compacted_density


@formula
def loose_volume(mass: float, loose_density: float) -> float:
    """Volume of a material as delivered.

    Parameters
    ----------
    mass : float
        Mass [kg].
    loose_density : float
        Density as delivered [kg/m3].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> loose_volume(6300.0, 1750.0)
    3.6
    """
    return mass / loose_density


@formula
def lifts_needed(greatest_depth: float, greatest_lift: float) -> float:
    """Number of lifts a layer is compacted in.

    Parameters
    ----------
    greatest_depth : float
        Depth where the layer is deepest [m].
    greatest_lift : float
        Most that is compacted at once [m].

    Returns
    -------
    float
        Whole number of lifts [1].

    References
    ----------
    NHBC Standards, 10.2.6

    Examples
    --------
    >>> lifts_needed(0.3, 0.225)
    2
    """
    return ceil(greatest_depth / greatest_lift)


@dataclass(frozen=True, slots=True)
class Layer:
    """What a layer takes: volumes [m3], masses [kg], depth [m]."""

    compacted_volume: float
    loose_volume: float
    mass: float
    mass_low: float
    mass_high: float
    lifts: int
    mean_depth: float


def layer(
    sheet: Sheet, area: Area | MeasuredArea, material: Material, depth: Depth, greatest_lift: Assumption
) -> Layer:
    """Measure a layer.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    area : Area or MeasuredArea
        What it covers.
    material : Material
        What it is made of.
    depth : Depth
        How deep it is after compaction.
    greatest_lift : Assumption
        Most that is compacted at once [m].

    Raises
    ------
    OutOfRange
        If the depth isn't one that is laid, at ``("depth",)``.

    References
    ----------
    Geometry; lifts by NHBC Standards, 10.2.6
    """
    limits = default("layers", "layer_depth")
    refuse_depth(depth, limits.low, limits.high)
    mean = mean_depth(sheet, area, depth)
    volume = sheet.work("compacted_volume", compacted_volume, area.net, mean)
    density = material.compacted_density
    mass = sheet.work("mass", layer_mass, volume, sheet.assume(density))
    lifts = sheet.work("lifts", lifts_needed, depth.greatest, sheet.assume(greatest_lift))
    _caution(sheet, material, depth, int(lifts))
    return Layer(
        compacted_volume=volume,
        loose_volume=sheet.work("loose_volume", loose_volume, mass, sheet.assume(material.loose_density)),
        mass=mass,
        mass_low=sheet.work("mass_low", layer_mass, volume, density.low),
        mass_high=sheet.work("mass_high", layer_mass, volume, density.high),
        lifts=int(lifts),
        mean_depth=mean,
    )


def _caution(sheet: Sheet, material: Material, depth: Depth, lifts: int) -> None:
    if material.kind == "mixed":
        return
    caution_compaction(sheet, f"{material.name} is compacted in {lifts} lift{'s' if lifts > 1 else ''}.")
    by_hand = default("layers", "greatest_lift_by_hand").value
    if depth.greatest / lifts > by_hand * (1 + 1e-9):
        because = (
            f"A lift is {depth.greatest / lifts * 1000:.0f} mm; with a hand-fed plate, at {by_hand * 1000:.0f} mm, "
            f"it takes {ceil(depth.greatest / by_hand)} lifts."
        )
        sheet.caution(caution("thick_lift", because))
    least = default("layers", "least_depth_in_stones").value * material.largest_stone
    if depth.least < least * (1 - 1e-9):
        because = f"{depth.least * 1000:.0f} mm is less than {least * 1000:.0f} mm for {material.name}."
        sheet.caution(caution("thin_layer", because))
