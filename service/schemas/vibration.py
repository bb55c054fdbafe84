"""The wire of vibration."""

from typing import Any

from service.paving.errors import OutOfRange
from service.paving.vibration import ToolUse, tool_vibration
from service.schemas.answers import Answer
from service.schemas.fields import Name, Quantity
from service.schemas.figures import Figure, Figures, Rows, Word
from service.schemas.nested import Object, Objects
from service.schemas.quantities import DURATION, VIBRATION
from service.schemas.requests import Question, Request

MOST_TOOLS = 20


def _acceleration() -> Quantity:
    return Quantity(
        VIBRATION,
        "vibration",
        description="Its vibration in use, by its maker; that of a plate compactor if left out.",
        example="6 m/s2",
    )


class ToolFields(Request):
    """A tool held for some time in a day."""

    name = Name(required=True, description="What tool.", example="plate compactor")
    acceleration = _acceleration()
    time = Quantity(DURATION, "tool_time", required=True, description="How long it is held.", example="2 h")

    def make(self, values: dict[str, Any]) -> ToolUse:
        return ToolUse(values["name"], tool_vibration(values["name"], values["acceleration"]), values["time"])


class VibrationQuestion(Question):
    """One person's day with one tool, or with several."""

    acceleration = _acceleration()
    time = Quantity(DURATION, "tool_time", description="How long one tool is held.", example="2 h")
    tools = Objects(Object(ToolFields()), least=1, most=MOST_TOOLS, description="Several tools, in place of one.")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        time, tools = values["time"], values["tools"]
        if (time is None) == (tools is None):
            raise OutOfRange("Give either the 'time' one tool is held, or the 'tools' of the day.", "time")
        if tools is None:
            tools = (ToolUse("tool", tool_vibration("tool", values["acceleration"]), time),)
        return {"uses": tools}


class ToolRow(Figures):
    """What one tool does."""

    name = Word("Which tool.")
    points = Figure("Exposure points in the time it is held.")
    time_to_action_h = Figure("Until it alone reaches the action value.")
    time_to_limit_h = Figure("Until it alone reaches the limit value.")


class VibrationAnswer(Answer):
    """What a day's tools do to the hands."""

    table = "tools"

    points = Figure("Exposure points of the day.")
    exposure = Word("Below or above the action and the limit value.")
    tools = Rows(ToolRow(), description="Tool by tool.")
