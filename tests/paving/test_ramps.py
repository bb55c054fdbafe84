"""Ramps by the published limits, and their bodies slice by slice."""

import math

import pytest

from service.paving.errors import OutOfRange
from service.paving.ramps import Ramp, RampJob, RampKind, ramp
from service.paving.sheets import Sheet


def drawn(rise: float, kind: RampKind = RampKind.DWELLING, gradient: float | None = None, **job: float) -> Ramp:
    return ramp(Sheet(), RampJob(rise, job.get("width", 1.2), kind, gradient, job.get("room")))


@pytest.mark.parametrize(
    ("row", "rise", "gradient", "flights"),
    [
        ("BASE-53: up to 5 m, 1 in 12", 5 / 12, 1 / 12, 1),
        ("BASE-54: 5 to 10 m, 1 in 15", 0.5, 1 / 15, 1),
        ("BASE-54: 10 m are 667 mm", 10 / 15, 1 / 15, 1),
        ("more takes two flights, at 1 in 12 as long as they fit", 0.7, 1 / 12, 2),
    ],
)
def test_a_ramp_to_a_dwelling_takes_the_steepest_that_needs_fewest_flights(
    row: str, rise: float, gradient: float, flights: int
) -> None:
    found = drawn(rise)
    assert found.gradient == pytest.approx(gradient)
    assert found.flights == flights
    assert found.flights * found.flight_length == pytest.approx(rise / gradient)


@pytest.mark.parametrize(
    ("gradient", "rise", "flights"),
    [(1 / 12, 0.5, 2), (1 / 13, 0.5, 2), (1 / 15, 0.5, 1), (1 / 18, 0.9, 2), (1 / 20, 0.9, 1), (1 / 40, 2.0, 1)],
)
def test_a_gradient_asked_for_is_split_into_flights_of_its_own_limit(
    gradient: float, rise: float, flights: int
) -> None:
    assert drawn(rise, gradient=gradient).flights == flights


def test_a_flight_to_another_building_rises_500_mm_and_goes_10_m_at_most() -> None:
    # BASE-56
    found = drawn(0.5, RampKind.OTHER_BUILDING, 1 / 20)
    assert (found.flights, found.flight_length) == (1, pytest.approx(10.0))
    assert drawn(0.51, RampKind.OTHER_BUILDING, 1 / 20).flights == 2
    for rise in (0.1, 0.3, 0.5, 0.8, 1.4):
        split = drawn(rise, RampKind.OTHER_BUILDING)
        assert split.flight_rise <= 0.5 + 1e-9
        assert split.flight_length <= 10 + 1e-9


def test_flatter_than_1_in_20_is_no_ramp_and_needs_no_flights() -> None:
    assert drawn(1.0, RampKind.OTHER_BUILDING, 1 / 30).flights == 1


def test_the_slope_is_longer_than_the_plan() -> None:
    # GEOM-24: 6 m on plan at 1 in 12 are 6.0208 m.
    found = drawn(0.5, gradient=1 / 12)
    assert found.flights * found.slope_length == pytest.approx(6.0208, abs=1e-4)


@pytest.mark.parametrize(("one_in", "percent", "degrees"), [(12, 8.333, 4.764), (15, 6.667, 3.814), (20, 5.0, 2.862)])
def test_a_gradient_is_the_percentage_and_angle_that_are_printed(one_in: int, percent: float, degrees: float) -> None:
    # GEOM-09, GEOM-10 and GEOM-11
    found = drawn(0.3, gradient=1 / one_in)
    assert found.gradient * 100 == pytest.approx(percent, abs=0.001)
    angle = math.degrees(math.atan2(found.flight_rise, found.flight_length))
    assert angle == pytest.approx(degrees, abs=0.001)


@pytest.mark.parametrize(("rise", "gradient"), [(0.4, 1 / 12), (0.9, 1 / 12), (1.9, 1 / 15)])
def test_the_body_is_what_thin_slices_add_up_to(rise: float, gradient: float) -> None:
    found = drawn(rise, gradient=gradient, width=1.5)
    step, volume = 0.001, 0.0
    for flight in range(found.flights):
        bottom = flight * found.flight_rise
        slices = round(found.flight_length / step)
        width = found.flight_length / slices
        volume += sum(bottom + (k + 0.5) * width * gradient for k in range(slices)) * width * 1.5
        if flight:
            volume += bottom * 1.2 * 1.5
    assert found.body == pytest.approx(volume, rel=1e-9)
    landings = (found.flights - 1) * 1.2
    assert found.length == pytest.approx(found.flights * found.flight_length + landings)
    assert found.paved_area == pytest.approx((found.flights * found.slope_length + landings) * 1.5)


@pytest.mark.parametrize(
    ("kind", "gradient", "most"),
    [
        (RampKind.DWELLING, 1 / 11, "1 in 12"),
        (RampKind.OTHER_BUILDING, 1 / 8, "1 in 12"),
        (RampKind.DRIVE, 1 / 5, "1 in 6"),
    ],
)
def test_a_ramp_too_steep_is_refused_with_the_length_it_needs(kind: RampKind, gradient: float, most: str) -> None:
    with pytest.raises(OutOfRange, match=f"{most} is the most here") as refused:
        drawn(0.6, kind, gradient)
    assert refused.value.place == ("gradient",)
    assert f"needs {0.6 * float(most.rpartition(' ')[2]):.2f} m" in refused.value.detail


def test_a_ramp_longer_than_its_room_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"needs 7\.50 m on plan and there are 6 m") as refused:
        drawn(0.5, room=6.0)
    assert refused.value.place == ("room",)
    assert drawn(0.5, room=7.5).length == pytest.approx(7.5)


def cautions(
    rise: float, kind: RampKind = RampKind.DWELLING, gradient: float | None = None, width: float = 1.2
) -> set[str]:
    sheet = Sheet()
    ramp(sheet, RampJob(rise, width, kind, gradient))
    return set(sheet.cautions)


def test_a_drive_steeper_than_1_in_10_wants_flatter_ends() -> None:
    # BASE-04 and BASE-05
    assert cautions(1.0, RampKind.DRIVE) == set()
    assert drawn(1.0, RampKind.DRIVE).gradient == pytest.approx(0.1)
    assert cautions(1.0, RampKind.DRIVE, 1 / 6) == {"drive_transition"}


def test_up_to_600_mm_a_ramp_needs_no_handrail() -> None:
    # BASE-58
    assert "handrail" not in cautions(0.6)
    assert "handrail" in cautions(0.61)


def test_a_gentle_slope_is_no_ramp() -> None:
    # BASE-50 and BASE-51
    assert "ramp" not in cautions(0.9, gradient=1 / 20)
    assert "ramp" in cautions(0.5, gradient=1 / 19)


def test_a_narrow_ramp_is_cautioned() -> None:
    assert "narrow_approach" in cautions(0.3, width=0.89)
    assert "narrow_approach" not in cautions(0.3, width=0.9)
