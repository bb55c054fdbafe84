"""Laying courses: what the slab sits in, and how much of it is held.

    full bed           spot bed            ribbon bed          screeded
    +-----------+      +-----------+       +-----------+       +-----------+
    |###########|      | o       o |       |###########|       |...........|
    |###########|      |     o     |       |#    #    #|       |...........|
    |###########|      | o       o |       |###########|       |...........|
    +-----------+      +-----------+       +-----------+       +-----------+

Full, spot and ribbon beds are mortar, counted by volume and mixed as `mixes` says; a
screeded bed is sand or grit, laid loose and compacted with the slabs.
"""

from dataclasses import dataclass
from enum import StrEnum

from service.paving import spots
from service.paving.areas import Area, MeasuredArea
from service.paving.cautions import caution
from service.paving.depths import Depth, mean_depth, refuse_depth
from service.paving.errors import OutOfRange
from service.paving.handling import caution_cement
from service.paving.layers import compacted_volume, layer_mass, loose_volume
from service.paving.materials import Material, material
from service.paving.reference import default
from service.paving.sheets import Sheet
from service.paving.slabs import Slab


class Method(StrEnum):
    """How a slab is bedded."""

    FULL_BED = "full_bed"
    SPOT_BED = "spot_bed"
    RIBBON_BED = "ribbon_bed"
    SCREEDED = "screeded"


@dataclass(frozen=True, slots=True)
class Dabs:
    """Dabs of mortar under each slab; what is left out has a default.

    Parameters
    ----------
    per_slab : int or None
        How many.
    diameter, depth : float or None
        Of a dab as it is laid, before the slab presses it down [m].
    """

    per_slab: int | None = None
    diameter: float | None = None
    depth: float | None = None


@dataclass(frozen=True, slots=True)
class Ribbons:
    """Strips of mortar under each slab, round its edge and one across; what is left out has a default.

    Parameters
    ----------
    width, depth : float or None
        Of a strip as it is laid, before the slab presses it down [m].
    """

    width: float | None = None
    depth: float | None = None


@dataclass(frozen=True, slots=True)
class MethodUse:
    """What one method uses: volume in place [m3] and the share of a slab it holds [1]."""

    method: Method
    volume: float
    support: float


@dataclass(frozen=True, slots=True)
class Bed:
    """What a bed takes.

    Parameters
    ----------
    volume : float
        Volume in place [m3].
    support : float
        Share of the slab that is held [1].
    mean_depth : float
        Mean depth [m].
    surcharge : float
        How much higher the loose material is screeded [m]; 0 for mortar.
    loose_volume : float
        Volume as delivered [m3]; 0 for mortar.
    mass, mass_low, mass_high : float
        Mass [kg] of the screeded material; 0 for mortar, which is counted as a mix.
    by_method : tuple of MethodUse
        What each method would use, if the slab is known; a method that can't be done so is left out.
    """

    volume: float
    support: float
    mean_depth: float
    surcharge: float = 0.0
    loose_volume: float = 0.0
    mass: float = 0.0
    mass_low: float = 0.0
    mass_high: float = 0.0
    by_method: tuple[MethodUse, ...] = ()


def bed(
    sheet: Sheet,
    area: Area | MeasuredArea,
    method: Method,
    depth: Depth,
    slab: Slab | None = None,
    *,
    dabs: Dabs | None = None,
    ribbons: Ribbons | None = None,
    screed: Material | None = None,
    joint: float = 0.0,
) -> Bed:
    """Measure a laying course.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    area : Area or MeasuredArea
        What it carries.
    method : Method
        How the slabs are bedded.
    depth : Depth
        Depth of the finished bed [m].
    slab : Slab or None
        The slab; dabs and ribbons can't be counted without.
    dabs, ribbons : Dabs, Ribbons or None
        Dabs or strips, where they differ from the default.
    screed : Material or None
        What is screeded; sharp sand unless said.
    joint : float
        Width of the joint between slabs [m].

    Raises
    ------
    OutOfRange
        If the depth isn't one that is laid, at ``("depth",)``; if a spot or ribbon bed has no
        slab, at ``("slab",)``; if its dabs or strips can't be, at ``("dabs",)`` or ``("ribbons",)``.

    References
    ----------
    Geometry
    """
    limits = default("beds", "bed_depth")
    refuse_depth(depth, limits.low, limits.high)
    mean = mean_depth(sheet, area, depth)
    course = _Course(area.net, mean, slab, dabs or Dabs(), ribbons or Ribbons(), joint)
    used = _used(sheet, method, course)
    _cautions(sheet, method, depth, used.support)
    table = _by_method(sheet, course) if slab else ()
    if method is not Method.SCREEDED:
        return Bed(used.volume, used.support, mean, by_method=table)
    return _screeded(sheet, used.volume, mean, screed or material("sharp_sand"), table)


@dataclass(frozen=True, slots=True)
class _Course:
    """What every method is measured from."""

    area: float
    depth: float
    slab: Slab | None
    dabs: Dabs
    ribbons: Ribbons
    joint: float


