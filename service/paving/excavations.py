"""Excavations: what is dug, how it swells, and what it takes to cart it away.

    ground     ________________________________
               turf | stripped first, apart
               -----+--------------------------     cut: in place, then loose
    formation  ________________________________     below it nothing is dug

Where the formation lies above the ground the difference is fill, measured compacted.
"""

from dataclasses import dataclass
from typing import Any

from service.paving.areas import Area, MeasuredArea, net_area
from service.paving.build_ups import BuildUp, Datum, Surfaces, finished_surface, surfaces
from service.paving.cartings import Skip
from service.paving.cautions import caution
from service.paving.dig_areas import dig_area
from service.paving.diggings import Digging, FillFrom, depth_to_formation
from service.paving.earthworks import Earthwork, Prism, even_earthwork, prisms_volume
from service.paving.errors import OutOfRange, within
from service.paving.falls import Fall
from service.paving.formulas import formula
from service.paving.grounds import Ground, Survey, earthwork, refuse_uncovered
from service.paving.planes import Plane, volume_under_plane
from service.paving.reference import default
from service.paving.sheets import Sheet
from service.paving.soils import compacted_in_place, in_place_for_fill
from service.paving.spoils import StripFigures, spoil_figures, strip_figures


@formula
def mean_dig_depth(dug_volume: float, dug_area: float) -> float:
    """Mean depth of a dig where there is one.

    Parameters
    ----------
    dug_volume : float
        All that is dug, in place [m3].
    dug_area : float
        Area on plan where anything is dug [m2].

    Returns
    -------
    float
        Depth [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> mean_dig_depth(5.0, 20.0)
    0.25
    """
    return dug_volume / dug_area


@dataclass(frozen=True, slots=True)
class Excavation:
    """What a dig comes to; depths [m], areas [m2], volumes [m3], masses [kg].

    `fill` is compacted; `fill_from_dig` and `fill_imported` are its parts.
    """

    dug: Area | MeasuredArea
    surfaces: Surfaces
    ground: Ground
    dig_area: float
    cut_area: float
    fill_area: float
    dig_depth_mean: float
    dig_depth_greatest: float
    volume_in_place: float
    volume_loose: float
    mass: float
    mass_low: float
    mass_high: float
    fill: float
    fill_from_dig: float
    fill_imported: float
    carted_in_place: float
    carted_loose: float
    carted_mass: float
    skips: tuple[Skip, ...]
    tipper_loads: int
    strip: StripFigures | None


def excavation_figures(
    sheet: Sheet,
    area: Area | MeasuredArea,
    fall: Fall,
    datum: Datum,
    build_up: BuildUp,
    ground: Ground | None,
    digging: Digging,
) -> Excavation:
    """Measure the dig for an area with a fall and a build-up; `excavation` says the rest.

    Raises
    ------
    OutOfRange
        If an area without a shape is to have a fall.
    """
    if isinstance(area, MeasuredArea) and not fall.is_level:
        raise OutOfRange("A fall needs the shape of the area: give a shape for it, or leave the fall out.", "fall")
    finished = finished_surface(area, fall, datum)
    return excavation(sheet, area, surfaces(area, finished, build_up), ground, digging)


def excavation(
    sheet: Sheet, area: Area | MeasuredArea, laid: Surfaces, ground: Ground | None, digging: Digging
) -> Excavation:
    """Measure a dig: cut and fill apart, exactly under planes and facets.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    area : Area or MeasuredArea
        What is paved.
    laid : Surfaces
        The surfaces of its build-up.
    ground : Survey, Plane or None
        How the ground lies; at the finished level everywhere if it isn't known.
    digging : Digging
        What is dug and how.

    Raises
    ------
    OutOfRange
        If an area without a shape lies on ground that isn't level, or is to be over-dug.
    ImpossibleShape
        If spot levels don't cover the area.

    References
    ----------
    Geometry; soil factors by US Army FM 5-434 and others, as the assumptions say
    """
    _refuse_unmeasurable(area, ground, digging)
    dug = area if isinstance(area, MeasuredArea) else dig_area(area, digging.over_dig)
    plan = _plan_area(sheet, dug)
    lies = laid.finished if ground is None else ground
    work = _moved_earth(sheet, dug, lies, laid.formation, digging.strip.depth.value if digging.strip else 0.0)
    volume = _volume(sheet, "volume_in_place", work.cut)
    strip = strip_figures(sheet.section("strip"), plan, digging.strip)
    cut_area = plan if strip else sum(prism.area for prism in work.cut)
    fill = _fill(sheet, volume, work, digging)
    figures = Excavation(
        dug=dug,
        surfaces=laid,
        ground=lies,
        dig_area=plan,
        cut_area=cut_area,
        dig_depth_mean=_mean_depth(sheet, volume + (strip.volume_in_place if strip else 0.0), cut_area),
        dig_depth_greatest=work.deepest + (strip.depth if strip else 0.0),
        volume_in_place=volume,
        strip=strip,
        **fill,
        **spoil_figures(sheet, volume, fill["carted_in_place"], digging),
    )
    _caution(sheet, figures, ground, digging)
    return figures


