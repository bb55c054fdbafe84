"""The wire of stages: fields and rows that programmes share with whole jobs."""

from datetime import date
from typing import Any

from marshmallow import ValidationError

from service.schemas.errors import Impossible
from service.schemas.fields import Quantity, Text
from service.schemas.figures import Figure, Figures, Rows, Tally, Word
from service.schemas.quantities import AREA_OUTPUT, FREQUENCY, LENGTH_OUTPUT, VOLUME_OUTPUT
from service.schemas.requests import Request


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
