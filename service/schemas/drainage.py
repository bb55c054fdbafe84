"""The wire of drainage."""

from typing import Any

from service.paving.drainage import Rain, Surface, rainfall, run_off_coefficient
from service.paving.planning import Country, DrainsTo, Position, Site
from service.schemas.answers import Answer
from service.schemas.fields import Choice, Number, Quantity
from service.schemas.figures import Figure, Figures, Rows, Tally, Word
from service.schemas.levels import FallFields
from service.schemas.nested import Object
from service.schemas.quantities import RATE
from service.schemas.requests import Question
from service.schemas.shapes import area_field


class DrainageQuestion(Question):
    """Rain on an area."""

    area = area_field("The paving: its shape, or its area.")
    standard = Choice(Rain, default="approved_document_h", description="Whose rate of rain is reckoned with.")
    rainfall_rate = Quantity(RATE, "rain", description="In place of a standard's.", example="75 mm/h")
    surface = Choice(Surface, default="paving", description="What the rain falls on.")
    coefficient = Number(0.01, 1, description="Share of the rain that runs off, in place of the surface's.")
    fall = Object(FallFields(), description="Which way the surface falls: it finds the low edge of a shape.")
    country = Choice(Country, default="elsewhere", description="Whose planning rules are looked at.")
    position = Choice(Position, default="elsewhere", description="Whether it lies between house and road.")
    drains_to = Choice(DrainsTo, default="road", description="Where the water goes.")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        rate = rainfall(values["standard"])._replace(name="rainfall_rate").given(values["rainfall_rate"])
        share = run_off_coefficient(values["surface"])._replace(name="coefficient").given(values["coefficient"])
        site = Site(values["country"], values["position"], values["drains_to"])
        return {"area": values["area"], "rate": rate, "coefficient": share, "fall": values["fall"], "site": site}


class LowSideRow(Figures):
    """A side that water runs over."""

    name = Word("Which side, as numbered by /v1/areas.")
    length_m = Figure("Of an arc the part that lies downhill.")


class DrainageFigures(Figures):
    """What runs off, and over which edge."""

    flow_l_s = Figure("Rate at which rain runs off.")
    flow_low_l_s = Figure("With the least coefficient it is known to have.")
    flow_high_l_s = Figure("With the greatest.")
    rainfall_mm_per_h = Figure("Rate of rain.", of="rainfall_rate")
    coefficient = Figure("Share of the rain that runs off.")
    channel_length_m = Figure("Of the edges the water leaves over; none without a shape and its fall.", optional=True)
    channel_pieces = Tally("Pieces of channel along them, a metre each.", optional=True)
    planning = Word("no application, application, or ask the local authority: what the published rule says.")
    low_sides = Rows(LowSideRow(), description="The edges the water leaves over.")


class DrainageAnswer(DrainageFigures, Answer):
    """What runs off, and over which edge."""
