"""The wire of edgings."""

from typing import Any

from service.paving.edgings import Edges, EdgingSlab
from service.paving.errors import OutOfRange
from service.paving.haunches import Haunch
from service.paving.laying_courses import Recipe
from service.paving.mixes import Consistence, SandState
from service.schemas.answers import Answer
from service.schemas.courses import CourseFields, RunRow
from service.schemas.fields import Choice, Count, JointWidth, Quantity
from service.schemas.fields import Parts as PartsField
from service.schemas.figures import Figure, Figures, Rows, Section, Tally
from service.schemas.mixes import MixFigures, Mixing, recipe_of
from service.schemas.nested import Object, Objects
from service.schemas.quantities import LENGTH
from service.schemas.requests import Question, Request
from service.schemas.shapes import MOST_POINTS, shape_field


class EdgingSlabFields(Request):
    """A kerb, edging slab or sett as it is laid along the edge."""

    length = Quantity(LENGTH, "slab_side", required=True, description="Along the edge.", example="915 mm")
    width = Quantity(
        LENGTH,
        "slab_side",
        required=True,
        description="Across it: its thickness, if it stands upright.",
        example="50 mm",
    )


class HaunchFields(Request):
    """Section of the concrete: a bed under the edging and a triangle behind it; what is left out is as usual."""

    bed_width = Quantity(LENGTH, "haunch", description="Of the bed.", example="300 mm")
    bed_depth = Quantity(LENGTH, "haunch", description="Of the bed.", example="150 mm")
    haunch_width = Quantity(LENGTH, "haunch", description="Base of the triangle.", example="100 mm")
    haunch_height = Quantity(LENGTH, "haunch", description="How far it reaches up the back.", example="150 mm")

    def make(self, values: dict[str, Any]) -> Haunch:
        return Haunch(**values)


class HaunchMixing(Mixing):
    """How its concrete is made up."""

    parts = PartsField(default="1:2:4", description="Parts by volume, cement first.")
    consistence = Choice(Consistence, default="semi_dry", description="How wet it is mixed.")
    sand = Choice(SandState, default="damp", description="Whether its parts are measured dry, or damp and bulked.")

    def make(self, values: dict[str, Any]) -> Recipe:
        return recipe_of(values)


class EdgingQuestion(CourseFields, Question):
    """A length to edge, or the edges of an area."""

    length = Quantity(LENGTH, "run", description="In one straight run.", example="12 m")
    area = shape_field("The paving: the edging stands outside it. In place of a length.", required=False)
    sides = Objects(
        Count(1, MOST_POINTS, example=2),
        least=1,
        most=MOST_POINTS,
        description="Sides of the outline that are edged, as numbered by /v1/areas; all of them if left out.",
    )
    slab = Object(EdgingSlabFields(), required=True, description="What it is laid of.")
    joint = JointWidth(LENGTH, "joint", default="5 mm", description="Between slabs.", example="5 mm")
    haunch = Object(HaunchFields(), description="Its concrete; without it the edging stands without.")
    mix = Object(HaunchMixing(), default={}, description="What the concrete is mixed of.")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        length, area, sides = values["length"], values["area"], values["sides"]
        if (length is None) == (area is None):
            raise OutOfRange("Give either the 'length' to edge, or the 'area' whose edges they are.", "length")
        numbers = None if sides is None else tuple(side - 1 for side in sides)
        slab = values["slab"]
        return {
            "edges": length if area is None else Edges(area, values["around"], numbers, values["corner"]),
            "slab": EdgingSlab(slab["length"], slab["width"], values["joint"]),
            "haunch": values["haunch"],
            "recipe": values["mix"],
        }


class EdgingFigures(Figures):
    """What an edging takes."""

    slabs = Tally("To buy: one for each piece laid, whole or cut.")
    whole = Tally("Laid whole.")
    cut = Tally("Cut, at a mitre or to close a run.")
    length_m = Figure("Along the middle of the edging.")
    section_m2 = Figure("Of the concrete; 0 if there is none.")
    concrete_m3 = Figure("In place; 0 if there is none.")
    mix = Section(MixFigures(), description="What the concrete takes; none without.", optional=True)
    runs = Rows(RunRow(), description="From corner to corner.")


class EdgingAnswer(EdgingFigures, Answer):
    """What an edging takes."""
