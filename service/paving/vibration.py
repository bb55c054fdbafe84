"""Vibration: what saws and plates do to the hands that hold them, in exposure points."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from service.paving.cautions import caution
from service.paving.formulas import formula
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet


class Exposure(StrEnum):
    """How far a day's vibration goes."""

    BELOW_ACTION = "below the action value"
    ACTION = "at or above the action value"
    LIMIT = "above the limit value"


@dataclass(frozen=True, slots=True)
class ToolUse:
    """A tool held for some time in a day.

    Parameters
    ----------
    name : str
        What tool.
    acceleration : Assumption
        Its vibration in use [m/s2]: the maker's figure, better a measured one.
    time : float
        How long its trigger is held [s].
    """

    name: str
    acceleration: Assumption
    time: float


@formula
def vibration_points(
    points_at_action: float, acceleration: float, action_acceleration: float, time: float, working_day: float
) -> float:
    """Exposure points of one tool: 2 a² t, with a in m/s2 and t in hours.

    Parameters
    ----------
    points_at_action : float
        Points at the action value [1].
    acceleration : float
        Vibration of the tool [m/s2].
    action_acceleration : float
        Vibration that reaches the action value in a working day [m/s2].
    time : float
        How long it is held [s].
    working_day : float
        The day that values are stated for [s].

    Returns
    -------
    float
        Points [1].

    References
    ----------
    HSE, hand-arm vibration exposure ready reckoner

    Examples
    --------
    5 m/s2 for 3 h:

    >>> vibration_points(100.0, 5.0, 2.5, 10800.0, 28800.0)
    150.0
    """
    return points_at_action * (acceleration / action_acceleration) ** 2 * time / working_day


@formula
def time_to_points(
    points: float, points_at_action: float, acceleration: float, action_acceleration: float, working_day: float
) -> float:
    """Time in which a tool reaches some exposure.

    Parameters
    ----------
    points : float
        Points to reach [1].
    points_at_action : float
        Points at the action value [1].
    acceleration : float
        Vibration of the tool [m/s2].
    action_acceleration : float
        Vibration that reaches the action value in a working day [m/s2].
    working_day : float
        The day that values are stated for [s].

    Returns
    -------
    float
        Time [s].

    References
    ----------
    HSE, hand-arm vibration exposure ready reckoner

    Examples
    --------
    >>> time_to_points(100.0, 100.0, 5.0, 2.5, 28800.0)
    7200.0
    """
    return points / points_at_action * (action_acceleration / acceleration) ** 2 * working_day


@formula
def all_points(points: Sequence[float]) -> float:
    """Exposure points of a day with several tools.

    Parameters
    ----------
    points : sequence of float
        Points of each tool [1]; shown as a number of [tools].

    Returns
    -------
    float
        Points [1].

    References
    ----------
    HSE, hand-arm vibration exposure ready reckoner

    Examples
    --------
    >>> all_points((50.0, 50.0))
    100.0
    """
    return sum(tool for tool in points)


@dataclass(frozen=True, slots=True)
class ToolExposure:
    """What one tool does: points in the time asked for, time to reach action and limit value [s]."""

    name: str
    points: float
    time_to_action: float
    time_to_limit: float


@dataclass(frozen=True, slots=True)
class DayExposure:
    """A day's vibration, tool by tool and in all [1]."""

    points: float
    exposure: Exposure
    tools: tuple[ToolExposure, ...]


def day_exposure(sheet: Sheet, uses: Sequence[ToolUse]) -> DayExposure:
    """Add up the vibration of one person's day.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    uses : sequence of ToolUse
        The tools and how long each is held.

    References
    ----------
    HSE, hand-arm vibration exposure ready reckoner
    """
    tools = tuple(_tool(sheet.section(f"tools.{k}"), use) for k, use in enumerate(uses))
    points = sheet.work("points", all_points, tuple(tool.points for tool in tools))
    action, limit = default("vibration", "points_at_action").value, default("vibration", "points_at_limit").value
    # The action value counts when it is reached, the limit when it is passed.
    exposure = Exposure.BELOW_ACTION if points < action * (1 - 1e-9) else Exposure.ACTION
    if points > limit * (1 + 1e-9):
        exposure = Exposure.LIMIT
    if exposure is not Exposure.BELOW_ACTION:
        passed = limit if exposure is Exposure.LIMIT else action
        code = "vibration_limit" if exposure is Exposure.LIMIT else "vibration_action"
        sheet.caution(caution(code, f"The day adds up to {points:.0f} points; the value is {passed:g}."))
    return DayExposure(points, exposure, tools)


def _tool(sheet: Sheet, use: ToolUse) -> ToolExposure:
    action, limit, threshold, day = (
        sheet.assume(default("vibration", name))
        for name in ("points_at_action", "points_at_limit", "action_acceleration", "working_day")
    )
    acceleration = sheet.assume(use.acceleration)
    return ToolExposure(
        name=use.name,
        points=sheet.work("points", vibration_points, action, acceleration, threshold, use.time, day),
        time_to_action=sheet.work("time_to_action", time_to_points, action, action, acceleration, threshold, day),
        time_to_limit=sheet.work("time_to_limit", time_to_points, limit, action, acceleration, threshold, day),
    )


def tool_vibration(name: str, given: float | None) -> Assumption:
    """Vibration of a tool [m/s2]: the asker's own figure, or that of a plate compactor if none is given.

    Examples
    --------
    >>> tool_vibration("plate compactor", None).value
    6.0
    """
    usual = default("vibration", "plate_compactor")
    return usual.given(given)._replace(name=f"{name} vibration")
