"""Schedules: the programme of a job from its measured quantities."""

from collections.abc import Mapping

from service.paving.beds import Method
from service.paving.errors import within
from service.paving.jobs import Job
from service.paving.measuring import Measured, measured
from service.paving.programmes import Gang, Programme, programme, usual_waits
from service.paving.sheets import Sheet
from service.paving.stages import BedKind, Outputs, Quantities


def scheduled(sheet: Sheet, job: Job, found: Measured) -> Programme:
    """Put a measured job into time.

    Raises
    ------
    OutOfRange
        As `programme` raises it.
    """
    asked = job.programme
    assert asked is not None
    work = quantities(job, found)
    return programme(sheet, work, asked.outputs, asked.gang, usual_waits(work.filler), asked.temperature)


def planned(
    sheet: Sheet,
    work: Job | Quantities,
    outputs: Outputs,
    gang: Gang,
    waits: Mapping[str, float],
    temperature: float | None,
) -> Programme:
    """Put a job, or its quantities, into time.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    work : Job or Quantities
        The job, which is measured first, or what there is to do.
    outputs, gang, temperature
        As `programme` takes them.
    waits : mapping of str to float
        Waits that aren't as usual, by their names in `Waits` [s].

    Raises
    ------
    OutOfRange
        As `programme` raises it.
    """
    if isinstance(work, Job):
        with within("takeoff"):
            work = quantities(work, measured(sheet.section("takeoff"), work))
    return programme(sheet, work, outputs, gang, usual_waits(work.filler, waits), temperature)


def quantities(job: Job, found: Measured) -> Quantities:
    """What there is to do of each kind."""
    dig = found.groundwork.excavation if found.groundwork else None
    screeded = job.bedding is not None and job.bedding.method is Method.SCREEDED
    pointed = {"filler": job.jointing.filler} if job.jointing else {}
    return Quantities(
        area=job.area.net,
        dig=dig.volume_in_place if dig else 0.0,
        sub_base=found.sub_base.compacted_volume if found.sub_base else 0.0,
        lifts=found.sub_base.lifts if found.sub_base else 1,
        membrane=found.membrane.used if found.membrane else 0.0,
        edging=found.edging.length if found.edging else 0.0,
        haunched=found.edging.concrete if found.edging else 0.0,
        bed=found.laying_course.bed.volume if found.laying_course else 0.0,
        bed_kind=BedKind.SCREEDED if screeded else BedKind.MORTAR,
        laid=job.area.net,
        cuts=found.layout.slabs_cut + (found.border.cut if found.border else 0),
        joint=found.jointing.joints.joint_length if found.jointing else 0.0,
        **pointed,
    )
