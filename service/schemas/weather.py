"""The wire of weather."""

from typing import Any

from service.paving.weather import Air, Binder, Trend
from service.schemas.answers import Answer
from service.schemas.fields import Choice, Quantity
from service.schemas.figures import Figure, Figures, Rows, Truth, Word
from service.schemas.quantities import TEMPERATURE
from service.schemas.requests import Question


class WeatherQuestion(Question):
    """The air over the work."""

    temperature = Quantity(TEMPERATURE, "temperature", required=True, description="Now.", example="3 degC")
    trend = Choice(Trend, required=True, description="Which way it goes.")
    expected = Quantity(
        TEMPERATURE, "temperature", description="What it is to reach, if that is known.", example="-1 degC"
    )
    binder = Choice(Binder, default="cement", description="What binds the mortar.")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        air = Air(values["temperature"], values["trend"], values["expected"])
        return {"air": air, "binder": values["binder"]}


class DecisionRow(Figures):
    """What one rule says."""

    rule = Word("Whose rule.")
    work = Word("go on, or stop.")
    because = Word("When it stops, or starts again.")
    source = Word("Where it stands.")


class WeatherAnswer(Answer):
    """Whether to lay or point in the cold."""

    table = "decisions"

    work = Word("go on, or stop if any rule says so.")
    agreed = Truth("Whether all rules say the same.")
    protection_h = Figure("How long new work is kept from frost, at most.")
    decisions = Rows(DecisionRow(), description="What each rule says.")
