"""The wire of membranes."""

from typing import Any

from service.paving.membranes import Roll
from service.paving.reference import default
from service.schemas.answers import Answer
from service.schemas.fields import Quantity
from service.schemas.figures import Figure, Figures, Rows, Tally, Word
from service.schemas.nested import Object
from service.schemas.quantities import LENGTH
from service.schemas.requests import Question, Request
from service.schemas.shapes import shape_field


class RollFields(Request):
    """A roll of membrane."""

    width = Quantity(LENGTH, "roll_width", required=True, description="Of the roll.", example="4.5 m")
    length = Quantity(LENGTH, "roll_length", required=True, description="What is on it.", example="11 m")


class MembraneQuestion(Question):
    """A membrane over an area."""

    area = shape_field("What it covers; openings are cut out of it afterwards.")
    roll = Object(RollFields(), required=True, description="What it comes on.")
    lap = Quantity(LENGTH, "lap", description="How far one piece lies over the next.", example="300 mm")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        roll, lap = values["roll"], default("membranes", "lap").given(values["lap"])
        return {"area": values["area"], "roll": Roll(roll["width"], roll["length"], lap)}


class WayRow(Figures):
    """One way to roll it out."""

    rolled = Word("along_length: along x; along_width: along y.")
    strips = Tally("Side by side.")
    rolls = Tally("Whole rolls they are cut from; the rest of one begins the next strip.")
    run_m = Figure("Length of all strips, with the laps at their joins.")
    used_m2 = Figure("Membrane laid.")


class MembraneFigures(Figures):
    """The better way to roll a membrane out."""

    rolls = Tally("Whole rolls.")
    rolled = Word("The better way: fewer rolls, then less membrane.", of="better.rolled")
    strips = Tally("Side by side.", of="better.strips")
    used_m2 = Figure("Membrane laid, laps and all.")
    ways = Rows(WayRow(), description="Both ways.")


class MembraneAnswer(MembraneFigures, Answer):
    """The better way to roll a membrane out."""
