"""Edgings: kerbs, edging slabs or setts along the edges of an area, and the concrete that holds them."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

from service.paving.areas import Area
from service.paving.cautions import caution
from service.paving.courses import Corner, Course, Lie, Run, straight_run
from service.paving.errors import OutOfRange, within
from service.paving.handling import caution_cutting
from service.paving.haunches import Concrete, Haunch, haunch_concrete
from service.paving.laying_courses import Recipe, recipe_mix
from service.paving.mixes import Mix
from service.paving.reference import default
from service.paving.runs import runs_along
from service.paving.sheets import Sheet


class Around(StrEnum):
    """Which edges of an area."""

    OUTLINE = "outline"
    OPENINGS = "openings"
    BOTH = "both"


@dataclass(frozen=True, slots=True)
class EdgingSlab:
    """A kerb, edging slab or sett as it is laid along an edge.

    Parameters
    ----------
    length : float
        Along the edge [m].
    width : float
        Across it: its thickness, if it stands upright [m].
    joint : float
        Width of the joint [m].
    """

    length: float
    width: float
    joint: float


@dataclass(frozen=True, slots=True)
class Edges:
    """Which edges of an area are edged.

    Parameters
    ----------
    area : Area
        What is edged.
    around : Around
        Its outline, its openings, or both.
    sides : tuple of int or None
        Sides of the outline, counted from 0; all if None.
    corner : Corner
        How runs meet.
    """

    area: Area
    around: Around = Around.OUTLINE
    sides: tuple[int, ...] | None = None
    corner: Corner = Corner.MITRED


@dataclass(frozen=True, slots=True)
class Edging:
    """What an edging takes.

    Parameters
    ----------
    slabs : int
        Slabs to buy: one for each piece laid, whole or cut.
    whole, cut : int
        Slabs laid whole, and slabs that are cut.
    length : float
        Length along the middle of it [m].
    section, concrete : float
        Section [m2] and volume [m3] of its concrete; 0 if it has none.
    runs : tuple of Run
        From corner to corner.
    mix : Mix or None
        What the concrete is mixed of.
    """

    slabs: int
    whole: int
    cut: int
    length: float
    section: float
    concrete: float
    runs: tuple[Run, ...]
    mix: Mix | None


def edging(
    sheet: Sheet, edges: Edges | float, slab: EdgingSlab, haunch: Haunch | None = None, recipe: Recipe | None = None
) -> Edging:
    """Measure an edging.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    edges : Edges or float
        Which edges of an area, or a length in one straight run [m].
    slab : EdgingSlab
        What it is laid of.
    haunch : Haunch or None
        Section of its concrete; none, and it stands without.
    recipe : Recipe or None
        What the concrete is mixed of; not mixed if None.

    Raises
    ------
    ImpossibleShape
        If the slab doesn't go round the area, at ``("area",)``.
    OutOfRange
        If there is no such side, at ``("sides",)``, or the concrete is too narrow, at ``("haunch", "bed_width")``.

    Notes
    -----
    The edging stands outside the paving. A slab is bought for each piece: what is sawn off one
    is not counted on for another.

    References
    ----------
    Geometry
    """
    runs = _runs(sheet, edges, slab)
    length, slabs, cut = sum(run.length for run in runs), sum(run.slabs for run in runs), sum(run.cut for run in runs)
    concrete = _concrete(sheet, haunch, slab, length)
    caution_cutting(sheet, cut)
    caution_courses(sheet, runs, slab.length)
    mix = recipe_mix(sheet.section("mix"), concrete.volume, recipe) if recipe and concrete.volume else None
    return Edging(slabs, slabs - cut, cut, length, concrete.section, concrete.volume, runs, mix)


def _runs(sheet: Sheet, edges: Edges | float, slab: EdgingSlab) -> tuple[Run, ...]:
    if not isinstance(edges, Edges):
        return (straight_run(sheet, edges, Course(slab.length, slab.width, slab.joint)),)
    runs: tuple[Run, ...] = ()
    if edges.around is not Around.OPENINGS:
        runs += _round_outline(sheet, edges, Course(slab.length, slab.width, slab.joint, Lie.OUTSIDE, edges.corner))
    if edges.around is not Around.OUTLINE:
        runs += _in_openings(sheet, edges.area, Course(slab.length, slab.width, slab.joint, Lie.INSIDE, edges.corner))
    if not runs:
        raise OutOfRange("There is nothing to edge: name a side, or an area with openings.", "around")
    return runs


def _round_outline(sheet: Sheet, edges: Edges, course: Course) -> tuple[Run, ...]:
    outline = edges.area.outline
    for side in edges.sides or ():
        if not 0 <= side < len(outline.sides):
            raise OutOfRange(f"There is no side {side + 1}: the area has {len(outline.sides)} sides.", "sides")
    with within("area"):
        return runs_along(sheet, outline, course, edges.sides)


def _in_openings(sheet: Sheet, area: Area, course: Course) -> tuple[Run, ...]:
    runs: list[Run] = []
    for k, opening in enumerate(area.openings):
        with within("area", "openings", k):
            laid = runs_along(sheet.section(f"openings.{k}"), opening.outline, course)
        runs += (replace(run, name=f"opening {k + 1}, {run.name}") for run in laid)
    return tuple(runs)


def _concrete(sheet: Sheet, haunch: Haunch | None, slab: EdgingSlab, length: float) -> Concrete:
    if haunch is None:
        sheet.caution(caution("loose_edging", "No concrete is asked for."))
        return Concrete(0.0, 0.0)
    with within("haunch"):
        return haunch_concrete(sheet, haunch, slab.width, length)


def caution_courses(sheet: Sheet, runs: Iterable[Run], along: float) -> None:
    """Caution against short closing pieces and joints that gape along an arc.

    Parameters
    ----------
    sheet : Sheet
        Where the cautions go.
    runs : iterable of Run
        The courses.
    along : float
        Length of a slab along them [m].
    """
    least = default("edgings", "least_closing_share").value * along
    widest = default("edgings", "widest_joint").value
    for run in runs:
        if 0 < run.closing_length < least:
            because = f"Along {run.name} the piece that closes the course is {run.closing_length * 1000:.0f} mm long."
            if 0 < run.even_joint <= widest:
                because += f" Joints of {run.even_joint * 1000:.1f} mm close it with whole slabs."
            sheet.caution(caution("short_closer", because))
        if run.widest_joint > widest:
            because = f"Along {run.name} the joint opens to {run.widest_joint * 1000:.0f} mm at its outer face."
            sheet.caution(caution("gaping_joint", because))
