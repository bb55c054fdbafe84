"""The wire of programmes."""

from typing import Any

from service.paving.errors import OutOfRange
from service.paving.joints import Filler
from service.paving.programmes import Gang
from service.paving.stages import BedKind, Quantities, Task, usual_outputs
from service.schemas.answers import Answer
from service.schemas.fields import Choice, Count, Quantity
from service.schemas.nested import Object
from service.schemas.quantities import AREA, DURATION, LENGTH, TEMPERATURE, VOLUME
from service.schemas.requests import Question, Request
from service.schemas.stages import Day, OutputFields, ProgrammeFigures
from service.schemas.takeoffs import TakeOffFields


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


class WaitFields(Request):
    """How long cement is left alone, where it isn't as usual."""

    edging = Quantity(DURATION, "wait", description="From the haunch to work against it.", example="24 h")
    bed = Quantity(DURATION, "wait", description="From laying on mortar to pointing.", example="24 h")
    pointing = Quantity(DURATION, "wait", description="From pointing to feet.", example="24 h")
    furniture = Quantity(DURATION, "wait", description="From pointing to furniture.", example="72 h")


class ProgrammeQuestion(Question):
    """A job to be put into time."""

    takeoff = Object(TakeOffFields(), description="The whole job, as a take-off is asked for: its quantities are used.")
    quantities = Object(QuantityFields(), description="What there is to do, in place of a take-off.")
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
        taken, quantities = values["takeoff"], values["quantities"]
        if (taken is None) == (quantities is None):
            raise OutOfRange("Give either the 'takeoff' of the job, or its 'quantities'.", "takeoff")
        return {
            "work": quantities or taken,
            "outputs": usual_outputs(given),
            "gang": Gang(values["gang"], values["hours_per_day"], values["days_per_week"], values["start"]),
            "waits": {name: value for name, value in (values["waits"] or {}).items() if value is not None},
            "temperature": values["temperature"],
        }


class ProgrammeAnswer(ProgrammeFigures, Answer):
    """A job in time."""

    table = "stages"
