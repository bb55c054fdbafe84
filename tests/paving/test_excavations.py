"""Excavations: volumes by hand, soils by the army's table, skips by the trade."""

import math
import random
from dataclasses import replace

import pytest
import shapely

from service.paving.areas import Area, MeasuredArea, area, circle, l_shape, polygon, rectangle, triangle
from service.paving.build_ups import BuildUp, Datum, Tapers
from service.paving.cartings import SKIPS, skips
from service.paving.dig_areas import dig_area
from service.paving.diggings import Digging, FillFrom, Strip, Stripped, plain_dig
from service.paving.errors import ImpossibleShape, OutOfRange, UnknownName
from service.paving.excavations import Excavation, excavation_figures
from service.paving.falls import LEVEL, Fall
from service.paving.grounds import Ground, SpotLevel, survey
from service.paving.groundworks import Site, groundwork
from service.paving.planes import Plane
from service.paving.reference import default
from service.paving.sheets import Sheet
from service.paving.soils import bulked_volume, compacted_in_place, soil, soils

PATIO = area(rectangle(6.0, 4.0))
USUAL = BuildUp(0.04, 0.04, 0.15)
TIPPER = default("excavations", "tipper_payload")
EARTH = Digging(soil("common_earth"), TIPPER)
GROUND, DATUM = Plane(0.0), Datum()


def dig(
    sheet: Sheet,
    paved: Area | MeasuredArea = PATIO,
    build_up: BuildUp = USUAL,
    ground: Ground | None = GROUND,
    digging: Digging = EARTH,
    fall: Fall = LEVEL,
    datum: Datum = DATUM,
) -> Excavation:
    return excavation_figures(sheet, paved, fall, datum, build_up, ground, digging)


def stripped(what: Stripped, depth: float) -> Strip:
    return Strip(what, default("excavations", f"{what}_depth").given(depth))


ARMY = [
    ("sand", 1.11, 0.95, 0.86, 1.17),
    ("common_earth", 1.25, 0.90, 0.72, 1.39),
    ("clay", 1.43, 0.90, 0.63, 1.59),
    ("rock", 1.50, 1.30, 0.87, 1.15),
]


@pytest.mark.parametrize(("key", "loose", "compacted", "loose_to_compacted", "compacted_to_loose"), ARMY)
def test_the_factors_of_a_soil_are_the_us_armys(
    key: str, loose: float, compacted: float, loose_to_compacted: float, compacted_to_loose: float
) -> None:
    """FM 5-434, soil conversion factors: sand read in a Navy reprint (SOIL-01, SOIL-02), the others from memory."""
    bulked, pressed = (
        bulked_volume(1.0, soil(key).loose_factor.value),
        compacted_in_place(1.0, soil(key).compacted_factor.value),
    )
    assert (bulked, pressed) == (loose, compacted)
    assert pressed / bulked == pytest.approx(loose_to_compacted, abs=0.005)
    assert bulked / pressed == pytest.approx(compacted_to_loose, abs=0.005)


@pytest.mark.parametrize(
    ("key", "loose", "compacted"),
    [
        ("clay_and_gravel", 1.35, None),
        ("gravel", None, 0.97),
        ("shale", 1.5, 1.33),
        ("limestone", 1.63, 1.36),
        ("granite", 1.72, 1.33),
    ],
)
def test_the_factors_of_other_soils_are_the_handouts(key: str, loose: float | None, compacted: float | None) -> None:
    """Rows SOIL-35 to SOIL-48: a landscape training handout, author not stated; secondary."""
    assert loose in (None, soil(key).loose_factor.value)
    assert compacted in (None, soil(key).compacted_factor.value)


def test_the_handouts_sand_lies_in_the_range_of_ours() -> None:
    """Rows SOIL-36 and SOIL-37: 1.05 and 0.89 against the army's 1.11 and 0.95."""
    sand = soil("sand")
    assert sand.loose_factor.low <= 1.05 <= sand.loose_factor.high
    assert sand.compacted_factor.low <= 0.89 <= sand.compacted_factor.high


@pytest.mark.parametrize(
    ("key", "in_place", "loose"), [("common_earth", 300, 375), ("clay", 10, 14.3), ("sand", 100, 111)]
)
def test_a_volume_dug_swells_as_the_table_works_it(sheet: Sheet, key: str, in_place: float, loose: float) -> None:
    """Rows SOIL-25, SOIL-26 and SOIL-01."""
    figures = dig(sheet, MeasuredArea(in_place), plain_dig(1.0), digging=replace(EARTH, soil=soil(key)))
    assert figures.volume_in_place == pytest.approx(in_place)
    assert figures.volume_loose == pytest.approx(loose, rel=0.005)


