"""Programmes: stages in order, with the waits between them that no hands shorten."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from service.paving.cautions import caution
from service.paving.curing import Strength, strengths, wait_in
from service.paving.durations import DAY, HOUR
from service.paving.errors import OutOfRange
from service.paving.joints import Filler
from service.paving.labour import stage_time
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet
from service.paving.stages import BedKind, Outputs, Quantities, Stage, StageLabour, stage_labours
from service.paving.working_times import Spell, WorkingTimes


@dataclass(frozen=True, slots=True)
class Waits:
    """Waits for cement to set [s]; the usual ones where nothing else is given.

    Parameters
    ----------
    edging : Assumption
        From the haunch to work against it.
    bed : Assumption
        From laying on mortar to pointing.
    pointing : Assumption
        From pointing to feet.
    furniture : Assumption
        From pointing to furniture.
    """

    edging: Assumption
    bed: Assumption
    pointing: Assumption
    furniture: Assumption


@dataclass(frozen=True, slots=True)
class Gang:
    """Who works and when.

    Parameters
    ----------
    hands : int
        How many.
    day : float
        Work in a working day [s].
    days_per_week : int
        Days worked in a week, from Monday on.
    starts_on : date or None
        First day; a Monday if it isn't known.
    """

    hands: int
    day: float
    days_per_week: int
    starts_on: date | None = None


@dataclass(frozen=True, slots=True)
class StageTimes:
    """A stage in time, from the start of the job [s].

    Parameters
    ----------
    name : Stage
        Which stage.
    hands : int
        How many work on it.
    labour, work : float
        Time one person would take, and time these take [s].
    starts, ends : float
        When work begins and ends.
    wait : float
        How long it must then be left alone [s].
    spells : tuple of Spell
        The stretches of work in it.
    stopped_by : str
        Weather that stops it.
    starts_on, ends_on : date or None
        The same by the calendar.
    """

    name: Stage
    hands: int
    labour: float
    work: float
    starts: float
    ends: float
    wait: float
    spells: tuple[Spell, ...]
    stopped_by: str
    starts_on: date | None
    ends_on: date | None


@dataclass(frozen=True, slots=True)
class Programme:
    """A job in time, from its start [s].

    Parameters
    ----------
    stages : tuple of StageTimes
        In order.
    labour : float
        Time one person would take for all [s].
    work_ends : float
        When the last work ends.
    pointing : float or None
        When pointing begins at the earliest; none if nothing is pointed.
    foot_traffic, furniture : float
        When it may be walked on and furnished.
    foot_traffic_on : date or None
        The day it may be walked on.
    """

    stages: tuple[StageTimes, ...]
    labour: float
    work_ends: float
    pointing: float | None
    foot_traffic: float
    furniture: float
    foot_traffic_on: date | None

    @property
    def strengths(self) -> tuple[Strength, ...]:
        """How concrete gains strength meanwhile."""
        return strengths()


def usual_waits(filler: Filler, given: Mapping[str, float] | None = None) -> Waits:
    """The waits of common practice, the asker's own [s] in place of those of the same name.

    Examples
    --------
    >>> usual_waits(Filler.MORTAR).bed.value / HOUR
    24.0
    """
    names = {"edging": "haunch_wait", "bed": "bed_wait", "pointing": f"{filler}_wait", "furniture": "furniture_wait"}
    asked = given or {}
    return Waits(**{wait: default("programmes", name).given(asked.get(wait)) for wait, name in names.items()})


def programme(
    sheet: Sheet, quantities: Quantities, outputs: Outputs, gang: Gang, waits: Waits, temperature: float | None = None
) -> Programme:
    """Put a job into time.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    quantities : Quantities
        What there is to do.
    outputs : Outputs
        What one person does in a time.
    gang : Gang
        Who works and when.
    waits : Waits
        How long cement is left alone.
    temperature : float or None
        Mean temperature while it sets [degC]; below the usual one waits grow.

    Raises
    ------
    OutOfRange
        If the gang is too small for a job so large, at ``("gang",)``, or it is too cold for
        cement to set, at ``("temperature",)``.

    Notes
    -----
    Stages follow one another; none overlaps the next. A wait runs through nights and weekends.

    References
    ----------
    Common practice
    """
    weekday = gang.starts_on.weekday() if gang.starts_on else 0
    times = WorkingTimes(gang.day, gang.days_per_week, weekday)
    setting = _setting(sheet, quantities, waits, temperature)
    stages: list[StageTimes] = []
    moment = 0.0
    for labour in stage_labours(sheet, quantities, outputs):
        stages.append(_stage(sheet, labour, gang, times, moment, setting.get(labour.stage, 0.0)))
        moment = stages[-1].ends + stages[-1].wait
    return _programme(sheet, stages, gang, _furniture_wait(sheet, setting, waits, temperature))


def _setting(sheet: Sheet, quantities: Quantities, waits: Waits, temperature: float | None) -> dict[Stage, float]:
    """Wait after each stage that has something to set [s]."""
    wanted = {
        Stage.EDGING: waits.edging if quantities.edging and quantities.haunched else None,
        Stage.LAY: waits.bed if quantities.bed and quantities.bed_kind is BedKind.MORTAR else None,
        Stage.POINT: waits.pointing if quantities.joint else None,
    }
    found = {}
    for stage, wait in wanted.items():
        if wait is not None:
            _caution_short(sheet, wait)
            found[stage] = wait_in(sheet.section(stage), "wait", wait, temperature)
    return found


def _caution_short(sheet: Sheet, wait: Assumption) -> None:
    least = default("programmes", wait.name).low
    if wait.value < least * (1 - 1e-9):
        because = (
            f"{wait.name.replace('_', ' ').capitalize()} is {wait.value / HOUR:g} h; {least / HOUR:g} h is the least."
        )
        sheet.caution(caution("short_cure", because))


def _stage(
    sheet: Sheet, labour: StageLabour, gang: Gang, times: WorkingTimes, moment: float, wait: float
) -> StageTimes:
    hands = min(gang.hands, labour.most_hands)
    work = sheet.section(labour.stage).work("work", stage_time, labour.labour, hands)
    longest = default("programmes", "longest").value
    if work > longest:
        raise OutOfRange(
            f"{work / gang.day:.0f} working days for one stage: it takes more hands than {gang.hands}, "
            "machines with a greater output, or to be split.",
            "gang",
        )
    spells = tuple(times.spells(moment, work))
    starts, ends = spells[0].start, spells[-1].end
    return StageTimes(
        name=labour.stage,
        hands=hands,
        labour=labour.labour,
        work=work,
        starts=starts,
        ends=ends,
        wait=wait,
        spells=spells,
        stopped_by=labour.stopped_by,
        starts_on=_day(gang, starts),
        ends_on=_day(gang, ends),
    )


def _furniture_wait(sheet: Sheet, setting: dict[Stage, float], waits: Waits, temperature: float | None) -> float:
    """Wait from the last work to furniture [s]; none if nothing sets under it."""
    if not any(setting.get(stage) for stage in (Stage.LAY, Stage.POINT)):
        return 0.0
    _caution_short(sheet, waits.furniture)
    return wait_in(sheet.section("furniture"), "wait", waits.furniture, temperature)


def _programme(sheet: Sheet, stages: list[StageTimes], gang: Gang, furniture_wait: float) -> Programme:
    last = stages[-1]
    foot_traffic = last.ends + last.wait
    sheet.caution(caution("dry_days", "Hours are working hours in fit weather; rain and frost stop most stages."))
    return Programme(
        stages=tuple(stages),
        labour=sum(stage.labour for stage in stages),
        work_ends=last.ends,
        pointing=next((stage.starts for stage in stages if stage.name is Stage.POINT), None),
        foot_traffic=foot_traffic,
        furniture=max(foot_traffic, last.ends + furniture_wait),
        foot_traffic_on=_day(gang, foot_traffic),
    )


def _day(gang: Gang, moment: float) -> date | None:
    return gang.starts_on + timedelta(days=moment // DAY) if gang.starts_on else None
