"""Levels: pegs on the plane, layers under it, and what the trade warns of."""

import math
import random

import numpy as np
import pytest
import shapely

from service.paving.areas import Area, MeasuredArea, Shape, area, circle, l_shape, polygon, rectangle, triangle
from service.paving.build_ups import BuildUp, Datum, Tapers
from service.paving.errors import OutOfRange
from service.paving.falls import (
    LEVEL,
    DampProofCourse,
    Fall,
    PlanSide,
    fall_at_angle,
    fall_to_side,
    in_words,
)
from service.paving.levels import LevelFigures, level_figures
from service.paving.pegs import Place, stakes
from service.paving.planes import Plane, fall_run, section_ends, steepest_gradient
from service.paving.reference import default
from service.paving.sheets import Sheet

PATIO = area(rectangle(4.8, 3.6))
USUAL = BuildUp(0.04, 0.04, 0.15)
DOWN, DATUM = Fall(0.0, -1 / 60), Datum()
SPACING = default("levels", "peg_spacing")


def set_out(
    sheet: Sheet,
    paved: Area = PATIO,
    fall: Fall = DOWN,
    build_up: BuildUp = USUAL,
    datum: Datum = DATUM,
    dpc: DampProofCourse | None = None,
    spacing: float | None = None,
) -> LevelFigures:
    return level_figures(sheet, paved, fall, build_up, datum, SPACING.given(spacing), dpc)


def codes(sheet: Sheet) -> set[str]:
    return set(sheet.cautions)


@pytest.mark.parametrize(("length", "run", "millimetres"), [(4.0, 60, 66.7), (5.0, 40, 125), (12.0, 60, 200)], ids=str)
def test_the_fall_over_a_length_is_as_printed(sheet: Sheet, length: float, run: float, millimetres: float) -> None:
    """Rows GEOM-16, GEOM-18 and GEOM-19 of the checks."""
    figures = set_out(sheet, area(rectangle(length, 2.0)), fall_to_side(1 / run, PlanSide.RIGHT))
    assert figures.descent.fall * 1000 == pytest.approx(millimetres, abs=0.05)
    assert (figures.highest - figures.lowest) * 1000 == pytest.approx(millimetres, abs=0.05)


@pytest.mark.parametrize(
    ("run", "percent", "degrees", "off"),
    [
        (12, 8.333, 4.764, 0.001),
        (15, 6.667, 3.814, 0.001),
        (20, 5, 2.862, 0.005),
        (60, 1.667, 0.955, 0.005),
        (100, 1, 0.573, 0.001),
    ],
    ids=str,
)
def test_a_gradient_in_per_cent_and_degrees_is_as_printed(
    sheet: Sheet, run: float, percent: float, degrees: float, off: float
) -> None:
    """Rows GEOM-09 to GEOM-15 of the checks."""
    descent = set_out(sheet, fall=fall_to_side(1 / run, PlanSide.TOP)).descent
    assert descent.steepest_gradient * 100 == pytest.approx(percent, abs=off)
    assert math.degrees(descent.slope) == pytest.approx(degrees, abs=off)


def test_the_length_along_a_slope_is_as_printed(sheet: Sheet) -> None:
    """Row GEOM-24: 6 m on plan at 1 in 12."""
    figures = set_out(sheet, area(rectangle(6.0, 1.0)), fall_to_side(1 / 12, PlanSide.RIGHT))
    assert figures.descent.slope_length == pytest.approx(6.0208, abs=0.0001)


SHAPES = {
    "rectangle": area(rectangle(4.8, 3.6)),
    "l_shape": area(l_shape(7.2, 5.4, 2.4, 1.8), [circle(1.2).at(1.0, 1.5)]),
    "triangle": area(triangle(6.0, 5.0, 4.0)),
    "circle": area(circle(6.0)),
    "polygon": area(polygon([(0, 0), (7, -1), (9, 4), (4, 6), (-1, 3)], {1: 0.6, 3: -0.3})),
}
each_shape = pytest.mark.parametrize("paved", SHAPES.values(), ids=SHAPES)


