"""/v1/vibration"""

from service.paving.sheets import Sheet
from service.paving.vibration import DayExposure, ToolUse, day_exposure
from service.routes.resources import resource
from service.schemas.vibration import VibrationAnswer, VibrationQuestion


@resource(
    "vibration",
    VibrationQuestion(),
    VibrationAnswer(),
    example={"acceleration": "5 m/s2", "time": "3 h"},
)
def vibration(sheet: Sheet, uses: tuple[ToolUse, ...]) -> DayExposure:
    """What a day with saws and plates does to the hands, in exposure points.

    Tool by tool and in all, against the action and the limit value, with the time in which each
    reaches them.
    """
    return day_exposure(sheet, uses)
