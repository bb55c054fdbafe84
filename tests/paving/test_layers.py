"""Layers and depths: volumes held against slicing by shapely, masses against published sums."""

import math
from random import Random

import pytest
import shapely

from service.paving.areas import Area, MeasuredArea, area, circle, l_shape, polygon, rectangle, triangle
from service.paving.errors import OutOfRange
from service.paving.layers import Along, Depth, Layer, layer
from service.paving.materials import material
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet

TYPE_1 = material("type_1")
LIFT = default("layers", "greatest_lift")


def laid(sheet: Sheet, over: Area | MeasuredArea, depth: Depth, lift: Assumption = LIFT) -> Layer:
    return layer(sheet, over, TYPE_1, depth, lift)


def sliced_volume(over: Area, depth: Depth, slices: int = 400) -> float:
    """Volume by slicing the area across the taper, each slice as deep as its middle."""
    plan = shapely.Polygon(over.rings[0], over.rings[1:])
    left, low, right, high = plan.bounds
    first, run = (left, right - left) if depth.along is Along.LENGTH else (low, high - low)
    volume = 0.0
    for k in range(slices):
        a, b = first + run * k / slices, first + run * (k + 1) / slices
        band = shapely.box(a, low, b, high) if depth.along is Along.LENGTH else shapely.box(left, a, right, b)
        volume += plan.intersection(band).area * (depth.start + (depth.end - depth.start) * (k + 0.5) / slices)
    return volume


def test_twenty_square_metres_at_150_mm_take_6_3_tonnes(sheet: Sheet) -> None:
    """20 m2 x 0.150 m compacted x 2.1 t/m3 = 6.3 t, between 6.0 and 6.9 t (common practice, 2.0 to 2.3 t/m3)."""
    found = laid(sheet, MeasuredArea(20.0), Depth(0.15, 0.15))
    assert found.compacted_volume == pytest.approx(3.0)
    assert (found.mass_low, found.mass, found.mass_high) == pytest.approx((6000, 6300, 6900))
    assert found.mean_depth == 0.15


def test_loose_stone_takes_more_room_than_the_layer_it_makes(sheet: Sheet) -> None:
    found = laid(sheet, MeasuredArea(20.0), Depth(0.15, 0.15))
    # 6300 kg at 1.6 to 1.8 t/m3 loose (common practice).
    assert 6300 / 1800 <= found.loose_volume <= 6300 / 1600
    assert found.loose_volume > found.compacted_volume


@pytest.mark.parametrize(
    ("depth", "lifts"), [(0.1, 1), (0.225, 1), (0.2251, 2), (0.3, 2), (0.45, 2), (0.675, 3), (0.9, 4), (0.9001, 5)]
)
def test_a_layer_is_compacted_in_lifts_of_225_mm_at_most(sheet: Sheet, depth: float, lifts: int) -> None:
    """NHBC 10.2.6: layers of at most 225 mm; 300 mm takes two."""
    assert laid(sheet, MeasuredArea(1.0), Depth(depth, depth)).lifts == lifts


def test_the_deep_end_of_a_taper_decides_the_lifts(sheet: Sheet) -> None:
    assert laid(sheet, area(rectangle(4, 3)), Depth(0.1, 0.3)).lifts == 2


def test_a_given_lift_takes_the_place_of_the_default_and_is_named(sheet: Sheet) -> None:
    assert laid(sheet, MeasuredArea(1.0), Depth(0.3, 0.3), LIFT.given(0.1)).lifts == 3
    assert sheet.assumptions["greatest_lift"].basis == "given"


@pytest.mark.parametrize("along", list(Along))
@pytest.mark.parametrize(
    "over",
    [
        area(rectangle(5, 3)),
        area(l_shape(6, 5, 2, 3), [circle(0.8).at(1, 1)]),
        area(circle(4.2)),
        area(triangle(5, 4, 6)),
        area(polygon([(-3, 2), (1, 1), (4, 5), (0, 7)], {1: 0.7, 3: -0.4})),
    ],
    ids=["rectangle", "l with tree pit", "circle", "triangle", "polygon with arcs"],
)
def test_a_tapered_layer_is_exact_over_any_shape(sheet: Sheet, over: Area, along: Along) -> None:
    depth = Depth(0.08, 0.2, along)
    assert laid(sheet, over, depth).compacted_volume == pytest.approx(sliced_volume(over, depth), rel=2e-5)


def test_200_tapers_agree_with_slicing_whichever_end_is_deep() -> None:
    for seed in range(200):
        random = Random(seed)
        length, width = random.uniform(1, 9), random.uniform(1, 9)
        over = area(l_shape(length, width, length * random.uniform(0.1, 0.9), width * random.uniform(0.1, 0.9)))
        depth = Depth(random.uniform(0.05, 0.5), random.uniform(0.05, 0.5), random.choice(list(Along)))
        found = laid(Sheet(), over, depth).compacted_volume
        assert found == pytest.approx(sliced_volume(over, depth, 100), rel=1e-3), seed