@each_shape
def test_every_peg_lies_on_one_plane_with_the_gradient_asked_for(sheet: Sheet, paved: Area) -> None:
    fall = Fall(1 / 80, -1 / 45)
    pegs = set_out(sheet, paved, fall).pegs
    known = np.array([(peg.x, peg.y, 1.0) for peg in pegs])
    slope_x, slope_y, _ = np.linalg.lstsq(known, np.array([peg.finished for peg in pegs]), rcond=None)[0]
    assert (-slope_x, -slope_y) == pytest.approx((fall.gradient_x, fall.gradient_y), rel=1e-9)
    residual = known @ np.linalg.lstsq(known, np.array([peg.finished for peg in pegs]), rcond=None)[0]
    assert residual == pytest.approx([peg.finished for peg in pegs], abs=1e-12)


@each_shape
def test_layers_that_fall_together_are_as_deep_at_every_peg(sheet: Sheet, paved: Area) -> None:
    for peg in set_out(sheet, paved, Fall(0.02, 0.01)).pegs:
        assert peg.finished - peg.bed == pytest.approx(0.04, abs=1e-12)
        assert peg.bed - peg.sub_base == pytest.approx(0.04, abs=1e-12)
        assert peg.sub_base - peg.formation == pytest.approx(0.15, abs=1e-12)


@each_shape
def test_pegs_stand_at_every_corner_in_the_area_and_in_no_opening(paved: Area) -> None:
    found = stakes(paved, 1.8)
    standing = {(stake.x, stake.y) for stake in found}
    assert set(paved.outline.points) <= standing
    assert len(standing) == len(found)
    whole = shapely.Polygon(paved.rings[0], paved.rings[1:]).buffer(1e-3)
    assert all(shapely.intersects_xy(whole, stake.x, stake.y) for stake in found)


@each_shape
def test_a_straightedge_reaches_from_peg_to_peg_along_every_edge(paved: Area) -> None:
    spacing = 1.8
    edge = shapely.LinearRing(paved.outline.ring)
    on_edge = [shapely.Point(s.x, s.y) for s in stakes(paved, spacing) if edge.distance(shapely.Point(s.x, s.y)) < 1e-3]
    along = sorted(edge.project(point) for point in on_edge)
    gaps = [b - a for a, b in zip(along, [*along[1:], along[0] + edge.length], strict=True)]
    assert max(gaps) <= spacing * 1.001


@pytest.mark.parametrize("seed", range(20))
def test_every_point_of_a_rectangle_is_within_reach_of_a_peg(seed: int) -> None:
    rng = random.Random(seed)
    length, width, spacing = rng.uniform(0.5, 15), rng.uniform(0.5, 15), rng.uniform(0.6, 3)
    pegs = shapely.MultiPoint([(s.x, s.y) for s in stakes(area(rectangle(length, width)), spacing)])
    for _ in range(50):
        point = shapely.Point(rng.uniform(0, length), rng.uniform(0, width))
        # Half the diagonal of a square of the grid, and a hand's breadth where a peg of the edge stood in for one.
        assert pegs.distance(point) <= spacing / math.sqrt(2) + 0.1


def test_the_pegs_of_a_small_rectangle_are_its_corners_edges_and_middle() -> None:
    assert [(s.place, s.x, s.y) for s in stakes(area(rectangle(3.0, 2.0)), 1.8)] == [
        (Place.CORNER, 0.0, 0.0), (Place.EDGE, 1.5, 0.0), (Place.CORNER, 3.0, 0.0),
        (Place.EDGE, 0.0, 1.0), (Place.INSIDE, 1.5, 1.0), (Place.EDGE, 3.0, 1.0),
        (Place.CORNER, 0.0, 2.0), (Place.EDGE, 1.5, 2.0), (Place.CORNER, 3.0, 2.0),
    ]  # fmt: skip


