"""Layers of sub-base and other unbound material: volume, mass, lifts.

A layer is as deep everywhere, or tapers from one side of the area to the other:

    start  +---------------------------+  end
           |          material         |
           +-----------.               |
                         ` ' --- . . __|

Under a plane the volume over any shape is exactly its area times the depth at its centroid.
"""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.areas import Area, MeasuredArea
from service.paving.cautions import caution
from service.paving.counts import ceil
from service.paving.errors import OutOfRange
from service.paving.formulas import formula
from service.paving.handling import caution_compaction
from service.paving.materials import Material
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet


class Along(StrEnum):
    """Which way a depth tapers: along x (length) or along y (width)."""

    LENGTH = "length"
    WIDTH = "width"


@dataclass(frozen=True, slots=True)
class Depth:
    """A depth, the same everywhere or tapering evenly across the area.

    Parameters
    ----------
    start : float
        Depth at the left bound of the area (at the lower one if along the width) [m].
    end : float
        Depth at the right bound (at the upper one) [m].
    along : Along
        Which way it tapers.
    """

    start: float
    end: float
    along: Along = Along.LENGTH

    @property
    def tapers(self) -> bool:
        """Whether the two ends differ."""
        return self.start != self.end

    @property
    def greatest(self) -> float:
        return max(self.start, self.end)

    @property
    def least(self) -> float:
        return min(self.start, self.end)


@formula
def tapered_depth(start: float, end: float, reach: float, run: float) -> float:
    """Depth of a taper at some reach from its start; at the centroid it is the mean depth.

    Parameters
    ----------
    start, end : float
        Depth at either end [m], 0 or more.
    reach : float
        Distance from the start [m].
    run : float
        Distance from the start to the end [m], above 0.

    Returns
    -------
    float
        Depth [m].

    References
    ----------
    Geometry (the volume under a plane is the area times the depth at its centroid)

    Examples
    --------
    >>> round(tapered_depth(0.1, 0.2, 2.0, 5.0), 9)
    0.14
    """
    return start + (end - start) * reach / run


@formula
def middle_depth(start: float, end: float) -> float:
    """Mean depth of a taper over an area of even breadth.

    Parameters
    ----------
    start, end : float
        Depth at either end [m], 0 or more.

    Returns
    -------
    float
        Depth [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(middle_depth(0.1, 0.2), 9)
    0.15
    """
    return (start + end) / 2


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


def mean_depth(sheet: Sheet, area: Area | MeasuredArea, depth: Depth) -> float:
    """Mean depth over an area [m]: exact over a shape, the middle over an area that is only measured."""
    if not depth.tapers:
        return depth.start
    if isinstance(area, MeasuredArea):
        sheet.caution(caution("taper_without_shape", "The area is given by its measure alone."))
        return sheet.work("mean_depth", middle_depth, depth.start, depth.end)
    axis = 0 if depth.along is Along.LENGTH else 1
    least, greatest = area.outline.bounds[axis], area.outline.bounds[axis + 2]
    reach = area.centroid[axis] - least
    return sheet.work("mean_depth", tapered_depth, depth.start, depth.end, reach, greatest - least)


def refuse_depth(depth: Depth, least: float, greatest: float) -> None:
    """Refuse a depth that isn't laid.

    Raises
    ------
    OutOfRange
        If the depth leaves the limits, or a taper runs out below nothing. The place is
        ``("depth",)``, or ``("depth", "start")`` or ``("depth", "end")`` of a taper.
    """
    for end in ("start", "end"):
        value = getattr(depth, end)
        low = 0.0 if depth.tapers and value < depth.greatest else least
        if not low <= value <= greatest:
            place = ("depth", end) if depth.tapers else ("depth",)
            raise OutOfRange(
                f"A depth of {value * 1000:g} mm isn't laid: give {low * 1000:g} to {greatest * 1000:g} mm.", *place
            )


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
