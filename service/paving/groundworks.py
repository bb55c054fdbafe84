"""Groundworks: levels and dig of a whole job in one go, for the take-off."""

from dataclasses import dataclass

from service.paving.areas import Area
from service.paving.build_ups import BuildUp, Datum, LayerDepth
from service.paving.diggings import Digging
from service.paving.excavations import Excavation, excavation
from service.paving.falls import DampProofCourse, Fall
from service.paving.grounds import Ground
from service.paving.levels import LevelFigures, level_figures
from service.paving.reference import Assumption
from service.paving.sheets import Sheet


@dataclass(frozen=True, slots=True)
class Site:
    """How the ground lies and what is made of it.

    Parameters
    ----------
    fall : Fall
        Which way the finished surface sheds water.
    datum : Datum
        What levels are counted from.
    build_up : BuildUp
        What lies between the finished level and the formation.
    ground : Survey, Plane or None
        How the ground lies now; at the finished level everywhere if it isn't known.
    digging : Digging
        What is dug and how.
    peg_spacing : Assumption
        Furthest from peg to peg [m].
    damp_proof_course : DampProofCourse or None
        Where there is a wall to keep dry.
    """

    fall: Fall
    datum: Datum
    build_up: BuildUp
    ground: Ground | None
    digging: Digging
    peg_spacing: Assumption
    damp_proof_course: DampProofCourse | None = None


@dataclass(frozen=True, slots=True)
class Groundwork:
    """Levels, dig, and how deep the layers come out under the fall."""

    levels: LevelFigures
    excavation: Excavation
    laying_course: LayerDepth
    sub_base: LayerDepth


def groundwork(sheet: Sheet, area: Area, site: Site) -> Groundwork:
    """Set out the levels of a job and measure its dig.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go, under `levels` and `excavation`.
    area : Area
        What is paved.
    site : Site
        How the ground lies and what is made of it.

    Raises
    ------
    PavingError
        As levels and excavations raise it, at ``("damp_proof_course", ...)``, ``("peg_spacing",)`` or
        ``("ground", ...)``.

    References
    ----------
    Geometry
    """
    levels = level_figures(
        sheet.section("levels"),
        area,
        site.fall,
        site.build_up,
        site.datum,
        site.peg_spacing,
        site.damp_proof_course,
    )
    dig = excavation(sheet.section("excavation"), area, levels.surfaces, site.ground, site.digging)
    return Groundwork(levels, dig, levels.laying_course, levels.sub_base)