def test_a_circle_has_no_corner_and_two_arcs_that_meet_at_an_angle_have_one() -> None:
    assert {stake.place for stake in stakes(area(circle(4.0)), 1.8)} == {Place.EDGE, Place.INSIDE}
    bulged = area(polygon([(0, 0), (4, 0), (4, 2)], {1: 1.0, 2: 0.5}))
    assert sum(stake.place is Place.CORNER for stake in stakes(bulged, 1.8)) == 3


def test_the_corners_of_an_opening_are_pegged_too() -> None:
    paved = area(rectangle(6.0, 6.0), [rectangle(0.6, 0.5).at(2.0, 2.1)])
    openings = {(s.x, s.y) for s in stakes(paved, 1.8) if s.place is Place.OPENING}
    assert openings == {(2.0, 2.1), (2.6, 2.1), (2.6, 2.6), (2.0, 2.6)}


def test_more_pegs_than_one_answer_holds_are_refused_with_a_spacing_that_works() -> None:
    with pytest.raises(OutOfRange, match="is the most in one answer") as refused:
        stakes(area(rectangle(100.0, 80.0)), 0.5)
    assert refused.value.place == ("peg_spacing",)
    wide = float(refused.value.detail.rpartition("them ")[2].partition(" m")[0])
    assert len(stakes(area(rectangle(100.0, 80.0)), wide)) <= 2000


def test_the_finished_level_is_that_of_the_datum_at_its_own_point(sheet: Sheet) -> None:
    figures = set_out(sheet, fall=Fall(0.02, 0.0), datum=Datum("door sill", -0.15, (2.4, 0.0)))
    at = {(round(peg.x, 9), round(peg.y, 9)): peg.finished for peg in figures.pegs}
    assert at[0.0, 0.0] == pytest.approx(-0.15 + 0.02 * 2.4)
    assert at[4.8, 3.6] == pytest.approx(-0.15 - 0.02 * 2.4)


def test_without_a_point_the_datum_gives_the_level_where_the_area_lies_highest(sheet: Sheet) -> None:
    figures = set_out(sheet, fall=Fall(-0.02, -0.01), datum=Datum(finished=-0.15))
    assert figures.highest == pytest.approx(-0.15)
    assert figures.lowest == pytest.approx(-0.15 - 0.02 * 4.8 - 0.01 * 3.6)
    assert (figures.lowest_x, figures.lowest_y) == (0.0, 0.0)


def test_a_fall_to_a_corner_has_both_gradients(sheet: Sheet) -> None:
    figures = set_out(sheet, fall=Fall(0.03, 0.04))
    assert figures.descent.steepest_gradient == pytest.approx(0.05)
    assert figures.descent.towards == pytest.approx(math.atan2(4, 3))
    assert figures.descent.fall == pytest.approx(0.03 * 4.8 + 0.04 * 3.6)


@pytest.mark.parametrize(("side", "degrees"), [("right", 0), ("top", 90), ("left", 180), ("bottom", 270)])
def test_a_side_of_the_paper_is_an_angle(side: str, degrees: float) -> None:
    assert fall_to_side(0.02, PlanSide(side)) == fall_at_angle(0.02, math.radians(degrees))


def test_a_circle_falls_by_its_diameter_in_every_direction(sheet: Sheet) -> None:
    for degrees in range(0, 360, 17):
        figures = set_out(Sheet(), area(circle(4.2).at(-3.0, 8.0)), fall_at_angle(1 / 60, math.radians(degrees)))
        assert figures.descent.fall == pytest.approx(4.2 / 60, rel=1e-12)
        assert figures.descent.run == pytest.approx(4.2, rel=1e-12)


def test_an_arc_counts_to_its_furthest_point(sheet: Sheet) -> None:
    """A 4 m x 3 m area whose right side bulges by 0.5 m; a flat arc on the top doesn't reach further right."""
    bulged = area(polygon([(0, 0), (4, 0), (4, 3), (0, 3)], {1: 0.5, 2: 0.1}))
    assert fall_run(bulged, Plane(0.0, 0.02)) == pytest.approx(4.5, rel=1e-12)
    assert fall_run(bulged, Plane(0.0, 0.0, -0.02)) == pytest.approx(3.1, rel=1e-12)


