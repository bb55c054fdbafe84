"""Take-offs: the measured quantities of a whole job, from the shape and the build-up to the bill."""

from dataclasses import dataclass
from decimal import Decimal

from service.paving.areas import Area, AreaFigures, area_figures
from service.paving.bills import BillLine, Want, bill
from service.paving.cautions import caution
from service.paving.errors import within
from service.paving.handling import caution_lifting, slab_density, slab_mass
from service.paving.joints import Filler
from service.paving.layers import Layer
from service.paving.laying_courses import Bedding, LayingCourse, Recipe, laying_course
from service.paving.layouts import Layout, Paving
from service.paving.materials import material
from service.paving.mixes import Mix
from service.paving.no_cut_shapes import no_cut_suggestion
from service.paving.no_cut_sizes import NoCutSize
from service.paving.ordering.goods import Goods, Unit
from service.paving.pointing import JointFilling, pointed_layout, pointing_of
from service.paving.reference import Assumption
from service.paving.sheets import Sheet
from service.paving.slabs import Slab
from service.paving.sub_bases import SubBase, sub_base
from service.paving.worked_layouts import worked_layout

#: By definition of the tonne.
KILOGRAMS_IN_TONNE = 1000


@dataclass(frozen=True, slots=True)
class Jointing:
    """What the joints are filled with; as deep as the thinnest slab unless a depth is given [m]."""

    filler: Filler
    depth: float | None
    density: float | None
    recipe: Recipe


@dataclass(frozen=True, slots=True)
class Allowances:
    """Shares on top of what is counted, for breakage and waste."""

    slabs: Assumption
    sub_base: Assumption
    laying_course: Assumption
    jointing: Assumption


@dataclass(frozen=True, slots=True)
class Job:
    """A whole job.

    Parameters
    ----------
    area : Area
        What is paved.
    paving : Paving
        The slabs and how they are laid.
    sub_base : SubBase or None
        Stone under the laying course, if any.
    bedding : Bedding or None
        The laying course, if any.
    jointing : Jointing or None
        What fills the joints, if anything.
    allowances : Allowances
        Shares on top.
    """

    area: Area
    paving: Paving
    sub_base: SubBase | None
    bedding: Bedding | None
    jointing: Jointing | None
    allowances: Allowances


@dataclass(frozen=True, slots=True)
class TakeOff:
    """The quantities of a job by section, and the bill; mass of all that is bought [kg].

    `no_cut_size` is the nearest size that would need no cut, where the job needs cuts and there is one.
    """

    area: AreaFigures
    sub_base: Layer | None
    laying_course: LayingCourse | None
    layout: Layout
    jointing: JointFilling | None
    bill: tuple[BillLine, ...]
    mass: float
    price: Decimal | None
    no_cut_size: NoCutSize | None


def takeoff(sheet: Sheet, job: Job, goods: Goods) -> TakeOff:
    """Take off a job.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    job : Job
        The job.
    goods : Goods
        What the merchant sells.

    Raises
    ------
    PavingError
        As the sums of its sections raise it, with the section in front of the place.
    """
    measured = area_figures(sheet.section("area"), job.area)
    with within("paving"):
        laid = worked_layout(sheet.section("layout"), job.area, job.paving)
    stone = _sub_base(sheet, job)
    course = _laying_course(sheet, job)
    filling = _jointing(sheet, job, laid)
    wants = [
        *_sub_base_wants(job, stone),
        *_laying_course_wants(job, course),
        *_slab_wants(sheet, job, laid),
        *_jointing_wants(job, filling),
    ]
    lines = bill(sheet, wants, goods)
    _cautions(sheet)
    return TakeOff(
        area=measured,
        sub_base=stone,
        laying_course=course,
        layout=laid,
        jointing=filling,
        bill=lines,
        mass=sum(line.mass for line in lines),
        price=_total(lines),
        no_cut_size=_suggestion(job, laid),
    )


def _suggestion(job: Job, laid: Layout) -> NoCutSize | None:
    if not laid.slabs_cut or len(job.paving.slabs) > 1:
        return None
    found = no_cut_suggestion(job.area, job.paving.slabs[0], job.paving.joint)
    return found.sizes[0] if found and found.sizes else None


def _sub_base(sheet: Sheet, job: Job) -> Layer | None:
    if job.sub_base is None:
        return None
    with within("build_up", "sub_base"):
        return sub_base(sheet.section("sub_base"), job.area, job.sub_base)


