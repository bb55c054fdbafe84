"""The wire of levels: also the fall, the datum and the build-up of an excavation or a whole job."""

from typing import Any

from service.paving.build_ups import BuildUp, Datum, Tapers
from service.paving.errors import OutOfRange
from service.paving.falls import DampProofCourse, Fall, PlanSide, fall_at_angle, fall_to_side
from service.paving.reference import default
from service.schemas.answers import Answer
from service.schemas.fields import Choice, Name, Quantity, Resolve, Text
from service.schemas.figures import Figure, Figures, Rows, Section, Word
from service.schemas.nested import Either, Object
from service.schemas.quantities import ANGLE, GRADIENT, LENGTH, POSITION, SLOPE
from service.schemas.requests import Question, Request
from service.schemas.shapes import PointSchema, shape_field

_SIDES = {str(side): side for side in PlanSide}


class Towards(Quantity):
    """A direction on plan: a side of the paper by its name, or an angle."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(ANGLE, "angle", **kwargs)

    def read(self, value: Any) -> Any:
        return _SIDES[value] if isinstance(value, str) and value in _SIDES else super().read(value)

    def shown(self, value: Any) -> str:
        return str(value) if isinstance(value, PlanSide) else super().shown(value)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"anyOf": [{"type": "string", "enum": list(_SIDES)}, super().document(resolve)]}

    def _right_form(self, value: Any) -> str:
        if isinstance(value, str) and value.isalpha():
            return f"Not a direction: write {', '.join(_SIDES)}, or an angle such as '30 deg'."
        return super()._right_form(value)


class Wall(Text):
    """Where a wall stands: along a side of the paper, or along one side of the outline."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(
            rf"{'|'.join(_SIDES)}|side [1-9][0-9]{{0,2}}",
            f"{', '.join(_SIDES)}, or a side of the outline such as 'side 2'",
            **kwargs,
        )

    def read(self, value: Any) -> PlanSide | int:
        text: str = super().read(value)
        return _SIDES[text] if text in _SIDES else int(text.removeprefix("side "))

    def shown(self, value: Any) -> str:
        return str(value) if isinstance(value, PlanSide) else f"side {value}"


class FallFields(Request):
    """How the finished surface falls: one gradient and a direction, or one gradient along each side."""

    gradient = Quantity(GRADIENT, "gradient", description="Along the steepest line; with `towards`.", example="1 in 60")
    towards = Towards(
        description="Where the water goes: right, top, left or bottom as drawn, or an angle counter-clockwise from x."
    )
    gradient_x = Quantity(
        SLOPE, "slope", description="Fall towards the right; negative towards the left.", example="1 in 60"
    )
    gradient_y = Quantity(
        SLOPE, "slope", description="Fall towards the top; negative towards the bottom.", example="-1 in 80"
    )

    def make(self, values: dict[str, Any]) -> Fall:
        gradient, towards = values["gradient"], values["towards"]
        along = (values["gradient_x"], values["gradient_y"])
        if gradient is None and towards is None and along != (None, None):
            return Fall(along[0] or 0.0, along[1] or 0.0)
        if gradient is None or along != (None, None):
            missing = "gradient" if gradient is None else "gradient_x" if along[0] is not None else "gradient_y"
            raise OutOfRange(
                "Give either 'gradient' with 'towards', or 'gradient_x' and 'gradient_y' for a fall to a corner.",
                missing,
            )
        if towards is None:
            raise OutOfRange("Say which way it falls: right, top, left, bottom, or an angle.", "towards")
        return fall_to_side(gradient, towards) if isinstance(towards, PlanSide) else fall_at_angle(gradient, towards)


class BuildUpDepths(Request):
    """Depths from the finished level down to the formation."""

    slab_thickness = Quantity(LENGTH, "slab_thickness", required=True, description="Of the slabs.", example="40 mm")
    laying_course = Quantity(
        LENGTH, "build_up_layer", required=True, description="Of the finished bed.", example="40 mm"
    )
    sub_base = Quantity(LENGTH, "build_up_layer", required=True, description="After compaction.", example="150 mm")
    tapers = Choice(
        Tapers,
        default="none",
        description="Which layer takes the fall up, what is under it lying level; its depth is then the least one.",
    )

    def make(self, values: dict[str, Any]) -> BuildUp:
        return BuildUp(**values)