def _refuse_unmeasurable(area: Area | MeasuredArea, ground: Ground | None, digging: Digging) -> None:
    if isinstance(area, Area):
        if isinstance(ground, Survey):
            with within("ground", "spots"):
                refuse_uncovered(area, ground)
        return
    if isinstance(ground, Survey) or (ground and not ground.is_level):
        raise OutOfRange("Ground that isn't level needs the shape of the area: give a shape for it.", "ground")
    if digging.over_dig > 0:
        raise OutOfRange("An over-dig needs the shape of the area: give a shape for it.", "over_dig")


def _plan_area(sheet: Sheet, dug: Area | MeasuredArea) -> float:
    if isinstance(dug, MeasuredArea):
        return dug.net
    if not dug.openings:
        return dug.shape.area(sheet, "dig_area")
    return sheet.work("dig_area", net_area, dug.shape.area(sheet, "dig_gross_area"), dug.openings_area)


def _moved_earth(
    sheet: Sheet, dug: Area | MeasuredArea, ground: Ground, formation: Plane, stripped: float
) -> Earthwork:
    if isinstance(ground, Survey) and isinstance(dug, Area):
        return earthwork(dug, ground, formation.lowered(-stripped))
    middle = dug.centroid if isinstance(dug, Area) else (0.0, 0.0)
    levels = (ground.at(middle), formation.at(middle))
    depth = sheet.work("depth_at_centroid", depth_to_formation, *levels, stripped)
    if isinstance(dug, MeasuredArea):
        return even_earthwork(dug.net, depth)
    return earthwork(dug, ground, formation.lowered(-stripped))


def _volume(sheet: Sheet, figure: str, prisms: tuple[Prism, ...]) -> float:
    if len(prisms) == 1:
        return sheet.work(figure, volume_under_plane, prisms[0].area, prisms[0].depth)
    return sheet.work(figure, prisms_volume, tuple(prism.volume for prism in prisms)) if prisms else 0.0


def _mean_depth(sheet: Sheet, volume: float, area: float) -> float:
    return sheet.work("dig_depth_mean", mean_dig_depth, volume, area) if volume > 0 else 0.0


def _fill(sheet: Sheet, volume: float, work: Earthwork, digging: Digging) -> dict[str, Any]:
    """Where fill is needed, where it comes from, and what of the dig is left to be carted."""
    fill = _volume(sheet, "fill", work.fill)
    taken, reused = _reused(sheet, volume, fill, digging)
    return {
        "fill_area": sum(prism.area for prism in work.fill),
        "fill": fill,
        "fill_from_dig": reused,
        "fill_imported": fill - reused,
        "carted_in_place": volume - taken,
    }


def _reused(sheet: Sheet, volume: float, fill: float, digging: Digging) -> tuple[float, float]:
    """What of the dig goes back in as fill: in place, and compacted [m3]."""
    if digging.fill_from is FillFrom.IMPORTED or fill == 0 or volume == 0:
        return 0.0, 0.0
    factor = sheet.assume(digging.soil.compacted_factor)
    made = sheet.work("fill_the_dig_makes", compacted_in_place, volume, factor)
    if made <= fill:
        return volume, made
    return min(volume, sheet.work("dig_taken_for_fill", in_place_for_fill, fill, factor)), fill


def _caution(sheet: Sheet, figures: Excavation, ground: Ground | None, digging: Digging) -> None:
    if figures.dig_depth_greatest > 0:
        because = f"The dig goes {figures.dig_depth_greatest * 1000:.0f} mm deep."
        sheet.caution(caution("buried_services", because))
        if figures.dig_depth_greatest > default("excavations", "deep_dig").value:
            sheet.caution(caution("deep_dig", because))
    _caution_fill(sheet, figures, digging)
    if ground is None:
        sheet.caution(caution("ground_unmeasured", "The ground is taken to lie at the finished level everywhere."))
    if digging.over_dig == 0:
        usual = default("excavations", "over_dig").value
        because = f"No over-dig is given; {usual * 1000:.0f} mm is usual at a haunched edge."
        sheet.caution(caution("no_over_dig", because))
    if isinstance(ground, Survey) and isinstance(figures.dug, Area) and max(ground.past(figures.dug.rings)) > 0:
        sheet.caution(caution("ground_beyond_spots", "The dig reaches past the outermost spot levels."))
    if figures.carted_loose > 0:
        because = f"{figures.carted_loose:.3g} m3 of loose spoil weighs some {figures.carted_mass / 1000:.3g} t."
        sheet.caution(caution("heavy_skip", because))


def _caution_fill(sheet: Sheet, figures: Excavation, digging: Digging) -> None:
    if figures.fill == 0:
        return
    because = f"{figures.fill:.3g} m3 over {figures.fill_area:.3g} m2 must be filled and compacted."
    sheet.caution(caution("fill_needed", because))
    if figures.fill_from_dig and digging.soil.poor_fill:
        sheet.caution(caution("poor_fill", digging.soil.poor_fill))