def test_over_a_triangle_the_mean_depth_is_the_mean_of_its_corners(sheet: Sheet) -> None:
    """The volume under a plane over a triangle is its area times the mean of the depths at its corners."""
    over = area(triangle(3, 4, 5))
    # Right angle at (3, 0): corners at x = 0, 3, 3, so depths 0.1, 0.25, 0.25.
    found = laid(sheet, over, Depth(0.1, 0.25))
    assert found.compacted_volume == pytest.approx(6.0 * (0.1 + 0.25 + 0.25) / 3)


def test_a_taper_may_run_out_to_nothing(sheet: Sheet) -> None:
    found = laid(sheet, area(rectangle(4, 3)), Depth(0.0, 0.2))
    assert found.compacted_volume == pytest.approx(4 * 3 * 0.1)


def test_a_taper_over_an_area_without_a_shape_takes_the_middle_and_says_so(sheet: Sheet) -> None:
    found = laid(sheet, MeasuredArea(10.0), Depth(0.1, 0.3))
    assert found.mean_depth == pytest.approx(0.2)
    assert "taper_without_shape" in sheet.cautions


@pytest.mark.parametrize(
    ("depth", "place"),
    [
        (Depth(0.0, 0.0), ("depth",)),
        (Depth(0.004, 0.004), ("depth",)),
        (Depth(2.5, 2.5), ("depth",)),
        (Depth(-0.1, 0.2), ("depth_from",)),
        (Depth(0.2, -0.1), ("depth_to",)),
        (Depth(0.2, 3.0), ("depth_to",)),
        (Depth(0.001, 0.002), ("depth_to",)),
    ],
)
def test_a_depth_no_one_lays_is_refused_with_its_place(sheet: Sheet, depth: Depth, place: tuple[str, ...]) -> None:
    with pytest.raises(OutOfRange, match="isn't laid: give") as refusal:
        laid(sheet, MeasuredArea(1.0), depth)
    assert refusal.value.place == place


def test_a_refused_depth_is_told_with_its_limits_in_millimetres(sheet: Sheet) -> None:
    with pytest.raises(OutOfRange, match=r"^A depth of 2500 mm isn't laid: give 5 to 2000 mm\.$"):
        laid(sheet, MeasuredArea(1.0), Depth(2.5, 2.5))


@pytest.mark.parametrize("depth", [0.005, 2.0])
def test_the_limits_of_a_depth_can_still_be_laid(sheet: Sheet, depth: float) -> None:
    assert laid(sheet, MeasuredArea(1.0), Depth(depth, depth)).mean_depth == depth


def test_a_lift_too_thick_for_a_hand_fed_plate_is_cautioned_with_the_lifts_it_needs(sheet: Sheet) -> None:
    laid(sheet, MeasuredArea(1.0), Depth(0.4, 0.4))
    because = "A lift is 200 mm; with a hand-fed plate, at 150 mm, it takes 3 lifts."
    assert sheet.cautions["thick_lift"].because == because


def test_a_layer_of_150_mm_is_not_too_thick_for_a_hand_fed_plate(sheet: Sheet) -> None:
    laid(sheet, MeasuredArea(1.0), Depth(0.3, 0.3))
    assert "thick_lift" not in sheet.cautions


def test_a_layer_thinner_than_two_of_its_stones_is_cautioned(sheet: Sheet) -> None:
    laid(sheet, MeasuredArea(1.0), Depth(0.05, 0.05))
    assert sheet.cautions["thin_layer"].because.startswith("50 mm is less than 63 mm for Type 1")
    fine = Sheet()
    layer(fine, MeasuredArea(1.0), material("sharp_sand"), Depth(0.05, 0.05), LIFT)
    assert "thin_layer" not in fine.cautions


def test_a_layer_of_just_two_of_its_stones_is_thick_enough(sheet: Sheet) -> None:
    laid(sheet, MeasuredArea(1.0), Depth(0.063, 0.063))
    assert "thin_layer" not in sheet.cautions


def test_compacting_stone_carries_the_caution_of_vibration_but_pouring_concrete_does_not(sheet: Sheet) -> None:
    laid(sheet, MeasuredArea(1.0), Depth(0.1, 0.1))
    assert "1 lift." in sheet.cautions["vibration"].because
    poured = Sheet()
    layer(poured, MeasuredArea(1.0), material("concrete"), Depth(0.1, 0.1), LIFT)
    assert not poured.cautions


def test_every_figure_of_a_layer_has_its_workings_and_its_densities_are_named(sheet: Sheet) -> None:
    found = laid(sheet, area(rectangle(4, 3)), Depth(0.1, 0.2))
    worked = {step.figure: step.value for step in sheet.steps}
    for figure in ("compacted_volume", "loose_volume", "mass", "mass_low", "mass_high", "lifts", "mean_depth"):
        assert worked[figure] == getattr(found, figure)
    assert list(sheet.assumptions) == ["type_1 compacted density", "greatest_lift", "type_1 loose density"]


def test_a_round_bed_of_sand_is_a_cylinder(sheet: Sheet) -> None:
    found = layer(sheet, area(circle(4.0)), material("sharp_sand"), Depth(0.05, 0.05), LIFT)
    assert found.compacted_volume == pytest.approx(math.pi * 4 * 0.05)
