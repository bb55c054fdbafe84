"""Vibration against the published reckoner."""

import pytest

from service.paving.reference import Assumption
from service.paving.sheets import Sheet
from service.paving.vibration import DayExposure, Exposure, ToolUse, day_exposure, tool_vibration

HOUR = 3600.0


def day(*uses: tuple[float, float]) -> DayExposure:
    """A day with tools of so many m/s2, held for so many hours."""
    return day_exposure(
        Sheet(),
        [
            ToolUse(f"tool {k}", Assumption(f"a{k}", a, "m/s2", a, a, "given", ""), h * HOUR)
            for k, (a, h) in enumerate(uses)
        ],
    )


@pytest.mark.parametrize(
    ("row", "acceleration", "hours", "points"),
    [("SAFE-03 and SAFE-04", 5.0, 3.0, 150.0), ("SAFE-08", 6.0, 2.0, 144.0)],
)
def test_points_are_those_of_the_reckoner(row: str, acceleration: float, hours: float, points: float) -> None:
    assert day((acceleration, hours)).points == pytest.approx(points, rel=1e-12)


def test_a_tool_of_7_reaches_action_and_limit_in_the_published_times() -> None:
    # SAFE-06
    (tool,) = day((7.0, 1.0)).tools
    assert tool.time_to_action / HOUR == pytest.approx(1.02, abs=0.01)
    assert tool.time_to_limit / HOUR == pytest.approx(4.08, abs=0.01)


def test_two_tools_in_a_day_add_up_to_the_action_value() -> None:
    # SAFE-07: 5 m/s2 for an hour and 10 m/s2 for a quarter.
    found = day((5.0, 1.0), (10.0, 0.25))
    assert [tool.points for tool in found.tools] == pytest.approx([50.0, 50.0])
    assert found.points == pytest.approx(100.0)
    assert found.exposure is Exposure.ACTION


@pytest.mark.parametrize(
    ("hours", "exposure", "codes"),
    [
        (1.99, Exposure.BELOW_ACTION, set()),
        (2.0, Exposure.ACTION, {"vibration_action"}),
        (8.0, Exposure.ACTION, {"vibration_action"}),
        (8.01, Exposure.LIMIT, {"vibration_limit"}),
    ],
)
def test_the_action_value_counts_when_reached_and_the_limit_when_passed(
    hours: float, exposure: Exposure, codes: set[str]
) -> None:
    sheet = Sheet()
    found = day_exposure(sheet, [ToolUse("saw", Assumption("a", 5.0, "m/s2", 5, 5, "given", ""), hours * HOUR)])
    assert found.exposure is exposure
    assert set(sheet.cautions) == codes


def test_a_tool_without_a_figure_is_taken_for_the_reckoners_plate() -> None:
    assert (tool_vibration("plate", None).value, tool_vibration("plate", None).basis) == (6.0, "published")
    assert (tool_vibration("saw", 4.5).value, tool_vibration("saw", 4.5).basis) == (4.5, "given")
    assert tool_vibration("saw", 4.5).name == "saw vibration"