def test_swell_by_density_is_the_textbooks() -> None:
    """Rows SOIL-32 and SOIL-33: 3400 lb/yd3 in the ground, 2700 loose; a short ton is 0.59 and 0.74 yd3, swell 26 %."""
    swell = 3400 / 2700
    assert swell - 1 == pytest.approx(0.26, abs=0.005)
    assert bulked_volume(2000 / 3400, swell) == pytest.approx(0.74, abs=0.005)


def test_every_soil_swells_when_dug_and_weighs_what_earth_weighs() -> None:
    for each in soils():
        assert 1.0 < each.loose_factor.low <= each.loose_factor.value
        assert 900 <= each.density.low < each.density.high <= 2800


def test_a_soil_no_one_knows_is_refused_with_its_nearest() -> None:
    with pytest.raises(UnknownName, match="clay"):
        soil("clai")


@pytest.mark.parametrize(("yards", "cubic_metres"), [(2, 1.53), (4, 3.06), (6, 4.59), (8, 6.12)])
def test_a_skip_holds_the_cubic_yards_it_is_named_by(yards: int, cubic_metres: float) -> None:
    """Rows PACK-11 to PACK-14; a yard is 0.9144 m."""
    value = default("excavations", SKIPS[yards]).value
    assert value == pytest.approx(cubic_metres, abs=0.005)
    assert value == pytest.approx(yards * 0.9144**3, rel=1e-12)


def test_soil_goes_in_no_skip_above_eight_cubic_yards(sheet: Sheet) -> None:
    """Row PACK-18, common practice."""
    assert max(skip.capacity_yd3 for skip in skips(sheet, 30.0)) == 8


def test_nine_cubic_metres_of_common_earth_take_two_large_skips(sheet: Sheet) -> None:
    """Row PACK-19."""
    figures = dig(sheet, MeasuredArea(30.0), plain_dig(0.3))
    assert {skip.capacity_yd3: skip.count for skip in figures.skips}[8] == 2


def test_a_skip_filled_to_the_last_litre_is_one_skip(sheet: Sheet) -> None:
    assert {skip.capacity_yd3: skip.count for skip in skips(sheet, 8 * 0.9144**3)} == {2: 4, 4: 2, 6: 2, 8: 1}


def test_a_level_dig_is_its_area_times_its_build_up(sheet: Sheet) -> None:
    figures = dig(sheet)
    assert figures.volume_in_place == pytest.approx(24 * 0.23)
    assert figures.dig_depth_mean == figures.dig_depth_greatest == pytest.approx(0.23)
    assert (figures.fill, figures.strip) == (0.0, None)
    assert figures.mass == pytest.approx(24 * 0.23 * 1700)
    assert figures.mass_low < figures.mass < figures.mass_high
    assert figures.tipper_loads == 1


def test_about_six_inches_of_dig_is_common_practice(sheet: Sheet) -> None:
    """Common practice: 150 mm, about six inches, under a patio; our default build-up is deeper for its stone."""
    assert dig(sheet, build_up=plain_dig(6 * 0.0254)).dig_depth_mean == pytest.approx(0.150, abs=0.003)


def test_an_area_known_by_its_measure_is_dug_level(sheet: Sheet) -> None:
    figures = dig(sheet, MeasuredArea(24.0), ground=Plane(0.1))
    assert figures.volume_in_place == pytest.approx(24 * 0.33)
    assert figures.dig_area == 24.0


def test_ground_that_is_not_known_follows_the_finished_surface(sheet: Sheet) -> None:
    figures = dig(sheet, ground=None, fall=Fall(0.02, 0.01))
    assert figures.volume_in_place == pytest.approx(24 * 0.23)
    assert "ground_unmeasured" in sheet.cautions


def test_level_ground_under_a_falling_surface_is_dug_deeper_at_the_low_end(sheet: Sheet) -> None:
    """6 m at 1 in 60: 0.23 m at the high end, 0.33 at the low, 0.28 on average."""
    figures = dig(sheet, fall=Fall(1 / 60, 0.0))
    assert figures.volume_in_place == pytest.approx(24 * 0.28)
    assert figures.dig_depth_greatest == pytest.approx(0.33)
    assert "ground_unmeasured" not in sheet.cautions


