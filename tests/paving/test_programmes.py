"""Programmes: hours by hand, waits that hands don't shorten, working days by the calendar."""

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.paving.errors import OutOfRange
from service.paving.joints import Filler
from service.paving.programmes import Gang, Programme, Waits, programme, usual_waits
from service.paving.reference import default
from service.paving.sheets import Sheet
from service.paving.stages import BedKind, Quantities, Stage, Task, usual_outputs
from service.paving.working_times import WorkingTimes

HOUR, DAY = 3600.0, 86400.0
#: Round outputs an hour, so that hours can be told at a glance.
OUTPUTS = usual_outputs(
    {
        Task.SET_OUT: 20 / HOUR,
        Task.DIG: 0.5 / HOUR,
        Task.SUB_BASE: 1 / HOUR,
        Task.COMPACT: 40 / HOUR,
        Task.EDGING: 4 / HOUR,
        Task.BED_MORTAR: 0.25 / HOUR,
        Task.SCREED: 0.5 / HOUR,
        Task.LAY: 2 / HOUR,
        Task.CUT: 10 / HOUR,
        Task.POINT_MORTAR: 5 / HOUR,
        Task.POINT_SAND: 50 / HOUR,
    }
)
#: 40 m2: 2 h to set out, 16 h to dig, 6 + 1 h of sub-base, 5 h of edging, 6 + 20 + 2 h to lay, 20 h to point.
JOB = Quantities(
    area=40, dig=8, sub_base=6, edging=20, haunched=0.8, bed=1.5, laid=40, cuts=20, joint=100, filler=Filler.MORTAR
)
ALL_HOURS = 2 + 16 + 7 + 5 + 28 + 20


def planned(
    quantities: Quantities = JOB,
    hands: int = 2,
    hours: float = 8,
    days: int = 5,
    starts_on: date | None = None,
    waits: Waits | None = None,
    temperature: float | None = None,
) -> Programme:
    gang = Gang(hands, hours * HOUR, days, starts_on)
    return programme(Sheet(), quantities, OUTPUTS, gang, waits or usual_waits(quantities.filler), temperature)


def hours_of(found: Programme) -> list[tuple[str, float, float, float]]:
    return [
        (str(stage.name), round(stage.starts / HOUR, 6), round(stage.ends / HOUR, 6), stage.wait / HOUR)
        for stage in found.stages
    ]


def test_two_hands_from_a_monday_take_the_hours_worked_out_by_hand() -> None:
    # Working hours are 0-8, 24-32, 48-56 ... of the clock; days 5 and 6 (120-168 h) are the weekend.
    assert hours_of(planned()) == [
        ("set_out", 0, 1, 0),
        ("dig", 1, 25, 0),  # 7 h on Monday, 1 on Tuesday
        ("sub_base", 25, 28.5, 0),
        ("edging", 28.5, 31, 24),
        ("lay", 55, 101, 24),  # 1 h on Wednesday, 8 on Thursday, 5 on Friday
        ("point", 168, 194, 24),  # set by Saturday, pointed 8 h on Monday and 2 on Tuesday
    ]


def test_the_milestones_follow_the_last_work() -> None:
    found = planned()
    last = found.stages[-1]
    assert found.pointing == found.stages[-1].starts
    assert found.work_ends == last.ends
    assert found.foot_traffic == last.ends + 24 * HOUR
    assert found.furniture == last.ends + 72 * HOUR
    assert found.labour == pytest.approx(ALL_HOURS * HOUR)


def test_a_day_before_pointing_and_a_day_before_walking_are_common_practice() -> None:
    waits = usual_waits(Filler.MORTAR)
    for wait in (waits.bed, waits.pointing):
        assert (wait.value, wait.basis, wait.source) == (DAY, "common practice", "")


def test_every_output_and_wait_is_common_practice_and_named_in_the_answer() -> None:
    sheet = Sheet()
    programme(sheet, JOB, usual_outputs(), Gang(2, 8 * HOUR, 5), usual_waits(Filler.MORTAR))
    assert {"dig", "lay", "cut", "bed_wait", "mortar_wait", "haunch_wait", "furniture_wait"} <= set(sheet.assumptions)
    assert {entry.basis for entry in sheet.assumptions.values()} == {"common practice"}


def test_twice_the_hands_halve_the_work_and_leave_the_waits() -> None:
    two, four = planned(hands=2), planned(hands=4)
    assert four.labour == two.labour
    for few, many in zip(two.stages, four.stages, strict=True):
        assert many.wait == few.wait
        # No more than two set out; all else is shared by four.
        assert many.work == pytest.approx(few.work / (1 if few.name is Stage.SET_OUT else 2))


def test_a_hundred_hands_never_beat_the_waits() -> None:
    assert planned(hands=100).foot_traffic > 3 * 24 * HOUR
    assert planned(hands=100) == replace(planned(hands=4), stages=planned(hands=100).stages)


def test_dried_sand_on_a_screeded_bed_waits_for_nothing() -> None:
    found = planned(replace(JOB, bed_kind=BedKind.SCREEDED, filler=Filler.DRIED_SAND, edging=0, haunched=0))
    assert all(stage.wait == 0 for stage in found.stages)
    assert found.foot_traffic == found.furniture == found.work_ends


