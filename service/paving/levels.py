"""Levels: what to mark on every peg, from one datum, and whether water leaves as it should."""

import math
from dataclasses import dataclass

from service.paving.areas import Area
from service.paving.build_ups import (
    BuildUp,
    Datum,
    LayerDepth,
    Surfaces,
    Tapers,
    build_up_depth,
    finished_surface,
    layer_depth,
    surfaces,
)
from service.paving.cautions import caution
from service.paving.errors import within
from service.paving.falls import DampProofCourse, Fall, caution_gradient, caution_wall
from service.paving.formulas import formula
from service.paving.outlines import Point
from service.paving.pegs import Place, stakes
from service.paving.planes import Plane, fall_height, fall_run, lowest_point, plane_level, steepest_gradient
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet


@formula
def slope_length(run: float, fall: float) -> float:
    """Length along a slope.

    Parameters
    ----------
    run : float
        Length on plan [m].
    fall : float
        Height from end to end [m].

    Returns
    -------
    float
        Length [m].

    References
    ----------
    Geometry (Pythagoras)

    Examples
    --------
    >>> round(slope_length(6.0, 0.5), 4)
    6.0208
    """
    return (run**2 + fall**2) ** 0.5


@dataclass(frozen=True, slots=True)
class Peg:
    """A peg and the levels to mark on it, relative to the datum [m]."""

    name: str
    place: Place
    x: float
    y: float
    finished: float
    bed: float
    sub_base: float
    formation: float


@dataclass(frozen=True, slots=True)
class Descent:
    """How a surface falls across an area.

    Parameters
    ----------
    fall : float
        Height from the highest to the lowest point [m].
    steepest_gradient : float
        Gradient in the direction of the fall [1].
    slope : float
        The same as an angle [rad].
    towards : float or None
        Direction of the fall, counter-clockwise from x, 0 to a whole turn [rad]; none if it is level.
    run : float
        How far the area reaches in that direction, on plan [m].
    slope_length : float
        The same along the slope [m].
    """

    fall: float
    steepest_gradient: float
    slope: float
    towards: float | None
    run: float
    slope_length: float


@dataclass(frozen=True, slots=True)
class LevelFigures:
    """What is set out; lengths and levels [m], the lowest point on plan [m]."""

    area: Area
    datum: Datum
    surfaces: Surfaces
    descent: Descent
    build_up: float
    highest: float
    lowest: float
    lowest_at: Point
    laying_course: LayerDepth
    sub_base: LayerDepth
    pegs: tuple[Peg, ...]

    @property
    def lowest_x(self) -> float:
        return self.lowest_at[0]

    @property
    def lowest_y(self) -> float:
        return self.lowest_at[1]


def level_figures(
    sheet: Sheet,
    area: Area,
    fall: Fall,
    build_up: BuildUp,
    datum: Datum,
    peg_spacing: Assumption,
    damp_proof_course: DampProofCourse | None = None,
) -> LevelFigures:
    """Set out the levels of an area.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    area : Area
        What is paved.
    fall : Fall
        Which way it sheds water, and how steeply.
    build_up : BuildUp
        What lies under the finished level.
    datum : Datum
        What levels are counted from, and the finished level at one point.
    peg_spacing : Assumption
        Furthest from peg to peg: the length of the straightedge [m].
    damp_proof_course : DampProofCourse or None
        Where there is a wall to keep dry.

    Raises
    ------
    OutOfRange
        If it takes too many pegs, or the wall isn't there.

    References
    ----------
    Geometry; damp-proof course by Approved Document C
    """
    finished = finished_surface(area, fall, datum)
    laid = surfaces(area, finished, build_up)
    depths = (build_up.slab_thickness, build_up.laying_course, build_up.sub_base)
    figures = LevelFigures(
        area=area,
        datum=datum,
        surfaces=laid,
        descent=_descent(sheet, area, fall, finished),
        build_up=sheet.work("build_up", build_up_depth, *depths),
        highest=finished.over(area).greatest,
        lowest=_lowest(sheet, area, finished),
        lowest_at=lowest_point(area, finished),
        laying_course=layer_depth(sheet.section("laying_course"), area, laid.laying_course),
        sub_base=layer_depth(sheet.section("sub_base"), area, laid.sub_base_layer),
        pegs=pegs(area, laid, sheet.assume(peg_spacing)),
    )
    _caution(sheet, figures, build_up, damp_proof_course)
    return figures


def pegs(area: Area, laid: Surfaces, spacing: float) -> tuple[Peg, ...]:
    """Every peg with its levels, numbered in rows from the bottom."""
    return tuple(
        Peg(
            name=f"peg {k}",
            place=stake.place,
            x=stake.x,
            y=stake.y,
            **{name: getattr(laid, name).at((stake.x, stake.y)) for name in Surfaces.__slots__},
        )
        for k, stake in enumerate(stakes(area, spacing), 1)
    )


def _descent(sheet: Sheet, area: Area, fall: Fall, finished: Plane) -> Descent:
    gradient = sheet.work("steepest_gradient", steepest_gradient, fall.gradient_x, fall.gradient_y)
    run = fall_run(area, finished)
    height = sheet.work("fall", fall_height, gradient, run)
    return Descent(
        fall=height,
        steepest_gradient=gradient,
        slope=math.atan(gradient),
        towards=None if fall.is_level else math.atan2(fall.gradient_y, fall.gradient_x) % (2 * math.pi),
        run=run,
        slope_length=sheet.work("slope_length", slope_length, run, height),
    )


def _lowest(sheet: Sheet, area: Area, finished: Plane) -> float:
    (x, y), (x0, y0) = lowest_point(area, finished), finished.known_at
    inputs = (finished.level, finished.gradient_x, x - x0, finished.gradient_y, y - y0)
    return sheet.work("lowest", plane_level, *inputs)


def _caution(sheet: Sheet, figures: LevelFigures, build_up: BuildUp, damp_proof_course: DampProofCourse | None) -> None:
    caution_gradient(sheet, figures.descent.steepest_gradient)
    caution_taper(sheet, build_up, figures.laying_course)
    if damp_proof_course:
        with within("damp_proof_course"):
            caution_wall(sheet, figures.area, figures.surfaces.finished, damp_proof_course)
    sheet.caution(caution("estimate", "The plan is as given, and pegs are only as good as the tape and the level."))


def caution_taper(sheet: Sheet, build_up: BuildUp, laying_course: LayerDepth) -> None:
    """Caution against a laying course that takes up more fall than it can."""
    thickest = default("beds", "mortar_bed_depth").high
    if build_up.tapers is Tapers.LAYING_COURSE and laying_course.greatest > thickest * (1 + 1e-9):
        because = f"The laying course tapers from {laying_course.least * 1000:.0f} to {{:.0f}} mm."
        sheet.caution(caution("bed_depth", because.format(laying_course.greatest * 1000)))
