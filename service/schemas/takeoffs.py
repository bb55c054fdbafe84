"""The wire of take-offs: the whole job, and its bill."""

from typing import Any

from service.paving.errors import OutOfRange, within
from service.paving.falls import LEVEL
from service.paving.jobs import Allowances, Groundwork, Job
from service.paving.reference import default
from service.schemas.answers import Answer
from service.schemas.areas import AreaFigures
from service.schemas.beds import BedFigures
from service.schemas.borders import BorderFigures
from service.schemas.drainage import DrainageFigures
from service.schemas.edgings import EdgingFigures
from service.schemas.excavations import ExcavationFigures, ground_field
from service.schemas.figures import Figure, Figures, Money, Rows, Section, Tally, Word
from service.schemas.goods import offered_goods
from service.schemas.jobs import (
    AllowanceFields,
    BuildUpFields,
    DigFields,
    JobBorder,
    JobDrainage,
    JobEdging,
    JobPaving,
    JobProgramme,
    JobTree,
    JointingFields,
    one_depth,
)
from service.schemas.joints import FillingFigures
from service.schemas.layers import LayerFigures
from service.schemas.layouts import LayoutFigures
from service.schemas.levels import FallFields, LevelFigures, datum_field
from service.schemas.membranes import MembraneFigures
from service.schemas.nested import Object, Objects
from service.schemas.no_cut_sizes import NoCutSizeRow
from service.schemas.ordering import CostFigures, LoadFigures, PackRow, Share
from service.schemas.requests import Question, Request
from service.schemas.shapes import shape_field
from service.schemas.stages import ProgrammeFigures
from service.schemas.trees import TreeFigures

_SHARES = ("slabs", "sub_base", "laying_course", "jointing", "edging")
MOST_TREES = 20


class TakeOffFields(Request):
    """A whole job."""

    area = shape_field()
    paving = Object(JobPaving(), required=True, description="The slabs and how they are laid.")
    build_up = Object(BuildUpFields(), description="What lies under them.")
    jointing = Object(JointingFields(), description="What fills the joints.")
    edging = Object(JobEdging(), description="A kerb or edging outside the paving.")
    border = Object(JobBorder(), description="A course in another slab round the edge.")
    fall = Object(FallFields(), description="How the finished surface sheds water.")
    datum = datum_field()
    ground = ground_field()
    dig = Object(DigFields(), description="What is dug and how; with a fall or the ground it is as usual.")
    drainage = Object(JobDrainage(), description="Where the rain goes.")
    trees = Objects(Object(JobTree()), most=MOST_TREES, description="Trees whose roots may lie under it.")
    programme = Object(JobProgramme(), description="When it is done.")
    allowances = Object(AllowanceFields(), default={}, description="On top of what is counted.")

    def make(self, values: dict[str, Any]) -> Any:
        return job_of(values)


class TakeOffQuestion(TakeOffFields, Question):
    """A whole job, and goods to do it with beside the catalogue's."""

    goods = offered_goods()

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        return {"job": super().make(values), "offered": values["goods"] or ()}


def job_of(values: dict[str, Any]) -> Job:
    """Take the fields of a take-off out of the values and make them a job."""
    build_up = values.pop("build_up") or {}
    groundwork = _groundwork_of(values, build_up)
    return Job(
        area=values.pop("area"),
        paving=values.pop("paving"),
        groundwork=groundwork,
        sub_base=build_up.get("sub_base"),
        bedding=build_up.get("laying_course"),
        membrane=build_up.get("membrane"),
        edging=values.pop("edging"),
        border=values.pop("border"),
        jointing=values.pop("jointing"),
        drainage=values.pop("drainage"),
        trees=values.pop("trees") or (),
        programme=values.pop("programme"),
        allowances=_allowances_of(values.pop("allowances")),
    )


