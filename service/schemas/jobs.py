"""The wire of a job: what a take-off is asked, part by part."""

from dataclasses import replace
from typing import Any

from service.paving.borders import BorderCourse, Laid
from service.paving.build_ups import Tapers
from service.paving.courses import Corner
from service.paving.drainage import Rain, Surface, rainfall, run_off_coefficient
from service.paving.edgings import EdgingSlab
from service.paving.errors import OutOfRange
from service.paving.falls import DampProofCourse
from service.paving.haunches import Haunch
from service.paving.jobs import Drainage, EdgingAsked, Jointing, ProgrammeAsked
from service.paving.laying_courses import Bedding
from service.paving.layouts import Detail, Effort, Paving
from service.paving.membranes import Roll
from service.paving.planning import Country, DrainsTo, Position
from service.paving.planning import Site as Place
from service.paving.programmes import Gang
from service.paving.reference import default
from service.paving.stages import Task, usual_outputs
from service.paving.sub_bases import SubBase
from service.paving.trees import Tree
from service.schemas.beds import BeddingFields, bedding_of
from service.schemas.edgings import EdgingSlabFields, HaunchFields, HaunchMixing
from service.schemas.excavations import DiggingFields, digging_of
from service.schemas.fields import Choice, Count, JointWidth, Number, Quantity
from service.schemas.joints import FillerFields
from service.schemas.layers import LayerFields, sub_base_of
from service.schemas.layouts import PavingFields, paving_of
from service.schemas.levels import DampProofCourseFields
from service.schemas.membranes import RollFields
from service.schemas.mixes import recipe_of
from service.schemas.nested import Either, Object, Objects
from service.schemas.quantities import DURATION, LENGTH, POSITION, RATE, TEMPERATURE
from service.schemas.requests import Request
from service.schemas.shapes import MOST_POINTS, PointSchema
from service.schemas.slabs import SlabSize
from service.schemas.stages import Day, OutputFields


class SubBaseFields(LayerFields):
    """Stone under the laying course."""

    def make(self, values: dict[str, Any]) -> SubBase:
        return sub_base_of(values)


class LayingCourseFields(BeddingFields):
    """What the slabs sit in."""

    def make(self, values: dict[str, Any]) -> Bedding:
        return bedding_of(values)


class BuildUpFields(Request):
    """The stack between formation and slab."""

    sub_base = Object(SubBaseFields(), description="Stone under the laying course.")
    laying_course = Object(LayingCourseFields(), description="What the slabs sit in.")
    membrane = Object(RollFields(), description="A membrane under the sub-base, and the roll it comes on.")
    tapers = Choice(Tapers, default="none", description="Which layer takes the fall up, what is under it lying level.")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        roll = values["membrane"]
        if roll is not None:
            values["membrane"] = Roll(roll["width"], roll["length"], default("membranes", "lap"))
        return values


class JobPaving(PavingFields):
    """The slabs and how they are laid."""

    def make(self, values: dict[str, Any]) -> Paving:
        return replace(paving_of(values, Detail.cuts), effort=Effort.quick)


class JointingFields(FillerFields):
    """What fills the joints."""

    depth = Quantity(LENGTH, "joint_depth", description="That is filled; else the slab's thickness.", example="40 mm")

    def make(self, values: dict[str, Any]) -> Jointing:
        filler, depth, density = (values.pop(name) for name in ("filler", "depth", "density"))
        return Jointing(filler, depth, density, recipe_of(values))


class DigFields(DiggingFields):
    """What is dug and how."""

    peg_spacing = Quantity(LENGTH, "peg_spacing", description="Furthest from peg to peg.", example="1.8 m")
    damp_proof_course = Either(
        Quantity(POSITION, "level", example="0 mm"),
        Object(DampProofCourseFields()),
        DampProofCourse,
        description="Level of a damp-proof course relative to the datum; or its level and its wall.",
    )

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        spacing = default("levels", "peg_spacing").given(values.pop("peg_spacing"))
        dpc = values.pop("damp_proof_course")
        return {"peg_spacing": spacing, "damp_proof_course": dpc, "digging": digging_of(values)}