def test_a_level_surface_falls_nowhere(sheet: Sheet) -> None:
    figures = set_out(sheet, fall=LEVEL)
    assert figures.descent.towards is None
    assert (figures.descent.fall, figures.descent.run, figures.descent.slope_length) == (0.0, 0.0, 0.0)
    assert {peg.finished for peg in figures.pegs} == {0.0}


def test_a_level_sub_base_under_a_falling_surface_leaves_the_wedge_to_the_laying_course(sheet: Sheet) -> None:
    """4.8 m x 3.6 m falling 1 in 60 along 3.6 m: 60 mm; 40 mm at the low end, 100 at the high, 70 on average."""
    figures = set_out(sheet, build_up=BuildUp(0.04, 0.04, 0.15, Tapers.LAYING_COURSE))
    bed = figures.laying_course
    assert (bed.least, bed.mean, bed.greatest) == pytest.approx((0.04, 0.07, 0.10))
    assert bed.volume == pytest.approx(4.8 * 3.6 * 0.07)
    assert figures.sub_base.least == figures.sub_base.greatest == pytest.approx(0.15)
    assert len({peg.sub_base for peg in figures.pegs}) == len({peg.formation for peg in figures.pegs}) == 1
    assert "bed_depth" in codes(sheet)


def test_a_level_formation_leaves_the_wedge_to_the_sub_base(sheet: Sheet) -> None:
    figures = set_out(sheet, build_up=BuildUp(0.04, 0.04, 0.15, Tapers.SUB_BASE))
    stone = figures.sub_base
    assert (stone.least, stone.mean, stone.greatest) == pytest.approx((0.15, 0.18, 0.21))
    assert stone.volume == pytest.approx(4.8 * 3.6 * 0.18)
    assert figures.laying_course.greatest == pytest.approx(0.04)
    assert len({peg.formation for peg in figures.pegs}) == 1
    assert len({peg.sub_base for peg in figures.pegs}) > 1
    assert "bed_depth" not in codes(sheet)


def test_a_taper_under_a_triangle_is_not_the_average_of_its_ends(sheet: Sheet) -> None:
    """A right-angled triangle falling 60 mm along its leg of 3 m: the mean is a third of the way, by calculus."""
    paved = area(polygon([(0, 0), (3, 0), (0, 2)], {}))
    figures = set_out(sheet, paved, Fall(0.02, 0.0), BuildUp(0.04, 0.03, 0.1, Tapers.SUB_BASE))
    assert figures.sub_base.mean == pytest.approx(0.1 + 0.06 * 2 / 3)
    assert figures.sub_base.volume == pytest.approx(3.0 * (0.1 + 0.04))


@pytest.mark.parametrize(
    ("run", "expected"),
    [
        (100, {"flat_fall", "flat_fall_for_blocks"}),
        (80, {"flat_fall_for_blocks"}),
        (60, {"flat_fall_for_blocks"}),
        (50, set()),
        (48, set()),
        (40, set()),
        (30, {"steep_fall"}),
        (20, {"steep_fall"}),
        (12, {"steep_fall", "ramp"}),
        (10, {"steep_fall", "ramp"}),
        (8, {"steep_fall", "ramp", "drive_transition"}),
        (6, {"steep_fall", "ramp", "drive_transition"}),
        (5, {"steep_fall", "ramp", "drive_transition", "drive_too_steep"}),
    ],
)
def test_a_fall_too_flat_or_too_steep_is_cautioned_as_its_source_has_it(
    sheet: Sheet, run: float, expected: set[str]
) -> None:
    """1 in 80 and 1 in 40 are common practice; 2 % ICPI; 1 in 20 Approved Document M; 1 in 10 and 1 in 6 NHBC 10.2.6."""
    set_out(sheet, fall=fall_to_side(1 / run, PlanSide.BOTTOM))
    assert codes(sheet) - {"estimate"} == expected


def test_no_fall_at_all_is_too_flat(sheet: Sheet) -> None:
    set_out(sheet, fall=LEVEL)
    assert "flat_fall" in codes(sheet)
    assert sheet.cautions["flat_fall"].because == "The fall is level."


