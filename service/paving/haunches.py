"""Haunches: the concrete that holds an edging.

      +----+
    . |    |        haunch: a triangle, its height up the back of the slab
  .   |slab|
+-----+----+---+
|     bed      |    bed: a rectangle under slab and haunch
+--------------+
"""

from dataclasses import dataclass

from service.paving.errors import OutOfRange
from service.paving.formulas import formula
from service.paving.reference import default
from service.paving.sheets import Sheet


@dataclass(frozen=True, slots=True)
class Haunch:
    """Section of the concrete under and behind an edging [m]; what is left out has a default.

    Parameters
    ----------
    bed_width, bed_depth : float or None
        The rectangle under it.
    haunch_width, haunch_height : float or None
        The triangle behind it.
    """

    bed_width: float | None = None
    bed_depth: float | None = None
    haunch_width: float | None = None
    haunch_height: float | None = None


@dataclass(frozen=True, slots=True)
class Concrete:
    """Concrete along an edging: its section [m2] and volume [m3]."""

    section: float
    volume: float


@formula
def bed_width(across: float, margin: float) -> float:
    """Width of the concrete bed under an edging.

    Parameters
    ----------
    across : float
        Thickness of the edging slab or kerb [m].
    margin : float
        How much wider its bed is [m].

    Returns
    -------
    float
        Width [m].

    References
    ----------
    Common practice

    Examples
    --------
    >>> bed_width(0.125, 0.125)
    0.25
    """
    return across + margin


@formula
def concrete_section(bed_width: float, bed_depth: float, haunch_width: float, haunch_height: float) -> float:
    """Section of the concrete: a rectangle under the edging and a triangle behind it.

    Parameters
    ----------
    bed_width, bed_depth : float
        The rectangle [m].
    haunch_width, haunch_height : float
        The triangle [m].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(concrete_section(0.3, 0.15, 0.1, 0.15), 9)
    0.0525
    """
    return bed_width * bed_depth + haunch_width * haunch_height / 2


@formula
def concrete_volume(section: float, length: float) -> float:
    """Volume of the concrete along an edging.

    Parameters
    ----------
    section : float
        Section of the concrete [m2].
    length : float
        Length along the middle of the edging [m].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(concrete_volume(0.05, 12.0), 9)
    0.6
    """
    return section * length


def haunch_concrete(sheet: Sheet, haunch: Haunch, across: float, length: float) -> Concrete:
    """Measure the concrete along an edging.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    haunch : Haunch
        Section of the concrete.
    across : float
        Thickness of the edging [m].
    length : float
        Length along its middle [m].

    Raises
    ------
    OutOfRange
        If the bed is narrower than the edging, at ``("bed_width",)``.
    """
    sizes = [sheet.assume(default("edgings", name).given(getattr(haunch, name))) for name in _SIZES]
    section = sheet.work("section", concrete_section, _bed_width(sheet, haunch, across), *sizes)
    return Concrete(section, sheet.work("concrete", concrete_volume, section, length))


_SIZES = ("bed_depth", "haunch_width", "haunch_height")


def _bed_width(sheet: Sheet, haunch: Haunch, across: float) -> float:
    if haunch.bed_width is None:
        return sheet.work("bed_width", bed_width, across, sheet.assume(default("edgings", "bed_margin")))
    if haunch.bed_width < across:
        raise OutOfRange(f"The bed must be as wide as the edging: {across * 1000:g} mm or more.", "bed_width")
    return haunch.bed_width