class JobEdging(Request):
    """A kerb or edging outside the paving, in concrete."""

    slab = Object(EdgingSlabFields(), required=True, description="What it is laid of.")
    height = Quantity(LENGTH, "slab_side", default="150 mm", description="Height of the edging itself.")
    joint = JointWidth(LENGTH, "joint", default="5 mm", description="Between slabs.", example="5 mm")
    sides = Objects(
        Count(1, MOST_POINTS, example=2),
        least=1,
        most=MOST_POINTS,
        description="Sides of the outline that are edged, as numbered by /v1/areas; all of them if left out.",
    )
    haunch = Object(HaunchFields(), description="Section of its concrete; as usual where left out.")
    mix = Object(HaunchMixing(), default={}, description="What the concrete is mixed of.")

    def make(self, values: dict[str, Any]) -> EdgingAsked:
        slab, sides = values["slab"], values["sides"]
        return EdgingAsked(
            EdgingSlab(slab["length"], slab["width"], values["joint"]),
            values["height"],
            None if sides is None else tuple(side - 1 for side in sides),
            values["haunch"] or Haunch(),
            values["mix"],
        )


class JobBorder(Request):
    """A course in another slab round the edge, the paving laid inside it."""

    slab = Object(SlabSize(), required=True, description="What it is laid of.")
    laid = Choice(Laid, default="soldier", description="Soldier: long side across the edge. Stretcher: along it.")
    joint = JointWidth(LENGTH, "joint", default="5 mm", description="Between its slabs, and to the field.")
    corner = Choice(Corner, default="mitred", description="How runs meet at a square corner.")

    def make(self, values: dict[str, Any]) -> BorderCourse:
        return BorderCourse(values["slab"], values["laid"], values["joint"], values["corner"])


class JobDrainage(Request):
    """What rain is reckoned with, and where the paving lies."""

    standard = Choice(Rain, default="approved_document_h", description="Whose rate of rain is reckoned with.")
    rainfall_rate = Quantity(RATE, "rain", description="In place of a standard's.", example="75 mm/h")
    surface = Choice(Surface, default="paving", description="What the rain falls on.")
    country = Choice(Country, default="elsewhere", description="Whose planning rules are looked at.")
    position = Choice(Position, default="elsewhere", description="Whether it lies between house and road.")
    drains_to = Choice(DrainsTo, default="road", description="Where the water goes.")

    def make(self, values: dict[str, Any]) -> Drainage:
        rate = rainfall(values["standard"])._replace(name="rainfall_rate").given(values["rainfall_rate"])
        share = run_off_coefficient(values["surface"])._replace(name="coefficient")
        return Drainage(rate, share, Place(values["country"], values["position"], values["drains_to"]))


class JobTree(Request):
    """A tree near the paving."""

    at = Object(PointSchema(), required=True, description="Where it stands on plan.")
    stem = Quantity(LENGTH, "stem", required=True, description="Diameter of its stem 1.5 m above the ground.")

    def make(self, values: dict[str, Any]) -> Tree:
        return Tree((values["stem"],), values["at"])


class JobProgramme(Request):
    """Who works, when, and how fast."""

    gang = Count(1, 100, default=2, description="How many work.")
    hours_per_day = Quantity(DURATION, "working_day", default="8 h", description="Work in a working day.")
    days_per_week = Count(1, 7, default=5, description="Days worked in a week, from Monday on.")
    start = Day(description="First day; a Monday if left out.", example="2027-03-15")
    outputs = Object(OutputFields(), description="What one person does in an hour, where it isn't as usual.")
    temperature = Quantity(TEMPERATURE, "temperature", description="Mean while cement sets.", example="8 degC")

    def make(self, values: dict[str, Any]) -> ProgrammeAsked:
        given = {Task(name): value for name, value in (values["outputs"] or {}).items() if value is not None}
        gang = Gang(values["gang"], values["hours_per_day"], values["days_per_week"], values["start"])
        return ProgrammeAsked(gang, usual_outputs(given), values["temperature"])


class AllowanceFields(Request):
    """Shares on top of what is counted, in per cent, for breakage and waste; never for cuts, which are counted."""

    slabs_percent = Number(0, 100, description="On the slabs.")
    sub_base_percent = Number(0, 100, description="On the sub-base.")
    laying_course_percent = Number(0, 100, description="On the laying course.")
    jointing_percent = Number(0, 100, description="On what fills the joints.")
    edging_percent = Number(0, 100, description="On the edging and its concrete.")


def one_depth(name: str, depth: Any) -> None:
    """Refuse a taper where the fall decides it.

    Raises
    ------
    OutOfRange
        If a layer's depth tapers by itself.
    """
    if depth.tapers:
        raise OutOfRange("Give one depth: with a fall, 'build_up.tapers' says which layer takes it up.", name)
