"""Soakaways: whether a pit in the ground takes the rain off the paving."""

from dataclasses import dataclass

from service.paving import storms
from service.paving.cautions import caution
from service.paving.durations import HOUR
from service.paving.errors import OutOfRange
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet
from service.paving.trial_pits import TrialPit, infiltration


@dataclass(frozen=True, slots=True)
class Storm:
    """Rain to be held: its depth [m] and how long it lasts [s]."""

    depth: float
    duration: float


@dataclass(frozen=True, slots=True)
class Pit:
    """A soakaway.

    Parameters
    ----------
    length, width : float
        On plan [m].
    effective_depth : float
        Depth below the inlet [m].
    voids : Assumption
        Share of it that isn't filled with stone or crates [1].
    from_foundations : float or None
        How far it lies from the nearest foundation [m], if known.
    """

    length: float
    width: float
    effective_depth: float
    voids: Assumption
    from_foundations: float | None = None


@dataclass(frozen=True, slots=True)
class Soakaway:
    """Whether a soakaway takes a storm.

    Parameters
    ----------
    infiltration : float
        Rate at which the ground takes water [m/s].
    inflow, outflow : float
        Water that the storm brings, and that leaves meanwhile [m3].
    storage_needed, storage : float
        Water that must be held, and that can be [m3].
    length_needed : float
        Length at which it just holds the storm, with its width and depth [m].
    half_drain : float
        Time in which half of what it must hold drains away [s].
    holds : bool
        Whether it holds the storm.
    """

    infiltration: float
    inflow: float
    outflow: float
    storage_needed: float
    storage: float
    length_needed: float
    half_drain: float
    holds: bool


def usual_storm(area: float) -> Storm:
    """The storm a small soakaway is sized for.

    Parameters
    ----------
    area : float
        Area that is drained [m2].

    Raises
    ------
    OutOfRange
        If the area is too large for it, at ``("storm",)``: then the local storm must be known.

    References
    ----------
    Approved Document H3, 3.28 (quoted from memory)
    """
    most = default("soakaways", "small_area").value
    if area > most:
        raise OutOfRange(
            f"Above {most:g} m2 there is no storm for everywhere: give the depth of rain and how long it lasts there.",
            "storm",
        )
    return Storm(default("soakaways", "small_storm_depth").value, default("soakaways", "small_storm_duration").value)


def soakaway(sheet: Sheet, area: float, ground: TrialPit | Assumption, pit: Pit, storm: Storm) -> Soakaway:
    """Hold a soakaway against a storm.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    area : float
        Area that is drained [m2].
    ground : TrialPit or Assumption
        A trial pit, or the rate at which the ground takes water [m/s].
    pit : Pit
        The soakaway.
    storm : Storm
        The rain.

    Notes
    -----
    One storm is looked at; a design looks at storms of many lengths and takes the worst.

    References
    ----------
    BRE Digest 365 (quoted from memory)
    """
    rate = infiltration(sheet, ground)
    plan = pit.length, pit.width, pit.effective_depth
    voids = sheet.assume(pit.voids)
    inflow = sheet.work("inflow", storms.storm_inflow, area, storm.depth)
    sides = sheet.work("side_area", storms.side_area, *plan)
    outflow = sheet.work("outflow", storms.storm_outflow, sides, rate, storm.duration)
    needed = sheet.work("storage_needed", storms.storage_needed, inflow, outflow)
    held = sheet.work("storage", storms.storage, *plan, voids)
    measured = Soakaway(
        infiltration=rate,
        inflow=inflow,
        outflow=outflow,
        storage_needed=needed,
        storage=held,
        length_needed=sheet.work("length_needed", storms.length_needed, inflow, *plan[1:], voids, rate, storm.duration),
        half_drain=sheet.work("half_drain", storms.half_drain_time, needed, sides, rate),
        holds=needed <= held * (1 + 1e-9),
    )
    _caution_ground(sheet, area, measured)
    _caution_place(sheet, pit)
    return measured


def _caution_ground(sheet: Sheet, area: float, measured: Soakaway) -> None:
    least, longest = default("soakaways", "least_infiltration").value, default("soakaways", "longest_half_drain")
    most = default("soakaways", "greatest_area").value
    if not measured.holds:
        because = f"It must hold {measured.storage_needed:.3g} m3 and holds {measured.storage:.3g} m3."
        sheet.caution(caution("soakaway_small", because))
    if measured.infiltration < least:
        sheet.caution(
            caution("slow_ground", f"The ground takes {measured.infiltration:.2g} m/s; {least:g} is the least.")
        )
    if measured.half_drain > longest.value:
        because = f"Half of it drains in {measured.half_drain / HOUR:.0f} h; {longest.value / HOUR:g} h is the most."
        sheet.caution(caution("slow_half_drain", because))
    if area > most:
        sheet.caution(caution("soakaway_area", f"{area:g} m2 drain into it; {most:g} m2 is the most."))


def _caution_place(sheet: Sheet, pit: Pit) -> None:
    least = default("soakaways", "from_foundations").value
    distance = pit.from_foundations
    if distance is None:
        sheet.caution(caution("soakaway_near_house", f"Its distance isn't given; {least:g} m is the least."))
    elif distance < least:
        sheet.caution(caution("soakaway_near_house", f"It lies {distance:g} m away; {least:g} m is the least."))
    sheet.caution(caution("local_codes", "A soakaway takes the rain."))
