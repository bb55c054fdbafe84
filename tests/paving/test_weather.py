"""Cold and curing against published rules, and where the rules differ."""

import pytest

from service.paving.curing import strengths, wait_in
from service.paving.errors import OutOfRange
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet
from service.paving.weather import Air, Binder, ColdRule, ColdWork, Trend, Work, cold_work

GO, STOP = Work.GO_ON, Work.STOP
DAY = 86400.0


def decisions(temperature: float, trend: Trend, expected: float | None = None) -> dict[ColdRule, Work]:
    found = cold_work(Sheet(), Air(temperature, trend, expected), Binder.CEMENT)
    return {decision.rule: decision.work for decision in found.decisions}


def test_2_degrees_and_falling_stops_under_nhbc_and_nbs() -> None:
    # COLD-11
    found = decisions(2.0, Trend.FALLING)
    assert found[ColdRule.NHBC_2023] is found[ColdRule.NBS_CEMENT] is STOP


def test_at_exactly_3_degrees_and_falling_the_rules_differ() -> None:
    # COLD-13: NBS stops at or below 3, NHBC below it.
    found = cold_work(Sheet(), Air(3.0, Trend.FALLING), Binder.CEMENT)
    said = {decision.rule: decision.work for decision in found.decisions}
    assert (said[ColdRule.NBS_CEMENT], said[ColdRule.NHBC_2023]) == (STOP, GO)
    assert not found.agreed
    assert found.work is STOP


@pytest.mark.parametrize(("temperature", "nhbc", "nbs"), [(3.1, GO, GO), (3.0, GO, STOP), (2.9, STOP, STOP)])
def test_the_rules_agree_on_either_side_of_3_degrees(temperature: float, nhbc: Work, nbs: Work) -> None:
    found = decisions(temperature, Trend.FALLING)
    assert (found[ColdRule.NHBC_2023], found[ColdRule.NBS_CEMENT]) == (nhbc, nbs)


@pytest.mark.parametrize(
    ("temperature", "expected", "work"),
    [(1.0, 4.0, GO), (0.9, 4.0, STOP), (1.0, 3.0, STOP), (1.0, None, STOP), (3.1, None, GO)],
)
def test_nhbc_starts_again_at_1_and_rising_if_more_than_3_is_to_come(
    temperature: float, expected: float | None, work: Work
) -> None:
    # COLD-02
    assert decisions(temperature, Trend.RISING, expected)[ColdRule.NHBC_2023] is work


@pytest.mark.parametrize(("temperature", "work"), [(1.0, GO), (0.9, STOP)])
def test_nbs_starts_again_at_1_and_rising(temperature: float, work: Work) -> None:
    # COLD-05
    assert decisions(temperature, Trend.RISING)[ColdRule.NBS_CEMENT] is work


@pytest.mark.parametrize(
    ("temperature", "expected", "work"), [(2.0, None, GO), (1.9, None, STOP), (6.0, 1.0, STOP), (6.0, 2.0, GO)]
)
def test_the_older_nhbc_stops_below_2_or_if_that_is_likely(
    temperature: float, expected: float | None, work: Work
) -> None:
    # COLD-03
    assert decisions(temperature, Trend.FALLING, expected)[ColdRule.NHBC_2020] is work


@pytest.mark.parametrize(
    ("temperature", "trend", "work"),
    [(5.0, Trend.FALLING, STOP), (5.1, Trend.FALLING, GO), (3.0, Trend.RISING, GO), (2.9, Trend.RISING, STOP)],
)
def test_hydraulic_lime_stops_at_5_and_starts_again_at_3(temperature: float, trend: Trend, work: Work) -> None:
    # COLD-07
    assert cold_work(Sheet(), Air(temperature, trend), Binder.HYDRAULIC_LIME).work is work


def asked(air: Air) -> tuple[ColdWork, Sheet]:
    sheet = Sheet()
    return cold_work(sheet, air, Binder.CEMENT), sheet


def test_new_work_is_kept_from_frost_for_up_to_six_days() -> None:
    # COLD-04
    found, sheet = asked(Air(6.0, Trend.FALLING, -2.0))
    assert found.protection == 6 * DAY
    assert "protect_from_frost" in sheet.cautions
    assert "protect_from_frost" not in asked(Air(6.0, Trend.FALLING, 1.0))[1].cautions


def test_fresh_concrete_is_no_colder_than_5_degrees() -> None:
    # COLD-08
    assert asked(Air(6.0, Trend.FALLING))[1].assumptions["concrete_as_delivered"].value == 5


def test_a_stop_is_cautioned_and_says_whether_the_rules_agree() -> None:
    assert "The rules differ" in asked(Air(3.0, Trend.FALLING))[1].cautions["stop_for_cold"].because
    assert "Every rule says stop" in asked(Air(1.0, Trend.FALLING))[1].cautions["stop_for_cold"].because
    assert "stop_for_cold" not in asked(Air(8.0, Trend.FALLING))[1].cautions


def test_concrete_gains_strength_as_common_practice_has_it() -> None:
    # COLD-10: 30 to 35, 65 to 70 and 90 per cent at 3, 7 and 14 days, give or take five.
    found = {strength.age / DAY: strength for strength in strengths()}
    assert (found[3].low, found[3].high) == (0.30, 0.35)
    assert (found[7].low, found[7].high) == (0.65, 0.70)
    assert found[14].share == 0.90


WAIT = Assumption("wait", DAY, "s", DAY, DAY, "common practice", "")


def test_half_as_warm_above_the_datum_takes_twice_as_long() -> None:
    # 15 °C lies 25 above -10 °C, 2.5 °C half as far.
    assert wait_in(Sheet(), "wait", WAIT, 2.5) == pytest.approx(2 * DAY)


@pytest.mark.parametrize("temperature", [None, 15.0, 28.0])
def test_warmth_shortens_no_wait(temperature: float | None) -> None:
    assert wait_in(Sheet(), "wait", WAIT, temperature) == DAY


def test_no_wait_stays_none_however_cold() -> None:
    assert wait_in(Sheet(), "wait", WAIT.given(0.0), 0.0) == 0


def test_cement_that_hardly_sets_is_refused() -> None:
    assert default("curing", "coldest").value == 1
    with pytest.raises(OutOfRange, match="hardly sets") as refused:
        wait_in(Sheet(), "wait", WAIT, 0.9)
    assert refused.value.place == ("temperature",)