def test_ground_that_falls_below_the_formation_is_filled_and_said_so(sheet: Sheet) -> None:
    """Ground falling 0.6 m over 6 m from 0.07 m above the formation to 0.53 below: by hand, 0.7 m of it is cut."""
    figures = dig(sheet, build_up=plain_dig(0.07), ground=Plane(0.0, 0.1))
    assert figures.volume_in_place == pytest.approx(0.07 * 0.7 / 2 * 4)
    assert figures.fill == pytest.approx(0.53 * 5.3 / 2 * 4)
    assert figures.cut_area == pytest.approx(0.7 * 4)
    assert figures.fill_area == pytest.approx(5.3 * 4)
    assert figures.dig_depth_mean == pytest.approx(0.035)
    assert "fill" in sheet.cautions["fill_needed"].text


def test_ground_wholly_below_the_formation_needs_no_dig(sheet: Sheet) -> None:
    figures = dig(sheet, ground=Plane(-0.5))
    assert (figures.volume_in_place, figures.dig_depth_mean, figures.carted_loose, figures.tipper_loads) == (0, 0, 0, 0)
    assert figures.fill == pytest.approx(24 * 0.27)
    assert not {"buried_services", "heavy_skip"} & set(sheet.cautions)


def test_spot_levels_are_dug_as_their_triangles_lie(sheet: Sheet) -> None:
    """A ridge 0.3 m high along the middle of 6 m x 4 m: 0.15 m on average above the rest."""
    spots = [SpotLevel(x, y, 0.3 if y == 2.0 else 0.0) for x in (0.0, 6.0) for y in (0.0, 2.0, 4.0)]
    figures = dig(sheet, ground=survey(spots))
    assert figures.volume_in_place == pytest.approx(24 * (0.23 + 0.15))
    assert figures.dig_depth_greatest == pytest.approx(0.53)
    assert "ground_beyond_spots" not in sheet.cautions


def test_a_dig_wider_than_its_spots_is_cautioned(sheet: Sheet) -> None:
    spots = [SpotLevel(x, y, 0.0) for x in (0.0, 6.0) for y in (0.0, 4.0)]
    figures = dig(sheet, ground=survey(spots), digging=replace(EARTH, over_dig=0.15))
    assert figures.volume_in_place == pytest.approx(6.3 * 4.3 * 0.23)
    assert "ground_beyond_spots" in sheet.cautions


def test_spots_that_do_not_cover_the_area_are_refused_where_they_are_given(sheet: Sheet) -> None:
    spots = [SpotLevel(x, y, 0.0) for x in (0.0, 5.0) for y in (0.0, 4.0)]
    with pytest.raises(ImpossibleShape, match="don't cover") as refused:
        dig(sheet, ground=survey(spots))
    assert refused.value.place == ("ground", "spots")


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"ground": Plane(0.0, 0.02)}, ("ground",)),
        ({"ground": survey([SpotLevel(0, 0, 0), SpotLevel(9, 0, 0), SpotLevel(0, 9, 0)])}, ("ground",)),
        ({"digging": replace(EARTH, over_dig=0.1)}, ("over_dig",)),
        ({"fall": Fall(0.02, 0.0)}, ("fall",)),
    ],
)
def test_what_needs_a_shape_is_refused_without_one(
    sheet: Sheet, change: dict[str, object], place: tuple[str, ...]
) -> None:
    with pytest.raises(OutOfRange, match="shape of the area") as refused:
        dig(sheet, MeasuredArea(24.0), **change)  # type: ignore[arg-type]
    assert refused.value.place == place


def test_turf_is_stripped_first_and_kept_apart(sheet: Sheet) -> None:
    figures = dig(sheet, digging=replace(EARTH, strip=stripped(Stripped.TURF, 0.04)))
    assert figures.strip is not None
    assert figures.strip.volume_in_place == pytest.approx(24 * 0.04)
    assert figures.volume_in_place == pytest.approx(24 * 0.19)
    assert figures.dig_depth_mean == figures.dig_depth_greatest == pytest.approx(0.23)
    assert figures.strip.mass == pytest.approx(24 * 0.04 * 1200)


def test_topsoil_deeper_than_the_dig_is_filled_up_again(sheet: Sheet) -> None:
    figures = dig(sheet, build_up=plain_dig(0.1), digging=replace(EARTH, strip=stripped(Stripped.TOPSOIL, 0.15)))
    assert figures.volume_in_place == 0.0
    assert figures.fill == pytest.approx(24 * 0.05)
    assert figures.dig_depth_mean == pytest.approx(0.15)