def test_a_finished_level_150_mm_below_the_damp_proof_course_is_well(sheet: Sheet) -> None:
    set_out(sheet, datum=Datum(finished=-0.15), dpc=DampProofCourse(0.0, PlanSide.TOP))
    assert not codes(sheet) & {"near_dpc", "fall_to_wall"}


@pytest.mark.parametrize(("finished", "words"), [(-0.1, "100 mm below"), (0.02, "20 mm above"), (0.0, "0 mm below")])
def test_a_finished_level_nearer_to_the_damp_proof_course_is_cautioned(
    sheet: Sheet, finished: float, words: str
) -> None:
    set_out(sheet, datum=Datum(finished=finished), dpc=DampProofCourse(0.0, PlanSide.TOP))
    assert words in sheet.cautions["near_dpc"].because
    assert "Approved Document C" in sheet.cautions["near_dpc"].source


def test_only_the_wall_counts_where_it_is_known(sheet: Sheet) -> None:
    """The surface falls from the top to the bottom; at the bottom it lies 60 mm lower."""
    low, high = DampProofCourse(0.1, PlanSide.BOTTOM), DampProofCourse(0.1)
    set_out(sheet, dpc=low)
    assert "near_dpc" not in codes(sheet)
    set_out(sheet, dpc=high)
    assert "near_dpc" in codes(sheet)


@pytest.mark.parametrize(
    ("fall", "wall", "cautioned"),
    [
        (Fall(0.0, 0.02), PlanSide.TOP, True),
        (Fall(0.0, -0.02), PlanSide.TOP, False),
        (Fall(0.02, 0.0), PlanSide.TOP, False),
        (Fall(0.02, 0.001), PlanSide.TOP, True),
        (Fall(0.02, 0.0), 2, True),
        (Fall(0.02, 0.0), 4, False),
        (Fall(0.02, 0.02), None, False),
    ],
)
def test_water_that_runs_to_the_wall_is_cautioned(
    sheet: Sheet, fall: Fall, wall: PlanSide | int | None, cautioned: bool
) -> None:
    set_out(sheet, fall=fall, dpc=DampProofCourse(1.0, wall))
    assert ("fall_to_wall" in codes(sheet)) == cautioned


@pytest.mark.parametrize(
    ("shape", "wall", "words"),
    [
        (rectangle(4.0, 3.0), 5, "has 4 sides"),
        (triangle(6.0, 5.0, 4.0), PlanSide.TOP, "lies along the top"),
        (circle(4.0), PlanSide.LEFT, "lies along the left"),
    ],
)
def test_a_wall_that_is_not_there_is_refused(sheet: Sheet, shape: Shape, wall: PlanSide | int, words: str) -> None:
    with pytest.raises(OutOfRange, match=words) as refused:
        set_out(sheet, area(shape), dpc=DampProofCourse(0.0, wall))
    assert refused.value.place == ("damp_proof_course", "wall")


def test_a_section_runs_from_the_highest_to_the_lowest_through_the_middle() -> None:
    paved = area(rectangle(4.0, 3.0))
    start, end = section_ends(paved, Plane(0.0, 0.0, 0.02))
    assert start == pytest.approx((2.0, 0.0))
    assert end == pytest.approx((2.0, 3.0))
    assert section_ends(MeasuredArea(9.0), Plane(0.0)) == ((0.0, 0.0), (3.0, 0.0))
    assert section_ends(paved, Plane(0.0)) == (pytest.approx((0.0, 1.5)), pytest.approx((4.0, 1.5)))


def test_the_workings_show_fall_and_lowest_level(sheet: Sheet) -> None:
    set_out(sheet)
    assert {step.figure for step in sheet.steps} >= {
        "steepest_gradient",
        "fall",
        "lowest",
        "build_up",
        "sub_base.volume",
    }


def test_words_for_a_gradient_and_its_steepest_line() -> None:
    assert in_words(1 / 60) == "1 in 60"
    assert steepest_gradient(0.0, -0.02) == 0.02
