"""The wire of programmes."""

from dataclasses import replace
from datetime import date
from typing import Any

from marshmallow import ValidationError

from service.paving.joints import Filler
from service.paving.programmes import Gang, usual_waits
from service.paving.stages import BedKind, Quantities, Task, usual_outputs
from service.schemas.answers import Answer, Figure, Figures, Rows, Tally, Word
from service.schemas.errors import Impossible
from service.schemas.fields import Choice, Count, Object, Quantity, Text
from service.schemas.quantities import (
    AREA,
    AREA_OUTPUT,
    DURATION,
    FREQUENCY,
    LENGTH,
    LENGTH_OUTPUT,
    TEMPERATURE,
    VOLUME,
    VOLUME_OUTPUT,
)
from service.schemas.requests import Question, Request


class Day(Text):
    """A day of the calendar (ISO 8601)."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(
            r"20[0-9]{2}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])", "a day such as '2027-03-15'", **kwargs
        )

    def read(self, value: Any) -> date:
        text = super().read(value)
        try:
            return date.fromisoformat(text)
        except ValueError:
            raise ValidationError(Impossible(f"There is no {text} in the calendar.")) from None

    def shown(self, value: date) -> str:
        return value.isoformat()


def _volume(description: str, example: str) -> Quantity:
    return Quantity(VOLUME, "work_volume", default="0 m3", description=description, example=example)


def _area(description: str, example: str) -> Quantity:
    return Quantity(AREA, "work_area", default="0 m2", description=description, example=example)


def _run(description: str, example: str) -> Quantity:
    return Quantity(LENGTH, "joint_run", default="0 m", description=description, example=example)


class QuantityFields(Request):
    """What there is to do; what is left out isn't done."""

    area = Quantity(AREA, "area", required=True, description="To set out and lay the sub-base on.", example="34 m2")
    dig = _volume("To dig, in place.", "9 m3")
    sub_base = _volume("Sub-base in place.", "5.1 m3")
    lifts = Count(1, 20, default=1, description="Lifts it is compacted in.")
    membrane = _area("Membrane.", "40 m2")
    edging = _run("Edging.", "20 m")
    haunched = _volume("Concrete of its haunch, which has to set.", "0.8 m3")
    bed = _volume("Bed in place.", "1.4 m3")
    bed_kind = Choice(BedKind, default="mortar", description="What the bed is.")
    laid = _area("Paving.", "34 m2")
    cuts = Count(0, 1_000_000, default=0, description="Slabs cut.")
    joint = _run("Joints to fill.", "110 m")
    filler = Choice(Filler, default="mortar", description="With what.")

    def make(self, values: dict[str, Any]) -> Quantities:
        return Quantities(**values)


def _by_volume(description: str) -> Quantity:
    return Quantity(VOLUME_OUTPUT, "volume_output", description=description, example="0.5 m3/h")


def _by_area(description: str) -> Quantity:
    return Quantity(AREA_OUTPUT, "area_output", description=description, example="20 m2/h")


def _by_length(description: str) -> Quantity:
    return Quantity(LENGTH_OUTPUT, "length_output", description=description, example="6 m/h")


class OutputFields(Request):
    """What one person does in an hour, where it isn't as usual."""

    set_out = _by_area("Setting out.")
    dig = _by_volume("Digging and loading, in place.")
    sub_base = _by_volume("Carting and spreading sub-base, in place.")
    compact = _by_area("Compacting one lift, all passes.")
    membrane = _by_area("Spreading membrane.")
    edging = _by_length("Edging, with bed and haunch.")
    bed_mortar = _by_volume("Mixing and spreading a mortar bed.")
    screed = _by_volume("Screeding sand or grit.")
    lay = _by_area("Laying slabs, the bed not counted.")
    cut = Quantity(FREQUENCY, "count_output", description="Cutting slabs.", example="8 /h")
    point_mortar = _by_length("Pointing with mortar.")
    point_jointing_compound = _by_length("Filling joints with a compound.")
    point_dried_sand = _by_length("Filling joints with dried sand.")


class WaitFields(Request):
    """How long cement is left alone, where it isn't as usual."""

    edging = Quantity(DURATION, "wait", description="From the haunch to work against it.", example="24 h")
    bed = Quantity(DURATION, "wait", description="From laying on mortar to pointing.", example="24 h")
    pointing = Quantity(DURATION, "wait", description="From pointing to feet.", example="24 h")
    furniture = Quantity(DURATION, "wait", description="From pointing to furniture.", example="72 h")


class ProgrammeQuestion(Question):
    """A job to be put into time."""

    quantities = Object(QuantityFields(), required=True, description="What there is to do.")
    gang = Count(1, 100, default=2, description="How many work.")
    hours_per_day = Quantity(
        DURATION, "working_day", default="8 h", description="Work in a working day.", example="8 h"
    )
    days_per_week = Count(1, 7, default=5, description="Days worked in a week, from Monday on.")
    start = Day(description="First day; a Monday if left out.", example="2027-03-15")
    outputs = Object(OutputFields(), description="What one person does in an hour, where it isn't as usual.")
    waits = Object(WaitFields(), description="How long cement is left alone, where it isn't as usual.")
    temperature = Quantity(
        TEMPERATURE,
        "temperature",
        description="Mean while cement sets; below an ordinary one waits grow.",
        example="8 degC",
    )

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        given = {Task(name): value for name, value in (values["outputs"] or {}).items() if value is not None}
        usual = usual_waits(values["quantities"].filler)
        waits = {name: getattr(usual, name).given(value) for name, value in (values["waits"] or {}).items()}
        return {
            "quantities": values["quantities"],
            "outputs": usual_outputs(given),
            "gang": Gang(values["gang"], values["hours_per_day"], values["days_per_week"], values["start"]),
            "waits": replace(usual, **waits),
            "temperature": values["temperature"],
        }


class StageRow(Figures):
    """A stage in time, from the start of the first day's work."""

    name = Word("Which stage.")
    starts_h = Figure("When work begins.")
    ends_h = Figure("When it ends.")
    wait_h = Figure("How long it must then be left alone.")
    work_h = Figure("Working hours in it.")
    hands = Tally("How many work on it.")
    labour_h = Figure("Hours one person would take.")
    starts_on = Word("The day by the calendar, if the start is given.", optional=True)
    ends_on = Word("The day by the calendar.", optional=True)
    stopped_by = Word("Weather that stops it.")


class StrengthRow(Figures):
    """How far concrete has come."""

    age_h = Figure("After so long.")
    share_percent = Figure("Share of its strength at 28 days, about.")
    low_percent = Figure("At the least.")
    high_percent = Figure("At the most.")


class ProgrammeFigures(Figures):
    """A job in time."""

    foot_traffic_h = Figure("When it may be walked on.")
    pointing_h = Figure("When pointing begins at the earliest; none if nothing is pointed.", optional=True)
    furniture_h = Figure("When it may be furnished.")
    work_ends_h = Figure("When the last work ends.")
    labour_h = Figure("Hours one person would take for all.")
    foot_traffic_on = Word("The day it may be walked on, if the start is given.", optional=True)
    stages = Rows(StageRow(), description="In order.")
    strengths = Rows(StrengthRow(), description="How concrete gains strength, by common practice.")


class ProgrammeAnswer(ProgrammeFigures, Answer):
    """A job in time."""

    table = "stages"