def test_fill_from_the_dig_takes_as_much_more_as_it_shrinks(sheet: Sheet) -> None:
    """Half the ground 0.2 m above the formation, half 0.2 below: by hand 0.4 m3 of each per metre; earth shrinks to 0.9."""
    digging = replace(EARTH, fill_from=FillFrom.DIG)
    figures = dig(sheet, area(rectangle(8.0, 1.0)), plain_dig(0.2), Plane(0.0, 0.05), digging)
    assert figures.volume_in_place == figures.fill == pytest.approx(0.4)
    assert figures.fill_from_dig == pytest.approx(0.36)
    assert figures.fill_imported == pytest.approx(0.04)
    assert figures.carted_in_place == 0.0


@pytest.mark.parametrize("seed", range(60))
def test_nothing_less_than_nothing_is_carted_or_brought_in(seed: int) -> None:
    rng = random.Random(seed)
    digging = replace(EARTH, fill_from=FillFrom.DIG)
    ground = Plane(rng.uniform(-0.3, 0.1), rng.uniform(-0.2, 0.2), rng.uniform(-0.2, 0.2))
    figures = dig(Sheet(), ground=ground, digging=digging)
    assert min(figures.carted_in_place, figures.carted_loose, figures.fill_imported, figures.fill_from_dig) >= 0
    assert figures.fill_from_dig + figures.fill_imported == pytest.approx(figures.fill)
    # What goes back in and what is carted are all that is dug.
    assert figures.fill_from_dig / 0.9 + figures.carted_in_place == pytest.approx(figures.volume_in_place)


def test_what_is_left_of_the_dig_is_carted(sheet: Sheet) -> None:
    digging = replace(EARTH, fill_from=FillFrom.DIG)
    figures = dig(sheet, area(rectangle(8.0, 1.0)), plain_dig(0.3), Plane(0.0, 0.05), digging)
    assert figures.fill_from_dig == pytest.approx(figures.fill)
    assert figures.fill_imported == 0.0
    assert figures.carted_in_place == pytest.approx(figures.volume_in_place - figures.fill / 0.9)
    assert figures.carted_loose == pytest.approx(figures.carted_in_place * 1.25)
    assert figures.carted_mass < figures.mass


def test_clay_for_fill_is_cautioned_and_imported_fill_is_not(sheet: Sheet) -> None:
    clay = replace(EARTH, soil=soil("clay"), fill_from=FillFrom.DIG)
    dig(sheet, build_up=plain_dig(0.1), ground=Plane(0.0, 0.05), digging=clay)
    assert "moisture" in sheet.cautions["poor_fill"].because
    other = Sheet()
    dig(other, build_up=plain_dig(0.1), ground=Plane(0.0, 0.05), digging=replace(clay, fill_from=FillFrom.IMPORTED))
    assert "poor_fill" not in other.cautions


def test_every_dig_warns_of_services_and_a_deep_one_of_its_sides(sheet: Sheet) -> None:
    dig(sheet)
    assert "HSG47" in sheet.cautions["buried_services"].source
    assert "deep_dig" not in sheet.cautions
    dig(sheet, build_up=plain_dig(1.3))
    assert "fall in" in sheet.cautions["deep_dig"].text


def test_no_over_dig_is_pointed_out_and_an_over_dig_is_not(sheet: Sheet) -> None:
    dig(sheet, digging=replace(EARTH, over_dig=0.15))
    assert "no_over_dig" not in sheet.cautions
    dig(sheet)
    assert "no_over_dig" in sheet.cautions


def test_a_given_density_and_bulking_replace_the_tables(sheet: Sheet) -> None:
    own = replace(EARTH.soil, loose_factor=EARTH.soil.loose_factor.given(1.3), density=EARTH.soil.density.given(1850.0))
    figures = dig(sheet, digging=replace(EARTH, soil=own))
    assert figures.volume_loose == pytest.approx(24 * 0.23 * 1.3)
    assert figures.mass == figures.mass_low == figures.mass_high == pytest.approx(24 * 0.23 * 1850)
    assert {a.basis for a in sheet.assumptions.values()} == {"given", "common practice"}


def test_tippers_carry_their_payload(sheet: Sheet) -> None:
    figures = dig(
        sheet, MeasuredArea(100.0), plain_dig(0.3), digging=replace(EARTH, tipper_payload=TIPPER.given(7000.0))
    )
    assert figures.tipper_loads == math.ceil(100 * 0.3 * 1700 / 7000)


# The dig beyond the edge


