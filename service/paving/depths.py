"""Depths: the same everywhere, or tapering evenly from one side of the area to the other.

    start  +---------------------------+  end
           |          material         |
           +-----------.               |
                         ` ' --- . . __|

Under a plane the volume over any shape is exactly its area times the depth at its centroid.
"""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.areas import Area, MeasuredArea
from service.paving.cautions import caution
from service.paving.errors import OutOfRange
from service.paving.formulas import formula
from service.paving.sheets import Sheet


class Along(StrEnum):
    """Which way a depth tapers: along x (length) or along y (width)."""

    LENGTH = "length"
    WIDTH = "width"


@dataclass(frozen=True, slots=True)
class Depth:
    """A depth, the same everywhere or tapering evenly across the area.

    Parameters
    ----------
    start : float
        Depth at the left bound of the area (at the lower one if along the width) [m].
    end : float
        Depth at the right bound (at the upper one) [m].
    along : Along
        Which way it tapers.
    mean : float or None
        Its mean over the area, where start and end are no more than the least and the greatest
        depth between two surfaces [m].
    """

    start: float
    end: float
    along: Along = Along.LENGTH
    mean: float | None = None

    @property
    def tapers(self) -> bool:
        """Whether the two ends differ."""
        return self.start != self.end

    @property
    def greatest(self) -> float:
        return max(self.start, self.end)

    @property
    def least(self) -> float:
        return min(self.start, self.end)


@formula
def tapered_depth(start: float, end: float, reach: float, run: float) -> float:
    """Depth of a taper at some reach from its start; at the centroid it is the mean depth.

    Parameters
    ----------
    start, end : float
        Depth at either end [m], 0 or more.
    reach : float
        Distance from the start [m].
    run : float
        Distance from the start to the end [m], above 0.

    Returns
    -------
    float
        Depth [m].

    References
    ----------
    Geometry (the volume under a plane is the area times the depth at its centroid)

    Examples
    --------
    >>> round(tapered_depth(0.1, 0.2, 2.0, 5.0), 9)
    0.14
    """
    return start + (end - start) * reach / run


@formula
def middle_depth(start: float, end: float) -> float:
    """Mean depth of a taper over an area of even breadth.

    Parameters
    ----------
    start, end : float
        Depth at either end [m], 0 or more.

    Returns
    -------
    float
        Depth [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(middle_depth(0.1, 0.2), 9)
    0.15
    """
    return (start + end) / 2


def mean_depth(sheet: Sheet, area: Area | MeasuredArea, depth: Depth) -> float:
    """Mean depth over an area [m]: exact over a shape, the middle over an area that is only measured."""
    if not depth.tapers:
        return depth.start
    if depth.mean is not None:
        return depth.mean
    if isinstance(area, MeasuredArea):
        sheet.caution(caution("taper_without_shape", "The area is given by its measure alone."))
        return sheet.work("mean_depth", middle_depth, depth.start, depth.end)
    axis = 0 if depth.along is Along.LENGTH else 1
    least, greatest = area.outline.bounds[axis], area.outline.bounds[axis + 2]
    reach = area.centroid[axis] - least
    return sheet.work("mean_depth", tapered_depth, depth.start, depth.end, reach, greatest - least)


def refuse_depth(depth: Depth, least: float, greatest: float) -> None:
    """Refuse a depth that isn't laid.

    Raises
    ------
    OutOfRange
        If the depth leaves the limits, or a taper runs out below nothing. The place is
        ``("depth",)``, or ``("depth_from",)`` or ``("depth_to",)`` of a taper.
    """
    for end in ("start", "end"):
        value = getattr(depth, end)
        low = 0.0 if depth.tapers and value < depth.greatest else least
        if not low <= value <= greatest:
            place = ("depth_from" if end == "start" else "depth_to") if depth.tapers else "depth"
            raise OutOfRange(
                f"A depth of {value * 1000:g} mm isn't laid: give {low * 1000:g} to {greatest * 1000:g} mm.", place
            )
