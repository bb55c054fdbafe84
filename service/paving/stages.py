"""Stages of a job: what is done in each, with how many hands, and what weather stops it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from service.paving import labour
from service.paving.formulas import Formula
from service.paving.joints import Filler
from service.paving.reference import Assumption, default, table
from service.paving.sheets import Sheet


class Stage(StrEnum):
    """The stages, in order."""

    SET_OUT = "set_out"
    DIG = "dig"
    MEMBRANE = "membrane"
    SUB_BASE = "sub_base"
    EDGING = "edging"
    LAY = "lay"
    POINT = "point"


def named(stage: Stage) -> str:
    """What a stage is called in a sentence.

    Examples
    --------
    >>> named(Stage.LAY)
    'bed and lay'
    """
    found: str = table("stages")[stage]["name"]
    return found


class Task(StrEnum):
    """What one person does in a time is known for each of these."""

    SET_OUT = "set_out"
    DIG = "dig"
    MEMBRANE = "membrane"
    SUB_BASE = "sub_base"
    COMPACT = "compact"
    EDGING = "edging"
    BED_MORTAR = "bed_mortar"
    SCREED = "screed"
    LAY = "lay"
    CUT = "cut"
    POINT_MORTAR = "point_mortar"
    POINT_COMPOUND = "point_jointing_compound"
    POINT_SAND = "point_dried_sand"


class BedKind(StrEnum):
    """What the slabs sit in, as far as waiting goes."""

    MORTAR = "mortar"
    SCREEDED = "screeded"


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantities:
    """What there is to do; what is 0 is left out.

    Parameters
    ----------
    area : float
        To set out [m2].
    dig : float
        To dig, in place [m3].
    sub_base : float
        Sub-base in place [m3].
    lifts : int
        Lifts it is compacted in.
    membrane : float
        Membrane [m2].
    edging : float
        Edging [m].
    haunched : float
        Concrete of its haunch [m3]: if there is any, it has to set.
    bed : float
        Bed in place [m3].
    bed_kind : BedKind
        What it is.
    laid : float
        Paving [m2].
    cuts : int
        Slabs cut.
    joint : float
        Joints to fill [m].
    filler : Filler
        With what.
    """

    area: float
    dig: float = 0.0
    sub_base: float = 0.0
    lifts: int = 1
    membrane: float = 0.0
    edging: float = 0.0
    haunched: float = 0.0
    bed: float = 0.0
    bed_kind: BedKind = BedKind.MORTAR
    laid: float = 0.0
    cuts: int = 0
    joint: float = 0.0
    filler: Filler = Filler.MORTAR


Outputs = Mapping[Task, Assumption]


def usual_outputs(given: Mapping[Task, float] | None = None) -> dict[Task, Assumption]:
    """What one person does in a time, the asker's own figures in place of the usual ones.

    Examples
    --------
    >>> usual_outputs()[Task.LAY].basis
    'common practice'
    """
    return {task: default("outputs", task).given((given or {}).get(task)) for task in Task}


@dataclass(frozen=True, slots=True)
class StageLabour:
    """Labour of a stage [s], and how many hands can work on it at once."""

    stage: Stage
    labour: float
    most_hands: int

    @property
    def stopped_by(self) -> str:
        """Weather that stops it, in words."""
        found: str = table("stages")[self.stage]["stopped_by"]
        return found


def stage_labours(sheet: Sheet, quantities: Quantities, outputs: Outputs) -> Iterator[StageLabour]:
    """Labour of each stage that has something to do.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    quantities : Quantities
        What there is to do.
    outputs : Outputs
        What one person does in a time.
    """
    for stage in Stage:
        section = sheet.section(stage)
        tasks = [
            section.work(task, by, quantity, section.assume(outputs[task]))
            for task, by, quantity in _tasks(section, stage, quantities)
            if quantity
        ]
        if tasks:
            hands = section.assume(default("stages", f"{stage}_hands"))
            yield StageLabour(stage, section.work("labour", labour.stage_labour, tuple(tasks)), int(hands))


_Task = tuple[Task, Formula[[float, float]], float]


def _tasks(sheet: Sheet, stage: Stage, q: Quantities) -> list[_Task]:
    """What is done in a stage: each task, how it is measured, and how much there is."""
    match stage:
        case Stage.SET_OUT:
            return [(Task.SET_OUT, labour.labour_by_area, q.area)]
        case Stage.DIG:
            return [(Task.DIG, labour.labour_by_volume, q.dig)]
        case Stage.MEMBRANE:
            return [(Task.MEMBRANE, labour.labour_by_area, q.membrane)]
        case Stage.SUB_BASE:
            over = sheet.work("compacted_area", labour.compacted_area, q.area, q.lifts) if q.sub_base else 0.0
            return [(Task.SUB_BASE, labour.labour_by_volume, q.sub_base), (Task.COMPACT, labour.labour_by_area, over)]
        case Stage.EDGING:
            return [(Task.EDGING, labour.labour_by_length, q.edging)]
        case Stage.LAY:
            bed = Task.BED_MORTAR if q.bed_kind is BedKind.MORTAR else Task.SCREED
            laying: list[_Task] = [
                (Task.LAY, labour.labour_by_area, q.laid),
                (Task.CUT, labour.labour_by_count, q.cuts),
            ]
            return [(bed, labour.labour_by_volume, q.bed), *laying]
        case Stage.POINT:  # pragma: no branch
            return [(Task(f"point_{q.filler}"), labour.labour_by_length, q.joint)]
