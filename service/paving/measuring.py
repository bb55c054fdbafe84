"""Measuring: the quantities of a job, part by part in order of work."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from service.paving.areas import AreaFigures, area_figures
from service.paving.borders import Border, border
from service.paving.build_ups import BuildUp, LayerDepth
from service.paving.depths import Depth
from service.paving.drainage import RunOff, drainage
from service.paving.edgings import Edges, Edging, edging
from service.paving.errors import OutOfRange, within
from service.paving.groundworks import Groundwork, Site, groundwork
from service.paving.jobs import Job, Jointing
from service.paving.layers import Layer
from service.paving.laying_courses import LayingCourse, laying_course
from service.paving.layouts import Layout
from service.paving.membranes import Membrane, membrane
from service.paving.pointing import JointFilling, pointed_layout, pointing_of
from service.paving.reference import Assumption
from service.paving.sheets import Sheet
from service.paving.sub_bases import sub_base
from service.paving.trees import RootProtection, root_protection
from service.paving.worked_layouts import worked_layout


@dataclass(frozen=True, slots=True)
class Measured:
    """The quantities of a job, part by part; what isn't asked for is None."""

    area: AreaFigures
    groundwork: Groundwork | None
    sub_base: Layer | None
    membrane: Membrane | None
    edging: Edging | None
    border: Border | None
    laying_course: LayingCourse | None
    layout: Layout
    jointing: JointFilling | None
    drainage: RunOff | None
    trees: tuple[RootProtection, ...]


def measured(sheet: Sheet, job: Job) -> Measured:
    """Measure a job, part by part in order of work."""
    size = area_figures(sheet.section("area"), job.area)
    ground = _groundwork(sheet, job)
    with within("border"):
        course = border(sheet.section("border"), job.area, job.border) if job.border else None
    field = course.field if course else job.area
    with within("paving"):
        laid = worked_layout(sheet.section("layout"), field, job.paving)
    return Measured(
        area=size,
        groundwork=ground,
        sub_base=_sub_base(sheet, job, ground),
        membrane=membrane(sheet.section("membrane"), job.area, job.membrane) if job.membrane else None,
        edging=_edging(sheet, job),
        border=course,
        laying_course=_laying_course(sheet, job, ground),
        layout=laid,
        jointing=_jointing(sheet, job, laid, course),
        drainage=_drainage(sheet, job),
        trees=tuple(_trees(sheet, job)),
    )


def _groundwork(sheet: Sheet, job: Job) -> Groundwork | None:
    asked = job.groundwork
    if asked is None:
        return None
    stack = BuildUp(
        slab_thickness=max(slab.thickness for slab in job.paving.slabs),
        laying_course=job.bedding.depth.least if job.bedding else 0.0,
        sub_base=job.sub_base.depth.least if job.sub_base else 0.0,
        tapers=asked.tapers,
    )
    site = Site(asked.fall, asked.datum, stack, asked.ground, asked.digging, asked.peg_spacing, asked.damp_proof_course)
    return groundwork(sheet, job.area, site)


def _under_fall(depth: Depth, found: LayerDepth | None) -> Depth:
    """The depth a layer comes out at where it takes up the fall; as asked where it doesn't."""
    if found is None or found.least == found.greatest:
        return depth
    return Depth(found.least, found.greatest, mean=found.mean)


def _sub_base(sheet: Sheet, job: Job, ground: Groundwork | None) -> Layer | None:
    if job.sub_base is None:
        return None
    depth = _under_fall(job.sub_base.depth, ground.sub_base if ground else None)
    with within("build_up", "sub_base"):
        return sub_base(sheet.section("sub_base"), job.area, replace(job.sub_base, depth=depth))


def _edging(sheet: Sheet, job: Job) -> Edging | None:
    asked = job.edging
    if asked is None:
        return None
    with within("edging"):
        edges = Edges(job.area, sides=asked.sides)
        return edging(sheet.section("edging"), edges, asked.slab, asked.haunch, asked.recipe)


def _laying_course(sheet: Sheet, job: Job, ground: Groundwork | None) -> LayingCourse | None:
    if job.bedding is None:
        return None
    depth = _under_fall(job.bedding.depth, ground.laying_course if ground else None)
    with within("build_up", "laying_course"):
        slab, joint = job.paving.slabs[0], job.paving.joint
        return laying_course(sheet.section("laying_course"), job.area, replace(job.bedding, depth=depth), slab, joint)


def _jointing(sheet: Sheet, job: Job, laid: Layout, course: Border | None) -> JointFilling | None:
    area, length = laid.joint_area, laid.joint_length
    if job.border is not None and course is not None:
        area, length = area + course.joint_length * job.border.joint, length + course.joint_length
    if job.jointing is None or not area or not _jointed(job):
        return None
    asked, section = job.jointing, sheet.section("jointing")
    depth = section.assume(_joint_depth(job, asked))
    pointing = pointing_of(asked.filler, depth, asked.density, asked.recipe)
    with within("jointing"):
        return pointed_layout(section, area, length, job.paving.joint, pointing)


def _jointed(job: Job) -> bool:
    """Whether any joint was asked for: what edge to edge leaves, thinner than the least strip, isn't filled."""
    return bool(job.paving.joint or (job.border and job.border.joint))


def _joint_depth(job: Job, asked: Jointing) -> Assumption:
    """The depth asked for, or the thickness of the thinnest slab [m].

    Raises
    ------
    OutOfRange
        If the joints are to be filled deeper than the slabs are thick.
    """
    thickness = min(slab.thickness for slab in job.paving.slabs)
    if asked.depth is not None and asked.depth > thickness:
        raise OutOfRange(
            f"A joint is no deeper than the slab beside it: at most {thickness * 1000:g} mm here.", "jointing", "depth"
        )
    full = Assumption("jointing depth", thickness, "m", thickness, thickness, "common practice", "")
    return full.given(asked.depth)


def _drainage(sheet: Sheet, job: Job) -> RunOff | None:
    if job.drainage is None:
        return None
    asked = job.drainage
    with within("drainage"):
        return drainage(sheet.section("drainage"), job.area, asked.rate, asked.coefficient, job.fall, asked.place)


def _trees(sheet: Sheet, job: Job) -> Iterator[RootProtection]:
    for k, tree in enumerate(job.trees):
        with within("trees", k):
            yield root_protection(sheet.section(f"trees.{k}"), job.area, tree)