def _groundwork_of(values: dict[str, Any], build_up: dict[str, Any]) -> Groundwork | None:
    fall, ground, dig, datum = (values.pop(name) for name in ("fall", "ground", "dig", "datum"))
    tapers = build_up.get("tapers")
    if fall is None and ground is None and dig is None:
        if tapers not in (None, "none"):
            with within("build_up"):
                raise OutOfRange("A layer takes up a fall: say which way the surface falls.", "tapers")
        return None
    for name in ("sub_base", "laying_course"):
        if build_up.get(name):
            with within("build_up", name):
                one_depth("depth_from", build_up[name].depth)
    digging = dig or DigFields().made(DigFields().load({}))
    return Groundwork(fall=fall or LEVEL, datum=datum, ground=ground, tapers=tapers or _NO_TAPER, **digging)


_NO_TAPER = BuildUpFields().load({})["tapers"]


def _allowances_of(given: dict[str, Any]) -> Allowances:
    shares = {name: given[f"{name}_percent"] for name in _SHARES}
    parts = {name: None if share is None else share / 100 for name, share in shares.items()}
    return Allowances(**{name: default("takeoffs", f"{name}_allowance").given(parts[name]) for name in _SHARES})


class BillRow(Figures):
    """One line of the bill."""

    line = Tally("Its place, in order of work.")
    section = Word("Part of the job.")
    item = Word("What it is: a key of /v1/materials, or slab, edging, cement, membrane, spoil, fill.")
    name = Word("What it is called.")
    sku = Word("Stock number of the good; none if the catalogue has nothing for it.", optional=True)
    net = Figure("What is counted, in `unit`.")
    allowance_percent = Figure("On top, for breakage and waste.")
    gross = Figure("What is needed, in `unit`.")
    unit = Word("Unit of the line.")
    packs = Rows(PackRow(), description="What to buy, for this line and for those `bought_with` it.")
    surplus = Figure("What is bought beyond the gross quantity of all those lines, in `unit`.", optional=True)
    mass_kg = Figure("Mass of what is bought; 0 for what isn't.")
    price = Money("Price of what is bought, where the catalogue has prices.", optional=True)
    pallets = Share("Pallet places it fills, parts of one included.")
    bought_with = Tally("Line whose packs hold this one's quantity too; none where it has its own.", optional=True)


class TakeOffAnswer(Answer):
    """The quantities of a whole job."""

    table = "bill"
    bill = Rows(BillRow(), description="What to buy, in order of work.")
    mass_t = Figure("Mass of all that is bought.")
    price = Money("Sum of the bill's prices, where every line has one.", optional=True)
    cost = Section(CostFigures(), description="What there is to pay, with tax and deposits.", optional=True)
    carriage = Section(LoadFigures(), description="How it is carried.", of="loads")
    area = Section(AreaFigures(), description="What is paved.", of="measured.area")
    levels = Section(LevelFigures(), description="Pegs and falls.", of="measured.groundwork.levels", optional=True)
    excavation = Section(
        ExcavationFigures(), description="Dig and spoil.", of="measured.groundwork.excavation", optional=True
    )
    membrane = Section(MembraneFigures(), description="Under the sub-base.", of="measured.membrane", optional=True)
    sub_base = Section(
        LayerFigures(), description="Stone under the laying course.", of="measured.sub_base", optional=True
    )
    edging = Section(EdgingFigures(), description="Outside the paving.", of="measured.edging", optional=True)
    laying_course = Section(
        BedFigures(), description="What the slabs sit in.", of="measured.laying_course", optional=True
    )
    border = Section(BorderFigures(), description="Round the edge.", of="measured.border", optional=True)
    layout = Section(LayoutFigures(), description="The slabs as laid.", of="measured.layout")
    jointing = Section(FillingFigures(), description="What fills the joints.", of="measured.jointing", optional=True)
    drainage = Section(DrainageFigures(), description="Where the rain goes.", of="measured.drainage", optional=True)
    trees = Rows(TreeFigures(), description="Roots under the paving.", of="measured.trees")
    programme = Section(ProgrammeFigures(), description="When it is done.", optional=True)
    no_cut_size = Section(NoCutSizeRow(), description="The nearest size that would need no cut.", optional=True)