def _used(sheet: Sheet, method: Method, course: _Course) -> MethodUse:
    if method in (Method.SPOT_BED, Method.RIBBON_BED):
        return _under_slabs(sheet, method, course)
    return MethodUse(method, sheet.work("volume", compacted_volume, course.area, course.depth), 1.0)


def _by_method(sheet: Sheet, course: _Course) -> tuple[MethodUse, ...]:
    uses = []
    for method in Method:
        # Assumptions are shown; the workings of methods not asked for aren't.
        aside = Sheet("", [], sheet.assumptions, {})
        try:
            uses.append(_used(aside, method, course))
        except OutOfRange:
            continue
    return tuple(uses)


def _under_slabs(sheet: Sheet, method: Method, course: _Course) -> MethodUse:
    slab = course.slab
    if slab is None:
        raise OutOfRange("Dabs and ribbons are laid slab by slab: give the size of the slab.", "slab")
    per_slab = _dabs(sheet, course) if method is Method.SPOT_BED else _ribbons(sheet, course, slab)
    support = sheet.work("support", spots.support, per_slab, course.depth, slab.length, slab.width)
    if support > 1:
        what = "dabs" if method is Method.SPOT_BED else "ribbons"
        raise OutOfRange(
            f"The {what} hold more mortar than fits under a slab of {slab.length * 1000:g} x "
            f"{slab.width * 1000:g} mm: make them fewer or smaller, or lay a full bed.",
            what,
        )
    face = slab.length, slab.width, course.joint
    return MethodUse(method, sheet.work("volume", spots.volume_under_slabs, course.area, per_slab, *face), support)


def _dabs(sheet: Sheet, course: _Course) -> float:
    """Mortar in the dabs of one slab [m3]."""
    dabs = course.dabs
    count = sheet.assume(default("beds", "dabs_per_slab").given(dabs.per_slab))
    diameter = sheet.assume(default("beds", "dab_diameter").given(dabs.diameter))
    height = _height(sheet, dabs.depth, course.depth, "dabs")
    return sheet.work("volume_per_slab", spots.dabs_volume, count, diameter, height)


def _ribbons(sheet: Sheet, course: _Course, slab: Slab) -> float:
    """Mortar in the strips of one slab [m3]."""
    width = sheet.assume(default("beds", "ribbon_width").given(course.ribbons.width))
    long, short = max(slab.length, slab.width), min(slab.length, slab.width)
    if 3 * width > long or 2 * width >= short:
        raise OutOfRange(
            f"Strips {width * 1000:g} mm wide leave no gap under a slab of {long * 1000:g} x {short * 1000:g} mm: "
            "make them narrower, or lay a full bed.",
            "ribbons",
        )
    height = _height(sheet, course.ribbons.depth, course.depth, "ribbons")
    length = sheet.work("ribbon_length", spots.ribbon_length, long, short, width)
    return sheet.work("volume_per_slab", spots.ribbons_volume, length, width, height)


def _height(sheet: Sheet, given: float | None, depth: float, place: str) -> float:
    """Height as laid [m]."""
    if given is None:
        ratio = sheet.assume(default("beds", "height_as_laid"))
        return sheet.work("height_as_laid", spots.height_as_laid, depth, ratio)
    if given < depth:
        raise OutOfRange(
            f"Laid {given * 1000:g} mm high they don't reach a slab {depth * 1000:g} mm up: lay them higher.",
            place,
            "depth",
        )
    return given


def _screeded(sheet: Sheet, volume: float, mean: float, screeded: Material, table: tuple[MethodUse, ...]) -> Bed:
    dense, loose = screeded.compacted_density, screeded.loose_density
    mass = sheet.work("mass", layer_mass, volume, sheet.assume(dense))
    return Bed(
        volume=volume,
        support=1.0,
        mean_depth=mean,
        surcharge=sheet.work("surcharge", spots.surcharge, mean, dense.value, sheet.assume(loose)),
        loose_volume=sheet.work("loose_volume", loose_volume, mass, loose.value),
        mass=mass,
        mass_low=sheet.work("mass_low", layer_mass, volume, dense.low),
        mass_high=sheet.work("mass_high", layer_mass, volume, dense.high),
        by_method=table,
    )


def _cautions(sheet: Sheet, method: Method, depth: Depth, support: float) -> None:
    usual = default("beds", "screeded_bed_depth" if method is Method.SCREEDED else "mortar_bed_depth")
    if depth.least < usual.low * (1 - 1e-9) or depth.greatest > usual.high * (1 + 1e-9):
        span = f"{depth.least * 1000:g} to " if depth.tapers else ""
        because = (
            f"It is {span}{depth.greatest * 1000:g} mm; {usual.low * 1000:g} to {usual.high * 1000:g} mm is usual."
        )
        sheet.caution(caution("bed_depth", because))
    if method in (Method.SPOT_BED, Method.RIBBON_BED):
        sheet.caution(caution("partial_support", f"Only {support * 100:.0f} % of each slab is held."))
    if method is not Method.SCREEDED:
        caution_cement(sheet, "Bedding mortar")
