"""Laying courses: full, spot, ribbon and screeded, side by side."""

import math

import pytest
import shapely

from service.paving.areas import MeasuredArea, area, rectangle
from service.paving.beds import Bed, Dabs, Method, Ribbons, bed
from service.paving.errors import OutOfRange
from service.paving.layers import Depth
from service.paving.materials import material
from service.paving.sheets import Sheet
from service.paving.slabs import Slab
from service.paving.spots import ribbon_length

EVEN = Depth(0.04, 0.04)
FLAG = Slab("flag", 0.6, 0.6, 0.038)
BLOCK = Slab("block", 0.2, 0.1, 0.06)
TWENTY = MeasuredArea(20.0)


def laid(sheet: Sheet, method: Method, **more: object) -> Bed:
    asked = {"area": TWENTY, "depth": EVEN, "slab": FLAG} | more
    return bed(sheet, method=method, **asked)  # type: ignore[arg-type]


def test_a_full_bed_is_area_times_depth_and_holds_the_whole_slab(sheet: Sheet) -> None:
    found = laid(sheet, Method.FULL_BED, slab=None)
    assert found.volume == pytest.approx(0.8)
    assert (found.support, found.mean_depth, found.mass, found.by_method) == (1.0, 0.04, 0.0, ())


def test_a_tapered_bed_is_exact_over_its_shape(sheet: Sheet) -> None:
    found = laid(sheet, Method.FULL_BED, area=area(rectangle(5, 4)), depth=Depth(0.03, 0.05))
    assert found.volume == pytest.approx(20 * 0.04)


def test_five_dabs_pressed_flat_fill_five_discs_of_the_same_mortar(sheet: Sheet) -> None:
    """Dabs 150 mm across laid 60 mm high, pressed to 40 mm: discs of √1.5 the diameter, by shapely."""
    found = laid(sheet, Method.SPOT_BED, dabs=Dabs(5, 0.15, 0.06))
    disc = shapely.Point(0, 0).buffer(0.075 * math.sqrt(1.5), quad_segs=400).area
    assert found.support == pytest.approx(5 * disc / 0.36, rel=1e-4)
    # 20 m2 hold 55.56 flags of 0.36 m2.
    assert found.volume == pytest.approx(20 / 0.36 * 5 * disc * 0.04, rel=1e-4)


def test_ribbons_are_the_frame_and_the_strip_across_that_shapely_cuts_out(sheet: Sheet) -> None:
    frame = shapely.box(0, 0, 0.9, 0.6).difference(shapely.box(0.075, 0.075, 0.825, 0.525))
    across = shapely.box(0.4, 0.075, 0.475, 0.525)
    assert ribbon_length(0.9, 0.6, 0.075) * 0.075 == pytest.approx(frame.union(across).area)
    found = laid(sheet, Method.RIBBON_BED, slab=Slab("flag", 0.6, 0.9, 0.05), ribbons=Ribbons(0.075, 0.05))
    assert found.support == pytest.approx(frame.union(across).area * 0.05 / 0.04 / 0.54)


def test_a_slab_turned_round_takes_the_same_ribbons() -> None:
    lying = laid(Sheet(), Method.RIBBON_BED, slab=Slab("flag", 0.9, 0.6, 0.05))
    standing = laid(Sheet(), Method.RIBBON_BED, slab=Slab("flag", 0.6, 0.9, 0.05))
    assert lying.volume == pytest.approx(standing.volume)


def test_joints_between_slabs_make_fewer_dabs(sheet: Sheet) -> None:
    tight, open_ = laid(sheet, Method.SPOT_BED), laid(sheet, Method.SPOT_BED, joint=0.01)
    assert open_.volume / tight.volume == pytest.approx(0.36 / 0.61**2)
    assert open_.support == tight.support


def test_the_share_held_and_the_volume_agree_when_slabs_lie_tight() -> None:
    for method in (Method.SPOT_BED, Method.RIBBON_BED):
        found = laid(Sheet(), method)
        assert found.volume == pytest.approx(found.support * 20 * 0.04)


def test_sand_is_screeded_higher_by_what_compaction_takes_away(sheet: Sheet) -> None:
    found = laid(sheet, Method.SCREEDED, depth=Depth(0.03, 0.03))
    sand = material("sharp_sand")
    assert found.volume == pytest.approx(0.6)
    assert (found.mass_low, found.mass, found.mass_high) == pytest.approx((990, 1080, 1170))
    # The same mass lies loose in the screed: 20 m2 deeper by the surcharge.
    assert (0.03 + found.surcharge) * 20 * sand.loose_density.value == pytest.approx(found.mass)
    assert found.loose_volume == pytest.approx((0.03 + found.surcharge) * 20)


def test_another_material_may_be_screeded(sheet: Sheet) -> None:
    laid(sheet, Method.SCREEDED, screed=material("grit"))
    assert {"grit compacted density", "grit loose density"} <= set(sheet.assumptions)


def test_what_each_method_uses_stands_side_by_side_when_the_slab_is_known(sheet: Sheet) -> None:
    found = laid(sheet, Method.FULL_BED)
    uses = {use.method: use for use in found.by_method}
    assert list(uses) == list(Method)
    for method, use in uses.items():
        alone = laid(Sheet(), method)
        assert (use.volume, use.support) == (alone.volume, alone.support)
    assert uses[Method.SPOT_BED].volume < uses[Method.RIBBON_BED].volume < uses[Method.FULL_BED].volume
    assert [step.figure for step in sheet.steps] == ["volume"]


def test_a_method_that_cannot_be_done_is_left_out_of_the_table(sheet: Sheet) -> None:
    found = laid(sheet, Method.FULL_BED, slab=BLOCK)
    assert [use.method for use in found.by_method] == [Method.FULL_BED, Method.SCREEDED]


