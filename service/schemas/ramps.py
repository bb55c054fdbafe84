"""The wire of ramps."""

from typing import Any

from service.paving.ramps import RampJob, RampKind
from service.schemas.answers import Answer
from service.schemas.fields import Choice, Quantity
from service.schemas.figures import Figure, Tally
from service.schemas.quantities import GRADIENT, LENGTH
from service.schemas.requests import Question


class RampQuestion(Question):
    """A ramp up to the paving."""

    rise = Quantity(LENGTH, "rise", required=True, description="Height to climb.", example="300 mm")
    width = Quantity(LENGTH, "way_width", default="1.2 m", description="Of the ramp.", example="1.2 m")
    kind = Choice(RampKind, default="dwelling", description="What it leads to: sets its limits.")
    gradient = Quantity(
        GRADIENT,
        "ramp_gradient",
        description="The steepest that needs fewest flights if left out.",
        example="1 in 15",
    )
    room = Quantity(LENGTH, "run", description="Length there is for it on plan.", example="6 m")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        return {"job": RampJob(**{name: values[name] for name in ("rise", "width", "kind", "gradient", "room")})}


class RampAnswer(Answer):
    """A ramp."""

    gradient_percent = Figure("Height over length on plan.")
    one_in = Figure("The same as a run: 1 in so much.")
    flights = Tally("With a landing between each two.")
    flight_length_m = Figure("Of each flight on plan.")
    flight_rise_mm = Figure("Of each flight.")
    slope_length_m = Figure("Of each flight along its slope.")
    length_m = Figure("Of the whole on plan; landings at top and bottom come on top.")
    paved_area_m2 = Figure("To pave along the slope, landings between flights included.")
    body_m3 = Figure("Between its surface and the level ground it starts from.")
