"""The wire of take-offs: the whole job."""

from typing import Any

from service.paving.laying_courses import Bedding
from service.paving.layouts import Detail, Paving
from service.paving.reference import default
from service.paving.sub_bases import SubBase
from service.paving.takeoffs import Allowances, Job, Jointing
from service.schemas.answers import Answer, Figure, Figures, Money, Rows, Section, Tally, Word
from service.schemas.areas import AreaFigures
from service.schemas.beds import BeddingFields, BedFigures, bedding_of
from service.schemas.fields import Number, Object, Quantity
from service.schemas.joints import FillerFields, FillingFigures
from service.schemas.layers import LayerFields, LayerFigures, sub_base_of
from service.schemas.layouts import LayoutFigures, PavingFields, paving_of
from service.schemas.mixes import recipe_of
from service.schemas.no_cut_sizes import NoCutSizeRow
from service.schemas.quantities import LENGTH
from service.schemas.requests import Question, Request
from service.schemas.shapes import shape_field

_SHARES = ("slabs", "sub_base", "laying_course", "jointing")


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


class TakeOffPaving(PavingFields):
    """The slabs and how they are laid."""

    def make(self, values: dict[str, Any]) -> Paving:
        return paving_of(values, Detail.cuts)


class JointingFields(FillerFields):
    """What fills the joints."""

    depth = Quantity(LENGTH, "joint_depth", description="That is filled; else the slab's thickness.", example="40 mm")

    def make(self, values: dict[str, Any]) -> Jointing:
        filler, depth, density = (values.pop(name) for name in ("filler", "depth", "density"))
        return Jointing(filler, depth, density, recipe_of(values))


class AllowanceFields(Request):
    """Shares on top of what is counted, in per cent, for breakage and waste; never for cuts, which are counted."""

    slabs_percent = Number(0, 100, description="On the slabs.")
    sub_base_percent = Number(0, 100, description="On the sub-base.")
    laying_course_percent = Number(0, 100, description="On the laying course.")
    jointing_percent = Number(0, 100, description="On what fills the joints.")

    def make(self, values: dict[str, Any]) -> Allowances:
        return allowances_of(values)


def allowances_of(values: dict[str, Any]) -> Allowances:
    """Allowances, by default where they aren't given."""
    given = {name: values.get(f"{name}_percent") for name in _SHARES}
    shares = {name: None if value is None else value / 100 for name, value in given.items()}
    return Allowances(**{name: default("takeoffs", f"{name}_allowance").given(shares[name]) for name in _SHARES})


class TakeOffQuestion(Question):
    """A whole job."""

    area = shape_field()
    paving = Object(TakeOffPaving(), required=True, description="The slabs and how they are laid.")
    build_up = Object(BuildUpFields(), description="What lies under them.")
    jointing = Object(JointingFields(), description="What fills the joints.")
    allowances = Object(AllowanceFields(), description="On top of what is counted.")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        build_up = values["build_up"] or {}
        job = Job(
            area=values["area"],
            paving=values["paving"],
            sub_base=build_up.get("sub_base"),
            bedding=build_up.get("laying_course"),
            jointing=values["jointing"],
            allowances=values["allowances"] or allowances_of({}),
        )
        return {"job": job}


class PackRow(Figures):
    """So many of one pack."""

    pack = Word("What the counter calls it.", of="pack.name")
    sku = Word("Its stock number.", of="pack.sku")
    count = Tally("How many.")


class BillRow(Figures):
    """One line of the bill."""

    line = Tally("Its place, in order of work.")
    section = Word("Part of the job.")
    item = Word("What it is: a key of /v1/materials, or slab, cement.")
    name = Word("What it is called.")
    sku = Word("Stock number of the good; none if the catalogue has nothing for it.", optional=True)
    net = Figure("What is counted, in `unit`.")
    allowance_percent = Figure("On top, for breakage and waste.")
    gross = Figure("What is needed, in `unit`.")
    unit = Word("Unit of the line.")
    packs = Rows(PackRow(), description="What to buy.")
    surplus = Figure("What is bought beyond the gross quantity, in `unit`.", optional=True)
    mass_kg = Figure("Mass of what is bought.")
    price = Money("Price of what is bought, where the catalogue has prices.", optional=True)


class TakeOffAnswer(Answer):
    """The quantities of a whole job."""

    table = "bill"
    bill = Rows(BillRow(), description="What to buy, in order of work.")
    mass_t = Figure("Mass of all that is bought.")
    price = Money("Price of all that is bought, where every line has one.", optional=True)
    area = Section(AreaFigures(), description="What is paved.")
    sub_base = Section(LayerFigures(), description="Stone under the laying course.", optional=True)
    laying_course = Section(BedFigures(), description="What the slabs sit in.", optional=True)
    layout = Section(LayoutFigures(), description="The slabs as laid.")
    jointing = Section(FillingFigures(), description="What fills the joints.", optional=True)
    no_cut_size = Section(NoCutSizeRow(), description="The nearest size that would need no cut.", optional=True)
