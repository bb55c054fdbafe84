"""Build-ups: the layers from the finished level down to the formation, each under a plane.

    datum  ----------------------------------------  damp-proof course, threshold, nail in a fence post
                 ^ finished level at one point
    finished     '-.__________
    bed          '-.__________'-.   slab
    sub-base     '-.__________'-.   laying course
    formation    '-.__________'-.   sub-base

All layers fall together, or one of them takes the fall up and what is under it lies level:

    falls together         laying course tapers     sub-base tapers
    \\____                  \\____                    \\____
    \\____ slab             \\____ slab               \\____ slab
    \\____ laying course    \\____                    \\____ laying course
    \\____ sub-base         |_____ laying course     \\____
                           |_____ sub-base          |_____ sub-base
"""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.areas import Area, MeasuredArea
from service.paving.falls import Fall
from service.paving.formulas import formula
from service.paving.outlines import Point
from service.paving.planes import Plane, highest_point, mean_over, volume_under_plane
from service.paving.sheets import Sheet


@formula
def build_up_depth(slab_thickness: float, laying_course: float, sub_base: float) -> float:
    """Depth of the formation under the finished level.

    Parameters
    ----------
    slab_thickness, laying_course, sub_base : float
        Depth of each layer where it is thinnest [m].

    Returns
    -------
    float
        Depth [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(build_up_depth(0.04, 0.04, 0.15), 9)
    0.23
    """
    return slab_thickness + laying_course + sub_base


class Tapers(StrEnum):
    """Which layer takes the fall up; what is under it lies level."""

    NONE = "none"
    LAYING_COURSE = "laying_course"
    SUB_BASE = "sub_base"


@dataclass(frozen=True, slots=True)
class BuildUp:
    """The layers from the finished level down to the formation.

    Parameters
    ----------
    slab_thickness, laying_course, sub_base : float
        Depth of each [m], 0 or more; of one that tapers, where it is thinnest.
    tapers : Tapers
        Which of them takes the fall up.
    """

    slab_thickness: float
    laying_course: float
    sub_base: float
    tapers: Tapers = Tapers.NONE


@dataclass(frozen=True, slots=True)
class Datum:
    """What levels are counted from.

    Parameters
    ----------
    name : str
        What it is: a damp-proof course, a threshold, a mark on a wall.
    finished : float
        Finished level relative to it [m], at one point.
    at : Point or None
        That point; where the area lies highest if None.
    """

    name: str = "datum"
    finished: float = 0.0
    at: Point | None = None


@dataclass(frozen=True, slots=True)
class LayerDepth:
    """Depth of one layer over the area [m], and its volume [m3]."""

    mean: float
    least: float
    greatest: float
    volume: float


@dataclass(frozen=True, slots=True)
class Surfaces:
    """The surfaces of a build-up: tops of paving, laying course and sub-base, and the formation."""

    finished: Plane
    bed: Plane
    sub_base: Plane
    formation: Plane

    @property
    def laying_course(self) -> Plane:
        """Depth of the laying course at every point."""
        return self.bed.above(self.sub_base)

    @property
    def sub_base_layer(self) -> Plane:
        """Depth of the sub-base at every point."""
        return self.sub_base.above(self.formation)


def layer_depth(sheet: Sheet, area: Area, depth: Plane) -> LayerDepth:
    """Mean, least and greatest depth of a layer over an area, and its volume: exact under any plane."""
    reach, mean = depth.over(area), mean_over(area, depth)
    return LayerDepth(mean, reach.least, reach.greatest, sheet.work("volume", volume_under_plane, area.net, mean))


def finished_surface(area: Area | MeasuredArea, fall: Fall, datum: Datum) -> Plane:
    """The finished surface; of an area without a shape it must be level."""
    plane = fall.from_point((0.0, 0.0), datum.finished)
    if isinstance(area, MeasuredArea):
        return plane
    return fall.from_point(datum.at or highest_point(area, plane), datum.finished)


def surfaces(area: Area | MeasuredArea, finished: Plane, build_up: BuildUp) -> Surfaces:
    """The surfaces under a finished one."""
    bed = finished.lowered(build_up.slab_thickness)
    sub_base = bed.lowered(build_up.laying_course)
    if build_up.tapers is Tapers.LAYING_COURSE:
        sub_base = _levelled(area, sub_base)
    formation = sub_base.lowered(build_up.sub_base)
    if build_up.tapers is Tapers.SUB_BASE:
        formation = _levelled(area, formation)
    return Surfaces(finished, bed, sub_base, formation)


def _levelled(area: Area | MeasuredArea, plane: Plane) -> Plane:
    """The level plane through the lowest point of one that falls."""
    return plane if isinstance(area, MeasuredArea) else Plane(plane.over(area).least)