def _laying_course(sheet: Sheet, job: Job) -> LayingCourse | None:
    if job.bedding is None:
        return None
    with within("build_up", "laying_course"):
        slab, joint = job.paving.slabs[0], job.paving.joint
        return laying_course(sheet.section("laying_course"), job.area, job.bedding, slab, joint)


def _jointing(sheet: Sheet, job: Job, laid: Layout) -> JointFilling | None:
    if job.jointing is None or not laid.joint_area:
        return None
    asked, section = job.jointing, sheet.section("jointing")
    depth = section.assume(_joint_depth(job, asked))
    pointing = pointing_of(asked.filler, depth, asked.density, asked.recipe)
    with within("jointing"):
        return pointed_layout(section, laid.joint_area, laid.joint_length, job.paving.joint, pointing)


def _joint_depth(job: Job, asked: Jointing) -> Assumption:
    """The depth asked for, or the thickness of the thinnest slab [m]."""
    thickness = min(slab.thickness for slab in job.paving.slabs)
    full = Assumption("jointing depth", thickness, "m", thickness, thickness, "common practice", "")
    return full.given(asked.depth)


def _sub_base_wants(job: Job, laid: Layer | None) -> list[Want]:
    if job.sub_base is None or laid is None:
        return []
    stone = job.sub_base.material
    measures = by_tonne(laid.mass, laid.loose_volume)
    return [Want("sub_base", stone.key, stone.name, laid.mass, measures, job.allowances.sub_base)]


def _laying_course_wants(job: Job, course: LayingCourse | None) -> list[Want]:
    if job.bedding is None or course is None:
        return []
    allowance = job.allowances.laying_course
    if course.mix is not None:
        return mix_wants("laying_course", course.mix, "sharp_sand", allowance)
    sand = job.bedding.material
    measures = by_tonne(course.bed.mass, course.bed.loose_volume)
    return [Want("laying_course", sand.key, sand.name, course.bed.mass, measures, allowance)]


def _slab_wants(sheet: Sheet, job: Job, laid: Layout) -> list[Want]:
    wants = []
    for slab, count in zip(job.paving.slabs, laid.by_slab, strict=True):
        each = _slab_mass(sheet, slab)
        measures: dict[Unit, float] = {"each": float(count.to_buy), "m2": count.to_buy * slab.length * slab.width}
        wants.append(Want("paving", "slab", slab.name, each * count.to_buy, measures, job.allowances.slabs, slab))
    return wants


def _slab_mass(sheet: Sheet, slab: Slab) -> float:
    section = sheet.section(f"paving.{slab.name}")
    density = sheet.assume(slab_density(slab.made_of))
    mass = section.work("slab_mass", slab_mass, slab.length, slab.width, slab.thickness, density)
    caution_lifting(sheet, mass, f"A slab of {slab.name}")
    return mass


def _jointing_wants(job: Job, filling: JointFilling | None) -> list[Want]:
    if job.jointing is None or filling is None:
        return []
    allowance = job.allowances.jointing
    if filling.mix is not None:
        return mix_wants("jointing", filling.mix, "building_sand", allowance)
    filler, mass = material(job.jointing.filler.value), filling.joints.mass
    return [Want("jointing", filler.key, filler.name, mass, by_kilogram(mass), allowance)]


def mix_wants(section: str, mixed: Mix, sand: str, allowance: Assumption) -> list[Want]:
    """What a mix wants: cement by the kilogram, then its sand."""
    kind = material(sand)
    return [
        Want(section, "cement", "Cement", mixed.cement, by_kilogram(mixed.cement), allowance),
        Want(section, sand, kind.name, mixed.sand_mass, by_tonne(mixed.sand_mass, mixed.sand_volume), allowance),
    ]


def by_tonne(mass: float, loose_volume: float) -> dict[Unit, float]:
    """A mass [kg] in each unit it can be sold in, by the tonne first, or by its loose volume [m3]."""
    return {"t": mass / KILOGRAMS_IN_TONNE, "kg": mass, "m3": loose_volume}


def by_kilogram(mass: float) -> dict[Unit, float]:
    """A mass [kg] in each unit it can be sold in, by the kilogram first."""
    return {"kg": mass, "t": mass / KILOGRAMS_IN_TONNE}


def _total(lines: tuple[BillLine, ...]) -> Decimal | None:
    """Price of the whole bill; none if a line has none."""
    prices = [line.price for line in lines]
    return None if any(price is None for price in prices) else sum((p for p in prices if p is not None), Decimal(0))


def _cautions(sheet: Sheet) -> None:
    sheet.caution(caution("estimate", "Every figure is worked from the sizes given."))
    sheet.caution(caution("local_codes", "A take-off covers ground, drainage and structure."))
