"""The wire of borders."""

from typing import Any

from service.paving.borders import BorderCourse, Laid
from service.schemas.answers import Answer
from service.schemas.courses import CourseFields, RunRow
from service.schemas.fields import Choice, JointWidth
from service.schemas.figures import Figure, Figures, Numbers, Rows, Tally
from service.schemas.nested import Object
from service.schemas.quantities import LENGTH
from service.schemas.requests import Question
from service.schemas.shapes import shape_field
from service.schemas.slabs import SlabFace


class BorderQuestion(CourseFields, Question):
    """A border round an area."""

    area = shape_field("The whole paving, border and field.")
    slab = Object(SlabFace(), required=True, description="What the border is laid of.")
    laid = Choice(Laid, default="soldier", description="Soldier: long side across the edge. Stretcher: along it.")
    joint = JointWidth(
        LENGTH, "joint", default="5 mm", description="Between its slabs, and between border and field.", example="5 mm"
    )

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        laid = BorderCourse(values["slab"], values["laid"], values["joint"], values["corner"], values["around"])
        return {"area": values["area"], "laid": laid}


class BorderFigures(Figures):
    """What a border takes, and the field inside it."""

    slabs = Tally("To buy: one for each piece laid, whole or cut.")
    whole = Tally("Laid whole.")
    cut = Tally("Cut, at a mitre or to close a run.")
    border_area_m2 = Figure("The border with all its joints.")
    field_area_m2 = Figure("What is left to pave inside it.")
    joint_length_m = Figure("Joints of the border, the one to the field included.")
    field_rings_mm = Numbers(
        3,
        description="The field as rings of plan points, its outline first: a polygon to lay out. Arcs as chords.",
        of="field.rings",
    )
    runs = Rows(RunRow(), description="From corner to corner.")


class BorderAnswer(BorderFigures, Answer):
    """What a border takes, and the field inside it."""
