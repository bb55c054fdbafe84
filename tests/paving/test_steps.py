"""Steps: their limits, and their bodies block by block."""

import pytest

from service.paving.errors import OutOfRange
from service.paving.sheets import Sheet
from service.paving.steps import StepJob, StepKind, Steps, TreadSlab, steps

TREAD = TreadSlab(0.6, 0.06, 0.01)


def drawn(
    rise: float,
    kind: StepKind = StepKind.GARDEN,
    width: float = 1.2,
    risers: int | None = None,
    going: float | None = None,
) -> Steps:
    return steps(Sheet(), StepJob(rise, width, kind, TREAD, risers, going))


@pytest.mark.parametrize(
    ("kind", "rise", "risers"),
    [
        (StepKind.GARDEN, 0.54, 3),
        (StepKind.APPROACH, 0.45, 3),
        (StepKind.APPROACH, 0.46, 4),
        (StepKind.PRIVATE_STAIR, 0.66, 3),
        (StepKind.GENERAL_STAIR, 0.51, 3),
    ],
)
def test_as_few_risers_as_the_kind_allows_share_the_height_evenly(kind: StepKind, rise: float, risers: int) -> None:
    found = drawn(rise, kind)
    assert found.risers == risers
    assert found.rise * risers == pytest.approx(rise)
    assert found.treads == risers - 1


def test_two_rises_and_a_going_are_a_pace_where_the_limits_allow() -> None:
    # 2 x 150 + 330 mm
    assert drawn(0.45).going == pytest.approx(0.33)
    assert drawn(0.45).pace == pytest.approx(0.63)
    # 2 x 220 leave 190 mm; 220 is the least of a private stair.
    assert drawn(0.66, StepKind.PRIVATE_STAIR).going == pytest.approx(0.22)


@pytest.mark.parametrize("risers", [3, 4, 5])
def test_the_core_is_the_blocks_under_each_tread(risers: int) -> None:
    found = drawn(0.5, risers=risers)
    blocks = sum(found.going * 1.2 * (k * found.rise - TREAD.thickness) for k in range(1, found.treads + 1))
    assert found.core == pytest.approx(blocks)
    assert found.length == pytest.approx(found.treads * found.going)
    assert found.tread_area == pytest.approx(found.length * 1.2)
    assert found.riser_length == pytest.approx(risers * 1.2)


def test_treads_are_covered_with_a_cut_slab_at_the_end_of_each() -> None:
    # 1.3 m: two slabs of 600 mm and their joints, and 80 mm of a third.
    found = drawn(0.45, width=1.3)
    assert (found.slabs, found.cut) == (6, 2)
    whole = drawn(0.45, width=1.21)
    assert (whole.slabs, whole.cut) == (4, 0)


def test_one_riser_has_no_tread_of_its_own() -> None:
    found = drawn(0.15)
    assert (found.risers, found.treads, found.length, found.core, found.slabs) == (1, 0, 0, 0, 0)


def refused(*asked: object, **named: object) -> OutOfRange:
    with pytest.raises(OutOfRange) as error:
        drawn(*asked, **named)  # type: ignore[arg-type]
    return error.value


def test_a_height_that_no_even_rise_makes_up_is_refused() -> None:
    error = refused(0.2, StepKind.GENERAL_STAIR)
    assert error.place == ("rise",)
    assert "150 to 170 mm makes up 200 mm" in error.detail
    assert refused(0.06).place == ("rise",)


def test_risers_too_high_or_too_low_are_refused_with_those_that_fit() -> None:
    error = refused(0.5, risers=2)
    assert error.place == ("risers",)
    assert "250 mm each" in error.detail
    assert "give 3 to 5" in error.detail


@pytest.mark.parametrize("going", [0.27, 0.61])
def test_a_going_outside_its_limits_is_refused(going: float) -> None:
    error = refused(0.45, going=going)
    assert error.place == ("going",)
    assert "give 280 to 600 mm" in error.detail


def test_a_tread_as_thick_as_its_rise_is_refused() -> None:
    with pytest.raises(OutOfRange, match="thinner than the rise, 150 mm") as error:
        steps(Sheet(), StepJob(0.3, 1.2, StepKind.GARDEN, TreadSlab(0.6, 0.15, 0.01)))
    assert error.value.place == ("tread",)


def cautions(
    rise: float,
    kind: StepKind = StepKind.GARDEN,
    width: float = 1.2,
    risers: int | None = None,
    going: float | None = None,
) -> set[str]:
    sheet = Sheet()
    steps(sheet, StepJob(rise, width, kind, TREAD, risers, going))
    return set(sheet.cautions) - {"local_codes"}


def test_easy_steps_raise_no_caution_of_their_own() -> None:
    assert cautions(0.3) == set()


def test_a_single_step_a_handrail_and_a_high_flight_are_cautioned() -> None:
    assert cautions(0.15) == {"single_step"}
    assert cautions(0.45) == {"step_handrail"}
    assert cautions(1.81) == {"step_handrail", "long_flight"}
    assert cautions(1.8) == {"step_handrail"}


def test_a_broken_stride_is_cautioned() -> None:
    assert "step_pace" in cautions(0.3, going=0.6)
    assert "step_pace" not in cautions(0.3, going=0.4)


def test_narrow_steps_to_a_door_are_cautioned_and_in_the_garden_are_not() -> None:
    assert "narrow_approach" in cautions(0.3, StepKind.APPROACH, width=0.8)
    assert "narrow_approach" not in cautions(0.3, width=0.8)