class DatumFields(Request):
    """What levels are counted from, and the finished level at one point."""

    name = Name(default="datum", description="What it is, such as a threshold.", example="threshold")
    at = Object(
        PointSchema(), description="Where the finished level is known; where the area lies highest if left out."
    )
    finished = Quantity(
        POSITION, "level", default="0 mm", description="Finished level there; below the datum with a minus sign."
    )

    def make(self, values: dict[str, Any]) -> Datum:
        return Datum(**values)


def datum_field() -> Either:
    """A field that wants a datum, or no more than the finished level at the highest point."""
    return Either(
        Quantity(POSITION, "level", example="-150 mm"),
        Object(DatumFields()),
        lambda finished: Datum(finished=finished),
        default="0 mm",
        description="Finished level relative to the datum where the area lies highest; or the datum by name and point.",
    )


class DampProofCourseFields(Request):
    """A damp-proof course, and where its wall stands."""

    level = Quantity(POSITION, "level", required=True, description="Relative to the datum.", example="0 mm")
    wall = Wall(
        description="The side of the plan it stands along, or a side as numbered by /v1/areas; any if left out."
    )

    def make(self, values: dict[str, Any]) -> DampProofCourse:
        return DampProofCourse(**values)


class LevelQuestion(Question):
    """Levels of an area."""

    area = shape_field()
    fall = Object(FallFields(), required=True, description="How the finished surface sheds water.")
    datum = datum_field()
    build_up = Object(BuildUpDepths(), required=True, description="What lies under the finished level.")
    peg_spacing = Quantity(
        LENGTH, "peg_spacing", description="Furthest from peg to peg: the length of the straightedge.", example="1.8 m"
    )
    damp_proof_course = Either(
        Quantity(POSITION, "level", example="0 mm"),
        Object(DampProofCourseFields()),
        DampProofCourse,
        description="Level of a damp-proof course relative to the datum; or its level and its wall.",
    )

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        values["peg_spacing"] = default("levels", "peg_spacing").given(values["peg_spacing"])
        return values


class PegRow(Figures):
    """A peg and the levels to mark on it, relative to the datum; minus is below."""

    name = Word("Numbered in rows from the bottom.")
    place = Word("corner, edge, inside, or opening.")
    x_m = Figure("To the right.")
    y_m = Figure("Upwards on paper.")
    finished_mm = Figure("Top of the paving.")
    bed_mm = Figure("Top of the laying course.")
    sub_base_mm = Figure("Top of the sub-base.")
    formation_mm = Figure("Where the dig ends.")


class LayerDepthFigures(Figures):
    """Depth of a layer over the area."""

    mean_mm = Figure("Mean depth.")
    least_mm = Figure("Where it is thinnest.")
    greatest_mm = Figure("Where it is thickest.")
    volume_m3 = Figure("Volume in place, exact under the planes.")


class LevelFigures(Figures):
    """Levels, peg by peg."""

    fall_mm = Figure("From the highest to the lowest point of the area.", of="descent.fall")
    steepest_gradient_percent = Figure("In the direction of the fall.", of="descent.steepest_gradient")
    slope_deg = Figure("The same as an angle.", of="descent.slope")
    towards_deg = Figure(
        "Direction of the fall, counter-clockwise from x; none if it is level.", of="descent.towards", optional=True
    )
    run_m = Figure("How far the area reaches in that direction, on plan.", of="descent.run")
    slope_length_m = Figure("The same along the slope.", of="descent.slope_length")
    build_up_mm = Figure("Finished level to formation where the build-up is thinnest.", of="build_up")
    highest_mm = Figure("Highest finished level, relative to the datum.")
    lowest_mm = Figure("Lowest finished level, relative to the datum.")
    lowest_x_m = Figure("Where that is.")
    lowest_y_m = Figure("Where that is.")
    laying_course = Section(LayerDepthFigures(), description="Depth of the laying course.")
    sub_base = Section(LayerDepthFigures(), description="Depth of the sub-base.")
    pegs = Rows(PegRow(), description="Corners, edges and a grid inside.")


class LevelAnswer(LevelFigures, Answer):
    """Levels, peg by peg."""

    table = "pegs"