def test_an_edging_without_concrete_sets_nothing() -> None:
    edging = next(stage for stage in planned(replace(JOB, haunched=0)).stages if stage.name is Stage.EDGING)
    assert edging.wait == 0


def test_a_stage_with_nothing_to_do_is_left_out() -> None:
    found = planned(Quantities(area=10, laid=10, joint=0))
    assert [stage.name for stage in found.stages] == [Stage.SET_OUT, Stage.LAY]
    assert found.pointing is None


def test_every_lift_is_compacted_on_its_own() -> None:
    one, three = (
        next(s for s in planned(replace(JOB, lifts=lifts)).stages if s.name is Stage.SUB_BASE).labour
        for lifts in (1, 3)
    )
    assert three - one == pytest.approx(2 * 40 / 40 * HOUR)


def test_cold_lengthens_the_waits_and_not_the_work() -> None:
    warm, cold = planned(), planned(temperature=2.5)
    for before, after in zip(warm.stages, cold.stages, strict=True):
        assert after.work == before.work
        # 2.5 °C lies half as far above -10 °C as 15 °C does.
        assert after.wait == pytest.approx(2 * before.wait)


def test_dates_follow_the_calendar_and_pass_the_weekend() -> None:
    # The third of March 2027 is a Wednesday.
    found = planned(starts_on=date(2027, 3, 3))
    days = {str(stage.name): (stage.starts_on, stage.ends_on) for stage in found.stages}
    assert days["dig"] == (date(2027, 3, 3), date(2027, 3, 4))
    assert days["lay"] == (date(2027, 3, 5), date(2027, 3, 9))
    for stage in found.stages:
        assert stage.starts_on is not None
        assert stage.starts_on.weekday() < 5
    assert found.foot_traffic_on == date(2027, 3, 3) + timedelta(seconds=found.foot_traffic)


def test_a_start_on_a_sunday_begins_on_monday() -> None:
    found = planned(starts_on=date(2027, 3, 7))
    assert found.stages[0].starts == DAY
    assert found.stages[0].starts_on == date(2027, 3, 8)


@pytest.mark.parametrize(("days", "longer"), [(7, False), (6, True)])
def test_a_week_of_seven_days_has_no_weekend(days: int, longer: bool) -> None:
    seven = planned(Quantities(area=10, laid=400), hands=4, days=7)
    found = planned(Quantities(area=10, laid=400), hands=4, days=days)
    assert (found.work_ends > seven.work_ends) is longer


@given(
    start=st.floats(0, 30 * DAY),
    work=st.floats(60, 200 * HOUR),
    hours=st.integers(1, 16),
    days=st.integers(1, 7),
    weekday=st.integers(0, 6),
)
@settings(max_examples=200, deadline=None)
def test_spells_add_up_to_the_work_and_keep_to_working_hours(
    start: float, work: float, hours: int, days: int, weekday: int
) -> None:
    spells = list(WorkingTimes(hours * HOUR, days, weekday).spells(start, work))
    assert sum(spell.end - spell.start for spell in spells) == pytest.approx(work, rel=1e-6)
    assert spells[0].start >= start
    for spell in spells:
        day, into = divmod(Fraction(spell.start), 86400)
        assert (weekday + day) % 7 < days
        assert into >= 0
        assert Fraction(spell.end) - 86400 * day <= Fraction(hours * 3600) * (1 + Fraction(1, 10**8))
    for before, after in pairwise(spells):
        assert after.start >= before.end


def cautions(waits: Waits) -> dict[str, str]:
    sheet = Sheet()
    programme(sheet, JOB, OUTPUTS, Gang(2, 8 * HOUR, 5), waits)
    return {code: raised.because for code, raised in sheet.cautions.items()}


@pytest.mark.parametrize("name", ["edging", "bed", "pointing", "furniture"])
def test_a_cure_shorter_than_the_least_is_cautioned(name: str) -> None:
    usual = usual_waits(Filler.MORTAR)
    assert "short_cure" not in cautions(usual)
    short = replace(usual, **{name: getattr(usual, name).given(12 * HOUR)})
    assert "is 12 h" in cautions(short)["short_cure"]


def test_every_stage_says_what_weather_stops_it() -> None:
    assert all(stage.stopped_by for stage in planned().stages)
    lay = next(stage for stage in planned().stages if stage.name is Stage.LAY)
    assert "3 °C and falling" in lay.stopped_by


def test_a_job_no_gang_of_this_size_ends_is_refused() -> None:
    with pytest.raises(OutOfRange, match="more hands than 1") as refused:
        planned(Quantities(area=10, dig=10_000), hands=1)
    assert refused.value.place == ("gang",)
    assert default("programmes", "longest").value == 7300 * HOUR


def test_too_cold_to_set_is_refused() -> None:
    with pytest.raises(OutOfRange, match="hardly sets") as refused:
        planned(temperature=0.5)
    assert refused.value.place == ("temperature",)
