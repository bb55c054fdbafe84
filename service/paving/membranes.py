"""Membranes: rolls laid side by side with laps, and the better way to roll them out.

+---------------+---+
|    strip 1        |
+~~~~~~~~~~~~~~~+~~~+  lap
|    strip 2    |~~~|  <- a roll ends here; the next one laps over it
+---------------+---+
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import shapely

from service.paving.areas import Area
from service.paving.counts import ceil
from service.paving.errors import OutOfRange
from service.paving.formulas import formula
from service.paving.reference import Assumption
from service.paving.sheets import Sheet


class Rolled(StrEnum):
    """Which way rolls run."""

    ALONG_LENGTH = "along_length"
    ALONG_WIDTH = "along_width"


@dataclass(frozen=True, slots=True)
class Roll:
    """A roll of membrane.

    Parameters
    ----------
    width, length : float
        Width of the roll, and what is on it [m].
    lap : Assumption
        How far one piece lies over the next [m].
    """

    width: float
    length: float
    lap: Assumption


@formula
def strips_needed(breadth: float, roll_width: float, lap: float) -> float:
    """Strips side by side over some breadth.

    Parameters
    ----------
    breadth : float
        Extent across the strips [m].
    roll_width : float
        Width of the roll [m].
    lap : float
        How far one strip lies over the next [m], less than its width.

    Returns
    -------
    float
        Whole number [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> strips_needed(7.5, 4.5, 0.3)
    2
    """
    return max(ceil((breadth - lap) / (roll_width - lap)), 1)


@formula
def membrane_used(run: float, roll_width: float) -> float:
    """Membrane laid, laps and all.

    Parameters
    ----------
    run : float
        Length of all strips with the laps at their joins [m].
    roll_width : float
        Width of the roll [m].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> membrane_used(12.0, 4.5)
    54.0
    """
    return run * roll_width


@dataclass(frozen=True, slots=True)
class Way:
    """One way to roll a membrane out.

    Parameters
    ----------
    rolled : Rolled
        Which way the rolls run.
    strips : int
        Strips side by side.
    rolls : int
        Whole rolls they are cut from; what is left of one is used on, lapped over the next.
    run : float
        Length of all strips with the laps at their joins [m].
    used : float
        Membrane laid [m2].
    """

    rolled: Rolled
    strips: int
    rolls: int
    run: float
    used: float


@dataclass(frozen=True, slots=True)
class Membrane:
    """The better way to roll a membrane out, and both for comparison."""

    better: Way
    ways: tuple[Way, ...]

    @property
    def rolls(self) -> int:
        return self.better.rolls

    @property
    def used(self) -> float:
        """Membrane laid [m2]."""
        return self.better.used


def membrane(sheet: Sheet, area: Area, roll: Roll) -> Membrane:
    """Roll a membrane out over an area, both ways.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    area : Area
        What it covers; openings are cut out of it afterwards and save nothing.
    roll : Roll
        What it comes on.

    Raises
    ------
    OutOfRange
        If the lap is as wide as the roll, or more, at ``("lap",)``.

    Notes
    -----
    Strips begin at the lower or left bound of the area and are as long as the area is under them.
    The better way takes fewer rolls, then less membrane.

    References
    ----------
    Geometry; laps by common practice
    """
    lap = sheet.assume(roll.lap)
    if lap >= min(roll.width, roll.length):
        raise OutOfRange(
            f"The lap must be less than the roll: below {min(roll.width, roll.length) * 1000:g} mm.", "lap"
        )
    ways = tuple(_way(sheet.section(rolled), area, roll, lap, rolled) for rolled in Rolled)
    return Membrane(min(ways, key=lambda way: (way.rolls, way.used)), ways)


def _way(sheet: Sheet, area: Area, roll: Roll, lap: float, rolled: Rolled) -> Way:
    left, low, right, high = area.outline.bounds
    breadth = high - low if rolled is Rolled.ALONG_LENGTH else right - left
    strips = int(sheet.work("strips", strips_needed, breadth, roll.width, lap))
    lengths = _strip_lengths(area, roll.width, roll.width - lap, strips, rolled)
    rolls, run = _cut(lengths, roll.length, lap)
    return Way(rolled, strips, rolls, run, sheet.work("used", membrane_used, run, roll.width))


def _strip_lengths(area: Area, width: float, step: float, strips: int, rolled: Rolled) -> list[float]:
    """Length of every strip: of a rectangle its side, of another shape what the area reaches under it [m]."""
    left, low, right, high = area.outline.bounds
    along_x = rolled is Rolled.ALONG_LENGTH
    if len(area.outline.points) == 4 and area.right_angled:
        return [right - left if along_x else high - low] * strips
    # A hair narrower than the strip: an edge that only rounding puts under it must not lengthen it.
    starts = [k * step + 1e-9 for k in range(strips)]
    wide = width - 2 * 1e-9
    bands = (
        [shapely.box(left, low + start, right, low + start + wide) for start in starts]
        if along_x
        else [shapely.box(left + start, low, left + start + wide, high) for start in starts]
    )
    pieces = shapely.get_parts(shapely.intersection(shapely.Polygon(area.outline.ring), bands))
    bounds = shapely.bounds(pieces[shapely.area(pieces) > 0])
    reaches: list[float] = (bounds[:, 2] - bounds[:, 0] if along_x else bounds[:, 3] - bounds[:, 1]).tolist()
    return reaches


def _cut(lengths: Sequence[float], roll_length: float, lap: float) -> tuple[int, float]:
    """Whole rolls for strips of these lengths, one after the other, and the length used with laps [m]."""
    rolls, left, used = 0, 0.0, 0.0
    for length in lengths:
        missing = length
        # A rest no longer than the lap would cover nothing.
        if left > lap:
            laid = min(left, missing)
            left, missing, used = left - laid, missing - laid, used + laid
            missing += lap if missing > 1e-9 else 0.0
        whole = _rolls_for(missing, roll_length, lap)
        if whole:
            joined = missing + (whole - 1) * lap
            rolls, left, used = rolls + whole, whole * roll_length - joined, used + joined
    return rolls, used


def _rolls_for(length: float, roll_length: float, lap: float) -> int:
    """Rolls joined end to end that reach some length."""
    if length <= 1e-9:
        return 0
    return max(ceil((length - lap) / (roll_length - lap)), 1)
