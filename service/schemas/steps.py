"""The wire of steps."""

from typing import Any

from service.paving.steps import StepJob, StepKind, TreadSlab
from service.schemas.answers import Answer
from service.schemas.fields import Choice, Count, JointWidth, Quantity
from service.schemas.figures import Figure, Tally
from service.schemas.nested import Object
from service.schemas.quantities import LENGTH
from service.schemas.requests import Question, Request


class TreadFields(Request):
    """What treads are laid of."""

    length = Quantity(LENGTH, "slab_side", default="600 mm", description="Along the step.", example="600 mm")
    thickness = Quantity(LENGTH, "slab_thickness", default="80 mm", description="With its bed.", example="80 mm")
    joint = JointWidth(LENGTH, "joint", default="10 mm", description="Between two of them.", example="10 mm")

    def make(self, values: dict[str, Any]) -> TreadSlab:
        return TreadSlab(**values)


class StepQuestion(Question):
    """Steps up to the paving."""

    rise = Quantity(LENGTH, "rise", required=True, description="Height to climb.", example="450 mm")
    width = Quantity(LENGTH, "way_width", default="1.2 m", description="Of the steps.", example="1.2 m")
    kind = Choice(StepKind, default="garden", description="What they are: sets their limits.")
    risers = Count(1, 200, description="How many; as few as are allowed if left out.")
    going = Quantity(LENGTH, "going", description="Of a tread; by two rises and a going if left out.", example="330 mm")
    tread = Object(TreadFields(), default={}, description="What treads are laid of.")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        names = ("rise", "width", "kind", "tread", "risers", "going")
        return {"job": StepJob(**{name: values[name] for name in names})}


class StepAnswer(Answer):
    """A flight of steps."""

    risers = Tally("One more than treads.")
    treads = Tally("The paving at the top is one more.")
    rise_mm = Figure("Of each step.")
    going_mm = Figure("Of each tread.")
    pace_mm = Figure("Two rises and a going.")
    length_m = Figure("Of the flight on plan.")
    tread_area_m2 = Figure("Of all treads.")
    riser_length_m = Figure("Of all risers, to be built or faced.")
    slabs = Tally("Tread slabs to buy: one for each piece laid.")
    cut = Tally("Of these cut.")
    core_m3 = Figure("Under the treads and their beds, above the ground.")
