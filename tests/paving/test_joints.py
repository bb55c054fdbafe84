"""Joints: their share, length, volume and mass, against geometry worked elsewhere."""

import pytest
import shapely

from service.paving.errors import OutOfRange
from service.paving.gaps import joint_length_in_area, joint_share
from service.paving.joints import Filler, Joints, filler_density, joint_fill, joint_fill_area
from service.paving.sheets import Sheet

SAND = filler_density(Filler.DRIED_SAND)


def filled(sheet: Sheet, filler: Filler, width: float = 0.01, depth: float = 0.04, length: float = 100.0) -> Joints:
    return joint_fill(sheet, length, width, depth, filler, filler_density(filler))


@pytest.mark.parametrize(("thickness", "litres"), [(0.06, 2.608), (0.08, 3.478)])
def test_blocks_of_200_by_100_with_3_mm_joints_are_4_347_percent_joint(
    sheet: Sheet, thickness: float, litres: float
) -> None:
    """1 - lw / ((l + j)(w + j)): 4.347 %, and 2.608 or 3.478 l/m2 to the full depth."""
    share = joint_share(0.2, 0.1, 0.003)
    assert share * 100 == pytest.approx(4.347, abs=0.001)
    found = joint_fill_area(sheet, share, 15.0, thickness, Filler.DRIED_SAND, SAND)
    assert found.volume * 1000 == pytest.approx(litres, rel=1e-3)


@pytest.mark.parametrize(("length", "width", "metres"), [(0.2, 0.1, 15), (0.6, 0.6, 3.333), (0.9, 0.6, 2.778)])
def test_thin_joints_run_one_over_length_plus_one_over_width(length: float, width: float, metres: float) -> None:
    assert joint_length_in_area(1.0, length, width, 0.0) == pytest.approx(metres, abs=0.001)


@pytest.mark.parametrize(("length", "width", "joint"), [(0.6, 0.6, 0.01), (0.2, 0.1, 0.003), (0.9, 0.45, 0.02)])
def test_the_share_of_joint_is_what_shapely_leaves_between_slabs(length: float, width: float, joint: float) -> None:
    paving = shapely.box(0, 0, 4 * (length + joint), 5 * (width + joint))
    slabs = [
        shapely.box(
            i * (length + joint), k * (width + joint), i * (length + joint) + length, k * (width + joint) + width
        )
        for i in range(4)
        for k in range(5)
    ]
    gaps = paving.difference(shapely.union_all(slabs)).area
    assert joint_share(length, width, joint) * paving.area == pytest.approx(gaps)
    # Each crossing once: length times width of the joint is its area.
    assert joint_length_in_area(paving.area, length, width, joint) * joint == pytest.approx(gaps)


def test_a_hundred_metres_of_10_by_40_mm_joint_hold_40_litres(sheet: Sheet) -> None:
    found = filled(sheet, Filler.JOINTING_COMPOUND)
    assert found.volume * 1000 == pytest.approx(40)
    # 1.7 t/m3 in place, 1.5 to 1.9 (common practice).
    assert (found.mass_low, found.mass, found.mass_high) == pytest.approx((60, 68, 76))
    assert found.joint_length == 100


def test_a_joint_measured_by_its_area_takes_as_much_as_one_measured_by_its_length(sheet: Sheet) -> None:
    by_length = filled(sheet, Filler.MORTAR)
    by_area = joint_fill_area(sheet, 1.0, 100.0, 0.04, Filler.MORTAR, filler_density(Filler.MORTAR), width=0.01)
    assert by_area == by_length


@pytest.mark.parametrize(
    ("width", "depth", "place"),
    [
        (0.00001, 0.04, "width"),
        (0.0004, 0.04, "width"),
        (0.07, 0.04, "width"),
        (0.01, 0.001, "depth"),
        (0.01, 0.5, "depth"),
    ],
)
def test_a_joint_no_one_fills_is_refused_with_its_place(sheet: Sheet, width: float, depth: float, place: str) -> None:
    with pytest.raises(OutOfRange, match="No joint is filled") as refusal:
        filled(sheet, Filler.MORTAR, width, depth)
    assert refusal.value.place == (place,)


def test_a_refused_joint_is_told_with_its_limits_in_millimetres(sheet: Sheet) -> None:
    with pytest.raises(OutOfRange, match=r"^No joint is filled 70 mm wide: give 0\.5 to 60 mm\.$"):
        filled(sheet, Filler.MORTAR, 0.07)


@pytest.mark.parametrize(("width", "depth"), [(0.0005, 0.04), (0.06, 0.04), (0.01, 0.002), (0.01, 0.4)])
def test_the_limits_of_a_joint_can_still_be_filled(sheet: Sheet, width: float, depth: float) -> None:
    assert filled(sheet, Filler.MORTAR, width, depth).volume == pytest.approx(100 * width * depth)


def test_a_joint_known_by_its_area_is_refused_at_its_depth(sheet: Sheet) -> None:
    with pytest.raises(OutOfRange, match="deep") as refusal:
        joint_fill_area(sheet, 1.0, 100.0, 0.5, Filler.DRIED_SAND, SAND)
    assert refusal.value.place == ("depth",)


@pytest.mark.parametrize(
    ("filler", "width", "cautioned"),
    [
        (Filler.DRIED_SAND, 0.0019, True),
        (Filler.DRIED_SAND, 0.002, False),
        (Filler.DRIED_SAND, 0.005, False),
        (Filler.DRIED_SAND, 0.008, True),
        (Filler.MORTAR, 0.003, True),
        (Filler.MORTAR, 0.01, False),
        (Filler.JOINTING_COMPOUND, 0.005, False),
        (Filler.JOINTING_COMPOUND, 0.03, True),
    ],
)
def test_a_joint_too_narrow_or_too_wide_for_its_filler_is_cautioned(
    sheet: Sheet, filler: Filler, width: float, cautioned: bool
) -> None:
    """Sand-filled joints are 2 to 5 mm wide (ICPI); the others are common practice."""
    filled(sheet, filler, width)
    assert ("joint_width" in sheet.cautions) == cautioned


def test_a_layout_says_how_wide_its_joints_are_to_be_cautioned(sheet: Sheet) -> None:
    joint_fill_area(sheet, 1.0, 100.0, 0.04, Filler.DRIED_SAND, SAND, width=0.01)
    assert sheet.cautions["joint_width"].because.endswith("joints of 2 to 5 mm; this one is 10 mm.")


@pytest.mark.parametrize(
    ("filler", "codes"),
    [
        (Filler.MORTAR, ["wet_cement", "cold"]),
        (Filler.DRIED_SAND, ["joint_width", "brushing_dust"]),
        (Filler.JOINTING_COMPOUND, []),
    ],
)
def test_each_filler_carries_its_own_cautions(sheet: Sheet, filler: Filler, codes: list[str]) -> None:
    filled(sheet, filler)
    assert list(sheet.cautions) == codes


def test_a_given_density_is_named_and_leaves_no_spread(sheet: Sheet) -> None:
    found = joint_fill(sheet, 10.0, 0.01, 0.04, Filler.MORTAR, filler_density(Filler.MORTAR).given(2000.0))
    assert found.mass_low == found.mass == found.mass_high == pytest.approx(8.0)
    assert sheet.assumptions["mortar compacted density"].basis == "given"
