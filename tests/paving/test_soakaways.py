"""Soakaways: the trial pit and the small storm as published, the sizing by walking through a storm."""

from dataclasses import replace

import pytest

from service.paving.errors import OutOfRange
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet
from service.paving.soakaways import Pit, Soakaway, Storm, soakaway, usual_storm
from service.paving.trial_pits import TrialPit

TRIAL = TrialPit(1.2, 0.6, 1.0, 3600.0)
STONE = default("soakaways", "voids")
PIT = Pit(1.5, 0.6, 1.0, STONE, 6.0)


def takes(rate: float) -> Assumption:
    return Assumption("infiltration", rate, "m/s", rate, rate, "given", "")


def held(area: float = 25.0, pit: Pit = PIT, rate: float = 4e-5, storm: Storm | None = None) -> Soakaway:
    return soakaway(Sheet(), area, takes(rate), pit, storm or Storm(0.010, 300.0))


def test_the_trial_pit_gives_the_published_rate() -> None:
    # DRAIN-24 and DRAIN-25: 0.36 m3 fall in an hour, 3.968e-5 m/s.
    sheet = Sheet()
    found = soakaway(sheet, 20.0, TRIAL, PIT, usual_storm(20.0))
    assert found.infiltration == pytest.approx(3.968e-5, rel=0.005)
    assert next(step.value for step in sheet.steps if step.figure == "fallen_volume") == pytest.approx(0.36, rel=0.005)


def test_a_small_storm_on_25_square_metres_brings_a_quarter_of_a_cubic_metre() -> None:
    # DRAIN-35
    assert soakaway(Sheet(), 25.0, takes(1e-5), PIT, usual_storm(25.0)).inflow == pytest.approx(0.25, rel=1e-12)


def test_above_25_square_metres_the_local_storm_must_be_given() -> None:
    with pytest.raises(OutOfRange, match="Above 25 m2") as refused:
        usual_storm(25.1)
    assert refused.value.place == ("storm",)


def walked_through(area: float, pit: Pit, rate: float, storm: Storm) -> float:
    """Greatest volume held while the storm falls second by second, the sides counted to half depth."""
    sides = 2 * (pit.length + pit.width) * pit.effective_depth / 2
    stored = 0.0
    for _ in range(int(storm.duration)):
        stored += area * storm.depth / storm.duration - sides * rate
    return stored


@pytest.mark.parametrize(("area", "rate"), [(25.0, 4e-5), (80.0, 1e-5), (10.0, 1e-6)])
def test_what_must_be_held_is_what_a_walk_through_the_storm_leaves(area: float, rate: float) -> None:
    storm = Storm(0.020, 1800.0)
    expected = walked_through(area, PIT, rate, storm)
    assert held(area, rate=rate, storm=storm).storage_needed == pytest.approx(expected, rel=1e-9)


def test_at_the_length_needed_the_soakaway_just_holds_the_storm() -> None:
    needed = held().length_needed
    just = held(pit=replace(PIT, length=needed))
    assert just.storage == pytest.approx(just.storage_needed, rel=1e-12)
    assert just.holds
    assert not held(pit=replace(PIT, length=needed * 0.99)).holds


def test_ground_that_takes_all_at_once_needs_no_soakaway() -> None:
    found = held(area=1.0, rate=1e-2)
    assert (found.storage_needed, found.length_needed) == (0, 0)


def test_half_of_it_drains_in_the_time_a_walk_takes() -> None:
    found, rate = held(rate=1e-5), 1e-5
    sides, left, seconds = 2.1 * 1.0, found.storage_needed, 0
    while left > found.storage_needed / 2:
        left, seconds = left - sides * rate, seconds + 1
    assert found.half_drain == pytest.approx(seconds, abs=1)


def cautions(area: float = 20.0, pit: Pit = PIT, rate: float = 4e-5, storm: Storm | None = None) -> set[str]:
    sheet = Sheet()
    soakaway(sheet, area, takes(rate), pit, storm or Storm(0.010, 300.0))
    return set(sheet.cautions)


def test_a_good_soakaway_raises_only_the_standing_caution() -> None:
    assert cautions() == {"local_codes"}


@pytest.mark.parametrize(
    ("code", "changed"),
    [
        ("soakaway_small", {"pit": replace(PIT, length=0.5)}),
        ("slow_ground", {"rate": 9e-7}),
        ("soakaway_area", {"area": 1001.0}),
        ("soakaway_near_house", {"pit": replace(PIT, from_foundations=4.9)}),
        ("soakaway_near_house", {"pit": replace(PIT, from_foundations=None)}),
        ("slow_half_drain", {"rate": 5e-7}),
    ],
)
def test_a_poor_soakaway_is_cautioned(code: str, changed: dict[str, object]) -> None:
    assert code in cautions(**changed)  # type: ignore[arg-type]


def test_at_the_published_limits_nothing_is_cautioned() -> None:
    # DRAIN-29, 31 and 34: 1e-6 m/s, 5 m, 1000 m2 are allowed.
    big = Pit(60.0, 2.0, 1.0, STONE, 5.0)
    assert cautions(1000.0, big, 1e-6) - {"slow_half_drain"} == {"local_codes"}
