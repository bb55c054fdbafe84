"""Steps: risers and treads from the ground up to the paving, whose edge is the last tread.

                going
              |<----->|       ______  paving
                      +------'
              +-------'  | rise
      +-------'
______'
"""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.cautions import caution
from service.paving.counts import ceil, floor
from service.paving.courses import Course, straight_run
from service.paving.errors import OutOfRange
from service.paving.flights import core_volume, riser_height, steps_run, two_rises_and_going, usual_going
from service.paving.reference import default
from service.paving.sheets import Sheet


class StepKind(StrEnum):
    """What the steps are."""

    GARDEN = "garden"
    APPROACH = "approach"
    PRIVATE_STAIR = "private_stair"
    GENERAL_STAIR = "general_stair"


@dataclass(frozen=True, slots=True)
class TreadSlab:
    """The slab a tread is laid of: its length along the step, thickness with its bed, and joint [m]."""

    length: float
    thickness: float
    joint: float


@dataclass(frozen=True, slots=True)
class StepJob:
    """Steps as they are asked for.

    Parameters
    ----------
    rise : float
        Height to climb [m].
    width : float
        Width of the steps [m].
    kind : StepKind
        What they are, which sets their limits.
    tread : TreadSlab
        What treads are laid of.
    risers : int or None
        How many, if that is wished; as few as may be if None.
    going : float or None
        Going of a tread [m]; by two rises and a going if None.
    """

    rise: float
    width: float
    kind: StepKind
    tread: TreadSlab
    risers: int | None = None
    going: float | None = None


@dataclass(frozen=True, slots=True)
class Steps:
    """A flight of steps.

    Parameters
    ----------
    risers, treads : int
        One riser more than treads: the paving is the last tread.
    rise, going : float
        Of each step [m].
    pace : float
        Two rises and a going [m].
    length : float
        Length of the flight on plan [m].
    tread_area : float
        Area of all treads [m2].
    riser_length : float
        Length of all risers, to be faced or built [m].
    slabs, cut : int
        Tread slabs to buy, and of these cut.
    core : float
        Volume under the treads and their beds above the ground [m3].
    """

    risers: int
    treads: int
    rise: float
    going: float
    pace: float
    length: float
    tread_area: float
    riser_length: float
    slabs: int
    cut: int
    core: float


def steps(sheet: Sheet, job: StepJob) -> Steps:
    """Draw up steps.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    job : StepJob
        What is asked for.

    Raises
    ------
    OutOfRange
        If no even rise within the limits makes up the height, at ``("rise",)``; if so many
        risers are too high or too low, at ``("risers",)``; if the going isn't allowed, at
        ``("going",)``; or a tread is as thick as a rise, at ``("tread",)``.

    References
    ----------
    Approved Documents K and M by kind, quoted from memory; garden steps by common practice
    """
    risers = _risers(job)
    treads = risers - 1
    sheet.assume(default("steps", f"{job.kind}_rise"))
    rise = sheet.work("rise", riser_height, job.rise, risers)
    if job.tread.thickness >= rise:
        raise OutOfRange(f"A tread with its bed must be thinner than the rise, {rise * 1000:.0f} mm.", "tread")
    going = _going(sheet, job, rise)
    along = straight_run(sheet.section("tread"), job.width, Course(job.tread.length, going, job.tread.joint))
    found = Steps(
        risers=risers,
        treads=treads,
        rise=rise,
        going=going,
        pace=sheet.work("pace", two_rises_and_going, rise, going),
        length=sheet.work("length", steps_run, treads, going),
        tread_area=treads * going * job.width,
        riser_length=risers * job.width,
        slabs=treads * along.slabs,
        cut=treads * along.cut,
        core=sheet.work("core", core_volume, treads, rise, going, job.width, job.tread.thickness),
    )
    _cautions(sheet, job, found)
    return found


def _risers(job: StepJob) -> int:
    limits = default("steps", f"{job.kind}_rise")
    fewest, most = max(ceil(job.rise / limits.high), 1), floor(job.rise / limits.low)
    allowed = f"{limits.low * 1000:g} to {limits.high * 1000:g} mm"
    if most < fewest:
        raise OutOfRange(
            f"No even rise of {allowed} makes up {job.rise * 1000:g} mm: change the height, or ramp it.", "rise"
        )
    risers = fewest if job.risers is None else job.risers
    if not fewest <= risers <= most:
        raise OutOfRange(
            f"{risers} risers would be {job.rise / risers * 1000:.0f} mm each; {allowed} is allowed: "
            f"give {fewest}{f' to {most}' if most > fewest else ''}.",
            "risers",
        )
    return risers


def _going(sheet: Sheet, job: StepJob, rise: float) -> float:
    limits = default("steps", f"{job.kind}_going")
    if job.going is None:
        pace = sheet.assume(default("steps", "pace"))
        sheet.assume(limits)
        return sheet.work("going", usual_going, pace, rise, limits.low, limits.high)
    if not limits.low * (1 - 1e-9) <= job.going <= limits.high * (1 + 1e-9):
        allowed = f"{limits.low * 1000:g} to {limits.high * 1000:g} mm"
        raise OutOfRange(f"A going of {job.going * 1000:g} mm isn't allowed: give {allowed}.", "going")
    return job.going


def _cautions(sheet: Sheet, job: StepJob, found: Steps) -> None:
    pace = default("steps", "pace")
    if not pace.low * (1 - 1e-9) <= found.pace <= pace.high * (1 + 1e-9):
        because = (
            f"Two rises and a going are {found.pace * 1000:.0f} mm; "
            f"{pace.low * 1000:g} to {pace.high * 1000:g} mm is walked with ease."
        )
        sheet.caution(caution("step_pace", because))
    if found.risers == 1:
        sheet.caution(caution("single_step", f"One step of {found.rise * 1000:.0f} mm."))
    if found.risers >= default("steps", "handrail_risers").value:
        sheet.caution(caution("step_handrail", f"There are {found.risers} risers."))
    longest = default("steps", "longest_flight_rise").value
    if job.rise > longest * (1 + 1e-9):
        sheet.caution(caution("long_flight", f"It climbs {job.rise * 1000:.0f} mm; {longest * 1000:g} mm is the most."))
    least = default("ramps", "least_width").value
    if job.width < least * (1 - 1e-9) and job.kind is not StepKind.GARDEN:
        because = f"They are {job.width * 1000:g} mm wide; {least * 1000:g} mm is the least."
        sheet.caution(caution("narrow_approach", because))
    sheet.caution(caution("local_codes", "Steps are climbed by everyone."))
