"""Wants: what each part of a job needs to be bought, in order of work."""

from collections.abc import Iterator

from service.paving.borders import Border
from service.paving.edgings import Edging
from service.paving.excavations import Excavation
from service.paving.handling import caution_lifting, slab_density, slab_mass
from service.paving.jobs import Job, Jointing
from service.paving.layers import Layer
from service.paving.laying_courses import Bedding, LayingCourse
from service.paving.layouts import Layout
from service.paving.materials import material
from service.paving.membranes import Membrane, Roll
from service.paving.mixes import Mix
from service.paving.ordering.goods import Unit
from service.paving.ordering.purchases import Want
from service.paving.pointing import JointFilling
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet
from service.paving.slabs import Slab
from service.paving.sub_bases import SubBase

#: By definition of the tonne.
KILOGRAMS_IN_TONNE = 1000


def ground_wants(dig: Excavation) -> Iterator[Want]:
    """Spoil to be carted away and fill to be brought in; neither is a merchant's good."""
    none = default("takeoffs", "no_allowance")
    if dig.carted_loose:
        measures: dict[Unit, float] = {"m3": dig.carted_loose}
        yield Want("ground", "spoil", "Spoil to cart away, loose", 0.0, measures, none)
    if dig.fill_imported:
        yield Want("ground", "fill", "Fill to bring in, compacted", 0.0, {"m3": dig.fill_imported}, none)


def sub_base_wants(asked: SubBase, laid: Layer, allowance: Assumption) -> Iterator[Want]:
    """Stone of the sub-base."""
    stone, measures = asked.material, by_tonne(laid.mass, laid.loose_volume)
    yield Want("sub_base", stone.key, stone.name, laid.mass, measures, allowance)


def membrane_wants(roll: Roll, laid: Membrane) -> Iterator[Want]:
    """Rolls of membrane: counted as rolled out, laps and all."""
    measures: dict[Unit, float] = {"m2": laid.rolls * roll.width * roll.length}
    none, size = default("takeoffs", "no_allowance"), (roll.length, roll.width)
    yield Want("membrane", "membrane", "Membrane", 0.0, measures, none, roll=size)


def edging_wants(sheet: Sheet, slab: Slab, laid: Edging, allowance: Assumption) -> Iterator[Want]:
    """Edging slabs, then what their concrete is mixed of."""
    yield _slabs(sheet, "edging", "edging", slab, laid.slabs, allowance)
    if laid.mix is not None:
        yield from mix_wants("edging", laid.mix, "sharp_sand", allowance)


def laying_course_wants(asked: Bedding, course: LayingCourse, allowance: Assumption) -> Iterator[Want]:
    """What the bed is made of."""
    if course.mix is not None:
        yield from mix_wants("laying_course", course.mix, "sharp_sand", allowance)
        return
    sand = asked.material
    measures = by_tonne(course.bed.mass, course.bed.loose_volume)
    yield Want("laying_course", sand.key, sand.name, course.bed.mass, measures, allowance)


def paving_wants(sheet: Sheet, job: Job, laid: Layout, border: Border | None) -> Iterator[Want]:
    """Slabs of the border, then of the field, size by size."""
    if job.border is not None and border is not None:
        yield _slabs(sheet, "border", "slab", job.border.slab, border.slabs, job.allowances.slabs)
    for slab, count in zip(job.paving.slabs, laid.by_slab, strict=True):
        yield _slabs(sheet, "paving", "slab", slab, count.to_buy, job.allowances.slabs)


def jointing_wants(asked: Jointing, filling: JointFilling, allowance: Assumption) -> Iterator[Want]:
    """What fills the joints."""
    if filling.mix is not None:
        yield from mix_wants("jointing", filling.mix, "building_sand", allowance)
        return
    filler, mass = material(asked.filler.value), filling.joints.mass
    yield Want("jointing", filler.key, filler.name, mass, by_kilogram(mass), allowance)


def mix_wants(section: str, mixed: Mix, sand: str, allowance: Assumption) -> Iterator[Want]:
    """What a mix wants: cement by the kilogram, then its sand, then its stone."""
    yield Want(section, "cement", "Cement", mixed.cement, by_kilogram(mixed.cement), allowance)
    for key, mass, volume in (
        (sand, mixed.sand_mass, mixed.sand_volume),
        ("aggregate_20mm", mixed.aggregate_mass, mixed.aggregate_volume),
    ):
        if mass:
            yield Want(section, key, material(key).name, mass, by_tonne(mass, volume), allowance)


def by_tonne(mass: float, loose_volume: float) -> dict[Unit, float]:
    """A mass [kg] in each unit it can be sold in, by the tonne first, or by its loose volume [m3]."""
    return {"t": mass / KILOGRAMS_IN_TONNE, "kg": mass, "m3": loose_volume}


def by_kilogram(mass: float) -> dict[Unit, float]:
    """A mass [kg] in each unit it can be sold in, by the kilogram first."""
    return {"kg": mass, "t": mass / KILOGRAMS_IN_TONNE}


def _slabs(sheet: Sheet, section: str, item: str, slab: Slab, number: int, allowance: Assumption) -> Want:
    density = sheet.assume(slab_density(slab.made_of))
    worked = sheet.section(f"{section}.{slab.name}")
    each = worked.work("slab_mass", slab_mass, slab.length, slab.width, slab.thickness, density)
    caution_lifting(sheet, each, f"A slab of {slab.name}")
    measures: dict[Unit, float] = {"each": float(number), "m2": number * slab.length * slab.width}
    return Want(section, item, slab.name, each * number, measures, allowance, slab)