@pytest.mark.parametrize("method", [Method.SPOT_BED, Method.RIBBON_BED])
def test_spots_and_ribbons_without_a_slab_are_refused(sheet: Sheet, method: Method) -> None:
    with pytest.raises(OutOfRange, match="give the size of the slab") as refusal:
        laid(sheet, method, slab=None)
    assert refusal.value.place == ("slab",)


@pytest.mark.parametrize(
    ("method", "more", "place"),
    [
        (Method.SPOT_BED, {"slab": BLOCK}, ("dabs",)),
        (Method.SPOT_BED, {"dabs": Dabs(depth=0.03)}, ("dabs", "depth")),
        (Method.SPOT_BED, {"dabs": Dabs(per_slab=50)}, ("dabs",)),
        (Method.RIBBON_BED, {"slab": BLOCK}, ("ribbons",)),
        (Method.RIBBON_BED, {"slab": Slab("plank", 0.9, 0.15, 0.05)}, ("ribbons",)),
        (Method.RIBBON_BED, {"ribbons": Ribbons(depth=0.01)}, ("ribbons", "depth")),
        (Method.RIBBON_BED, {"ribbons": Ribbons(width=0.25)}, ("ribbons",)),
        (Method.RIBBON_BED, {"ribbons": Ribbons(width=0.15, depth=0.15)}, ("ribbons",)),
        (Method.FULL_BED, {"depth": Depth(0.002, 0.002)}, ("depth",)),
        (Method.FULL_BED, {"depth": Depth(0.2, 0.2)}, ("depth",)),
        (Method.SCREEDED, {"depth": Depth(0.03, 0.16)}, ("depth_to",)),
    ],
)
def test_a_bed_that_cannot_be_laid_is_refused_with_its_place(
    sheet: Sheet, method: Method, more: dict[str, object], place: tuple[str, ...]
) -> None:
    with pytest.raises(OutOfRange) as refusal:
        laid(sheet, method, **more)
    assert refusal.value.place == place


@pytest.mark.parametrize(
    ("method", "depth", "cautioned"),
    [
        (Method.FULL_BED, Depth(0.024, 0.024), True),
        (Method.FULL_BED, Depth(0.025, 0.05), False),
        (Method.FULL_BED, Depth(0.04, 0.06), True),
        (Method.SCREEDED, Depth(0.019, 0.03), True),
        (Method.SCREEDED, Depth(0.02, 0.04), False),
        (Method.SCREEDED, Depth(0.05, 0.05), True),
    ],
)
def test_a_bed_thinner_or_thicker_than_usual_is_cautioned(
    sheet: Sheet, method: Method, depth: Depth, cautioned: bool
) -> None:
    """Mortar 25 to 50 mm (BS 7533-4), sand 20 to 40 mm (IRC:SP:63), both quoted from memory."""
    laid(sheet, method, area=area(rectangle(5, 4)), depth=depth)
    assert ("bed_depth" in sheet.cautions) == cautioned


def test_a_tapered_bed_out_of_the_usual_is_cautioned_with_both_its_ends(sheet: Sheet) -> None:
    laid(sheet, Method.FULL_BED, area=area(rectangle(5, 4)), depth=Depth(0.04, 0.06))
    assert sheet.cautions["bed_depth"].because.startswith("It is 40 to 60 mm; 25 to 50 mm is usual")


@pytest.mark.parametrize(
    ("method", "codes"),
    [
        (Method.FULL_BED, {"wet_cement", "cold"}),
        (Method.SPOT_BED, {"wet_cement", "cold", "partial_support"}),
        (Method.RIBBON_BED, {"wet_cement", "cold", "partial_support"}),
        (Method.SCREEDED, set()),
    ],
)
def test_each_method_carries_its_own_cautions(sheet: Sheet, method: Method, codes: set[str]) -> None:
    laid(sheet, method)
    assert set(sheet.cautions) == codes


def test_dabs_that_are_too_much_are_told_with_the_slab(sheet: Sheet) -> None:
    with pytest.raises(OutOfRange, match="under a slab of 200 x 100 mm"):
        laid(sheet, Method.SPOT_BED, slab=BLOCK)


def test_strips_that_leave_no_gap_are_told_with_the_slab(sheet: Sheet) -> None:
    with pytest.raises(OutOfRange, match="Strips 75 mm wide leave no gap under a slab of 200 x 100 mm"):
        laid(sheet, Method.RIBBON_BED, slab=BLOCK)


def test_the_share_that_is_held_is_told_in_percent(sheet: Sheet) -> None:
    # 5 discs of 150 mm by 1.5 in 600 x 600 mm: 0.1325 of 0.36 m2.
    laid(sheet, Method.SPOT_BED)
    assert sheet.cautions["partial_support"].because == "Only 37 % of each slab is held."


def test_dabs_that_stand_as_high_as_the_bed_just_touch_the_slab(sheet: Sheet) -> None:
    found = laid(sheet, Method.SPOT_BED, dabs=Dabs(5, 0.15, 0.04))
    assert found.support == pytest.approx(5 * math.pi * 0.075**2 / 0.36)
    with pytest.raises(OutOfRange, match=r"^Laid 39 mm high they don't reach a slab 40 mm up"):
        laid(sheet, Method.SPOT_BED, dabs=Dabs(5, 0.15, 0.039))


def test_given_dabs_are_named_as_given(sheet: Sheet) -> None:
    laid(sheet, Method.SPOT_BED, dabs=Dabs(per_slab=9, diameter=0.12))
    assert sheet.assumptions["dabs_per_slab"].basis == "given"
    assert sheet.assumptions["dab_diameter"].value == 0.12
    assert sheet.assumptions["height_as_laid"].basis == "common practice"
