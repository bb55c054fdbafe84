"""The wire of no-cut sizes."""

from typing import Any

from service.paving.errors import OutOfRange
from service.paving.no_cut_nets import Laying
from service.paving.runs_of_slabs import JointRange
from service.schemas.answers import Answer
from service.schemas.fields import Choice, JointWidth, Quantity
from service.schemas.figures import Figure, Figures, Rows, Tally, Truth, Word
from service.schemas.layouts import slabs_of
from service.schemas.nested import Object, Objects
from service.schemas.quantities import LENGTH
from service.schemas.requests import Question
from service.schemas.shapes import shape_field
from service.schemas.slabs import SlabSize


class NoCutSizeQuestion(Question):
    """A size, or a right-angled shape, to be laid without a cut."""

    slabs = Objects(
        Object(SlabSize()),
        most=2,
        least=1,
        description="The slab; for stretcher bond and herringbone a half slab may follow.",
    )
    slab = Object(SlabSize(), description="The slab; in place of `slabs`.")
    pattern = Choice(Laying, default="any", description="How it is laid; any: any laying at all.")
    joint_least = JointWidth(LENGTH, "joint", default="3 mm", description="Narrowest joint.", example="3 mm")
    joint_most = JointWidth(LENGTH, "joint", default="10 mm", description="Widest joint.", example="10 mm")
    length = Quantity(LENGTH, "side", description="Length wanted.", example="4.75 m")
    width = Quantity(LENGTH, "side", description="Width wanted.", example="3.6 m")
    area = shape_field("A right-angled shape in place of a length and a width.", required=False)
    within = Quantity(LENGTH, "run", default="600 mm", description="How far a side may be changed.", example="300 mm")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        length, width, area = (values.pop(name) for name in ("length", "width", "area"))
        if area is None and (length is None or width is None):
            raise OutOfRange("Give the 'length' and the 'width' wanted, or a right-angled 'area'.", "length")
        if area is not None and (length, width) != (None, None):
            raise OutOfRange("Give either 'length' and 'width', or an 'area', not both.", "area")
        return {
            "slabs": slabs_of(values),
            "laying": values.pop("pattern"),
            "joints": JointRange(values.pop("joint_least"), values.pop("joint_most")),
            "size": None if length is None else (length, width),
            "area": area,
            "within": values.pop("within"),
        }


class NoCutSizeRow(Figures):
    """A size that needs no cut."""

    length_mm = Figure("Its length.")
    width_mm = Figure("Its width.")
    joint_mm = Figure("Joint along the length.")
    joint_across_mm = Figure("Joint along the width.")
    slabs = Tally("How many slabs.")
    half_slabs = Tally("How many half slabs beside them.")
    change_mm = Figure("How far it is from the size wanted, both sides together.")
    laid = Word("How it is laid.")


class SideRow(Figures):
    """A side of a shape and where it should stand."""

    axis = Word("x or y: the direction it is moved in.")
    stands_mm = Figure("Where it stands.")
    move_to_mm = Figure("Where it should stand.")


class NoCutSizeAnswer(Answer):
    """The nearest sizes that need no cut."""

    table = "sizes"
    fits = Truth("Whether what is wanted needs no cut as it is.")
    reason = Word("Why, or why not.")
    sizes = Rows(
        NoCutSizeRow(),
        description="Sizes that need no cut, nearest first; in stack bond if the pattern has none.",
    )
    sides = Rows(SideRow(), description="Of a shape: where its sides should stand.")
