"""Borders: a course of another slab round the edge of the paving, with the field laid inside it.

soldier: long side across the edge       stretcher: long side along it
+--+--+--+--+--+--+--                    +-----+-----+-----+--
|  |  |  |  |  |  |                      |     |     |     |
|  |  |  |  |  |  |                      +-----+-----+-----+--
+--+--+--+--+--+--+--                    |  field
|  field
"""

from dataclasses import dataclass, replace
from enum import StrEnum

from service.paving.areas import Area, area, net_area
from service.paving.courses import Corner, Course, Lie, Run
from service.paving.edgings import Around, caution_courses
from service.paving.errors import ImpossibleShape, within
from service.paving.formulas import formula
from service.paving.handling import caution_cutting
from service.paving.insets import inset_shape
from service.paving.runs import runs_along
from service.paving.sheets import Sheet
from service.paving.slabs import Slab


class Laid(StrEnum):
    """Which way border slabs lie."""

    SOLDIER = "soldier"
    STRETCHER = "stretcher"


@dataclass(frozen=True, slots=True)
class BorderCourse:
    """How a border is laid.

    Parameters
    ----------
    slab : Slab
        What it is laid of.
    laid : Laid
        Which way the slabs lie.
    joint : float
        Between its slabs, and between border and field [m].
    corner : Corner
        How runs meet.
    around : Around
        Round the outline, the openings, or both.
    """

    slab: Slab
    laid: Laid
    joint: float
    corner: Corner = Corner.MITRED
    around: Around = Around.OUTLINE

    @property
    def along(self) -> float:
        """Size of a slab along the edge [m]."""
        sides = self.slab.length, self.slab.width
        return min(sides) if self.laid is Laid.SOLDIER else max(sides)

    @property
    def across(self) -> float:
        """Width of the border [m]."""
        sides = self.slab.length, self.slab.width
        return max(sides) if self.laid is Laid.SOLDIER else min(sides)


@dataclass(frozen=True, slots=True)
class Border:
    """What a border takes, and the field that is left inside it.

    Parameters
    ----------
    slabs : int
        Slabs to buy: one for each piece laid, whole or cut.
    whole, cut : int
        Slabs laid whole, and slabs that are cut.
    field : Area
        What is left to pave, one joint away from the border.
    field_area, border_area : float
        Area of the field, and of the border with all its joints [m2].
    joint_length : float
        Length of the joints of the border, the one to the field included [m].
    runs : tuple of Run
        From corner to corner.
    """

    slabs: int
    whole: int
    cut: int
    field: Area
    field_area: float
    border_area: float
    joint_length: float
    runs: tuple[Run, ...]


@formula
def border_area(area: float, field_area: float) -> float:
    """Area of a border with its joints: what the field leaves.

    Parameters
    ----------
    area : float
        Area of the whole paving [m2].
    field_area : float
        Area of the field [m2].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> border_area(12.0, 9.5)
    2.5
    """
    return area - field_area


@formula
def border_joint_length(slabs: float, width: float, field_edge: float) -> float:
    """Length of joint in a border.

    Parameters
    ----------
    slabs : float
        Slabs in it, each with a joint to the next one round [1].
    width : float
        Width of the border [m].
    field_edge : float
        Length of the joint between border and field [m].

    Returns
    -------
    float
        Length [m].

    Notes
    -----
    A joint at a mitre counts as long as the border is wide.

    References
    ----------
    Geometry

    Examples
    --------
    >>> border_joint_length(40, 0.2, 12.0)
    20.0
    """
    return slabs * width + field_edge


def border(sheet: Sheet, area: Area, laid: BorderCourse) -> Border:
    """Measure a border and the field inside it.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    area : Area
        The whole paving, border and field.
    laid : BorderCourse
        How the border is laid.

    Raises
    ------
    ImpossibleShape
        If the area, or one of its openings, leaves no room for a border so wide; at ``("area",)``.

    References
    ----------
    Geometry

    Examples
    --------
    >>> from service.paving.areas import area, rectangle
    >>> setts = BorderCourse(Slab("sett", 0.2, 0.1, 0.06), Laid.SOLDIER, 0.0)
    >>> round(border(Sheet(), area(rectangle(4.0, 3.0)), setts).field_area, 9)
    9.36
    """
    runs = _runs(sheet, area, laid)
    field = _field(area, laid)
    field_area = _field_area(sheet.section("field"), field)
    slabs, cut = sum(run.slabs for run in runs), sum(run.cut for run in runs)
    caution_cutting(sheet, cut)
    caution_courses(sheet, runs, laid.along)
    return Border(
        slabs=slabs,
        whole=slabs - cut,
        cut=cut,
        field=field,
        field_area=field_area,
        border_area=sheet.work("border_area", border_area, area.net, field_area),
        joint_length=sheet.work("joint_length", border_joint_length, slabs, laid.across, _edge(field, laid)),
        runs=runs,
    )


def _runs(sheet: Sheet, area: Area, laid: BorderCourse) -> tuple[Run, ...]:
    course = Course(laid.along, laid.across, laid.joint, Lie.INSIDE, laid.corner)
    runs: list[Run] = []
    if laid.around is not Around.OPENINGS:
        with within("area"):
            runs += runs_along(sheet, area.outline, course)
    if laid.around is not Around.OUTLINE:
        for k, opening in enumerate(area.openings):
            with within("area", "openings", k):
                found = runs_along(sheet.section(f"openings.{k}"), opening.outline, replace(course, lie=Lie.OUTSIDE))
            runs += (replace(run, name=f"opening {k + 1}, {run.name}") for run in found)
    return tuple(runs)


def _field(whole: Area, laid: BorderCourse) -> Area:
    width = laid.across + laid.joint
    shape, openings = whole.shape, whole.openings
    with within("area"):
        if laid.around is not Around.OPENINGS:
            shape = inset_shape(shape, width)
        if laid.around is not Around.OUTLINE:
            openings = tuple(inset_shape(opening, -width) for opening in openings)
        try:
            return area(shape, openings)
        except ImpossibleShape as error:
            text = f"The border leaves no room for the field: inside it, {error.detail[0].lower()}{error.detail[1:]}"
            raise ImpossibleShape(text, *error.place) from None


def _field_area(sheet: Sheet, field: Area) -> float:
    gross = field.shape.area(sheet, "gross_area")
    openings = sum(o.area(sheet.section(f"openings.{k}"), "area") for k, o in enumerate(field.openings))
    return sheet.work("area", net_area, gross, openings)


def _edge(field: Area, laid: BorderCourse) -> float:
    """Length of the edge between border and field [m]."""
    outer = 0.0 if laid.around is Around.OPENINGS else field.outline.perimeter
    inner = 0.0 if laid.around is Around.OUTLINE else sum(opening.outline.perimeter for opening in field.openings)
    return outer + inner