@pytest.mark.parametrize("wide", [0.1, 0.15, 0.5])
def test_a_convex_area_grows_by_its_perimeter_and_its_corners(wide: float) -> None:
    """Steiner's theorem with squared corners: A + P w + w² Σ tan(θ/2), θ how far each corner turns."""
    pentagon = [(math.cos(2 * math.pi * k / 5) * 3, math.sin(2 * math.pi * k / 5) * 3) for k in range(5)]
    for paved in (PATIO, area(polygon(pentagon, {}))):
        corners = len(paved.outline.points)
        grown = paved.net + paved.outline.perimeter * wide + wide**2 * corners * math.tan(math.pi / corners)
        assert dig_area(paved, wide).net == pytest.approx(grown, rel=1e-9)


def test_a_circle_grows_into_a_circle() -> None:
    wider = dig_area(area(circle(4.0).at(1.0, 2.0)), 0.15)
    assert wider.net == pytest.approx(math.pi * 2.15**2, rel=1e-12)
    assert wider.centroid == pytest.approx((3.0, 4.0))


def test_an_l_grows_outwards_and_into_its_notch() -> None:
    """7.2 x 5.4 less 2.4 x 1.8, 0.1 m wider: 7.4 x 5.6 less a notch still 2.4 x 1.8."""
    assert dig_area(area(l_shape(7.2, 5.4, 2.4, 1.8)), 0.1).net == pytest.approx(7.4 * 5.6 - 2.4 * 1.8, rel=1e-9)


def test_a_sharp_corner_is_blunted_not_dug_far_out() -> None:
    sharp = area(triangle(5.0, 5.0, 0.5))
    wider = dig_area(sharp, 0.1)
    left, _, right, _ = wider.outline.bounds
    assert right - left < 5.6
    assert wider.net < sharp.net + sharp.outline.perimeter * 0.1 + 4 * 3 * 0.1**2


def test_arcs_grow_to_a_ten_thousandth_of_the_strip() -> None:
    bulged = area(polygon([(0, 0), (4, 0), (4, 3), (0, 3)], {1: 0.8}))
    fine = shapely.Polygon(polygon([(0, 0), (4, 0), (4, 3), (0, 3)], {1: 0.8}).outline.ring)
    arc = bulged.outline.arcs[0]
    # Along the arc the strip is a ring sector: w θ (R + w/2); its ends meet the straight strips in mitres.
    strip = dig_area(bulged, 0.15).net - bulged.net
    assert strip == pytest.approx(fine.buffer(0.15, join_style="mitre").area - fine.area, rel=1e-4)
    assert strip > 0.15 * arc.angle * (arc.radius + 0.075) + 0.15 * 11


def test_openings_are_not_dug_and_a_bay_that_closes_up_is_not_either() -> None:
    paved = area(rectangle(6.0, 4.0), [circle(1.0).at(2.0, 2.0)])
    assert dig_area(paved, 0.15).net == pytest.approx(6.3 * 4.3 - math.pi / 4, rel=1e-9)
    bay = polygon([(0, 0), (6, 0), (6, 4), (3.1, 4), (3.1, 3.9), (4, 2), (2, 2), (2.9, 3.9), (2.9, 4), (0, 4)], {})
    closed = dig_area(area(bay), 0.15)
    assert len(closed.openings) == 1
    assert closed.net == pytest.approx(
        shapely.Polygon(bay.outline.ring).buffer(0.15, join_style="mitre", mitre_limit=2).area, rel=1e-9
    )


# Layers and dig in one go


def test_levels_and_dig_of_a_job_agree(sheet: Sheet) -> None:
    """What is dug is what is laid: with ground at the finished level the dig is the sum of the layers."""
    rng = random.Random(5)
    for tapers in Tapers:
        fall = Fall(rng.uniform(-0.03, 0.03), rng.uniform(-0.03, 0.03))
        build_up = BuildUp(0.04, 0.03, 0.12, tapers)
        site = Site(fall, Datum(), build_up, None, EARTH, default("levels", "peg_spacing"))
        paved = area(l_shape(7.2, 5.4, 2.4, 1.8), [circle(1.2).at(1.0, 1.5)])
        ground = groundwork(sheet, paved, site)
        slabs = paved.net * 0.04
        assert ground.excavation.volume_in_place == pytest.approx(
            slabs + ground.laying_course.volume + ground.sub_base.volume, rel=1e-9
        )
        assert {step.figure.partition(".")[0] for step in sheet.steps} == {"levels", "excavation"}
