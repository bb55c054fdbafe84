"""Trees: how much of the paving lies over the roots that must be protected."""

from collections.abc import Sequence
from dataclasses import dataclass

from service.paving.areas import Area, circle_area
from service.paving.cautions import caution
from service.paving.discs import disc_overlap
from service.paving.errors import OutOfRange
from service.paving.formulas import formula
from service.paving.outlines import Point
from service.paving.reference import default
from service.paving.sheets import Sheet


@formula
def combined_diameter(squared_diameters: Sequence[float]) -> float:
    """Diameter of one stem that stands for several.

    Parameters
    ----------
    squared_diameters : sequence of float
        Square of the diameter of each stem [m2]; shown as a number of [stems].

    Returns
    -------
    float
        Diameter [m].

    References
    ----------
    BS 5837:2012, 4.6.1, two to five stems (quoted from memory)

    Examples
    --------
    >>> combined_diameter((0.09, 0.16))
    0.5
    """
    return sum(square for square in squared_diameters) ** 0.5


@formula
def mean_diameter(diameters: Sequence[float], stems: float) -> float:
    """Mean diameter of the stems of a tree.

    Parameters
    ----------
    diameters : sequence of float
        Diameter of each stem [m]; shown as a number of [stems].
    stems : float
        How many there are [1].

    Returns
    -------
    float
        Diameter [m].

    References
    ----------
    BS 5837:2012, 4.6.1, more than five stems (quoted from memory)

    Examples
    --------
    >>> round(mean_diameter((0.1, 0.2, 0.3), 3), 9)
    0.2
    """
    return sum(diameter for diameter in diameters) / stems


@formula
def many_stems_diameter(mean_diameter: float, stems: float) -> float:
    """Diameter of one stem that stands for more than five.

    Parameters
    ----------
    mean_diameter : float
        Mean diameter of the stems [m].
    stems : float
        How many there are [1].

    Returns
    -------
    float
        Diameter [m].

    References
    ----------
    BS 5837:2012, 4.6.1, more than five stems (quoted from memory)

    Examples
    --------
    >>> round(many_stems_diameter(0.12, 6), 4)
    0.2939
    """
    return (mean_diameter**2 * stems) ** 0.5


@formula
def root_protection_radius(stem_diameter: float, diameters: float, greatest_radius: float) -> float:
    """Radius of the root protection area.

    Parameters
    ----------
    stem_diameter : float
        Diameter of the stem 1.5 m above the ground [m].
    diameters : float
        Radius in stem diameters [1].
    greatest_radius : float
        Radius at which it is capped [m].

    Returns
    -------
    float
        Radius [m].

    References
    ----------
    BS 5837:2012, 4.6 and annex D (quoted from memory)

    Examples
    --------
    >>> round(root_protection_radius(0.3, 12.0, 15.0), 9)
    3.6
    """
    return min(stem_diameter * diameters, greatest_radius)


@formula
def covered_share(overlap: float, unsurfaced: float) -> float:
    """Share of the open ground over the roots that new paving covers.

    Parameters
    ----------
    overlap : float
        Paving inside the root protection area [m2].
    unsurfaced : float
        Ground inside it that isn't surfaced yet [m2].

    Returns
    -------
    float
        Share [1].

    References
    ----------
    BS 5837:2012, 7.4.2.3 (quoted from memory)

    Examples
    --------
    >>> covered_share(5.0, 40.0)
    0.125
    """
    return overlap / unsurfaced


@formula
def unsurfaced_area(protection_area: float, surfaced: float) -> float:
    """Ground inside a root protection area that isn't surfaced yet.

    Parameters
    ----------
    protection_area : float
        The root protection area [m2].
    surfaced : float
        Hard surface inside it already [m2].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> unsurfaced_area(40.0, 8.0)
    32.0
    """
    return protection_area - surfaced


@dataclass(frozen=True, slots=True)
class Tree:
    """A tree near the paving.

    Parameters
    ----------
    stems : tuple of float
        Diameter of each stem 1.5 m above the ground [m].
    at : Point
        Where it stands on plan [m].
    surfaced : float
        Hard surface that lies inside its root protection area already [m2].
    """

    stems: tuple[float, ...]
    at: Point
    surfaced: float = 0.0


@dataclass(frozen=True, slots=True)
class RootProtection:
    """What must be kept of a tree's roots, and how much of it the paving covers.

    Parameters
    ----------
    stem_diameter : float
        Of the stem, or of one that stands for all [m].
    radius : float
        Of the root protection area [m].
    protection_area : float
        Root protection area [m2].
    overlap : float
        Paving inside it [m2].
    share : float
        Share of its open ground that the paving covers [1].
    """

    stem_diameter: float
    radius: float
    protection_area: float
    overlap: float
    share: float


def root_protection(sheet: Sheet, area: Area, tree: Tree) -> RootProtection:
    """Hold the paving against the roots of a tree.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    area : Area
        What is paved.
    tree : Tree
        The tree.

    Raises
    ------
    OutOfRange
        If more is surfaced already than there is, at ``("surfaced",)``.

    References
    ----------
    BS 5837:2012, 4.6, 7.4 and annex D (quoted from memory)
    """
    diameter = _stem_diameter(sheet, tree.stems)
    factor, cap = (sheet.assume(default("trees", name)) for name in ("radius_in_diameters", "greatest_radius"))
    radius = sheet.work("radius", root_protection_radius, diameter, factor, cap)
    protected = sheet.work("protection_area", circle_area, 2 * radius)
    overlap = disc_overlap(area, tree.at, radius)
    if tree.surfaced >= protected:
        raise OutOfRange(f"No more than {protected:.1f} m2 can be surfaced: that is all there is.", "surfaced")
    unsurfaced = sheet.work("unsurfaced", unsurfaced_area, protected, tree.surfaced)
    share = sheet.work("share", covered_share, overlap, unsurfaced)
    _cautions(sheet, overlap, share)
    return RootProtection(diameter, radius, protected, overlap, share)


def _stem_diameter(sheet: Sheet, stems: tuple[float, ...]) -> float:
    if len(stems) == 1:
        return stems[0]
    if len(stems) <= default("trees", "most_stems_summed").value:
        return sheet.work("stem_diameter", combined_diameter, tuple(stem**2 for stem in stems))
    mean = sheet.work("mean_diameter", mean_diameter, stems, len(stems))
    return sheet.work("stem_diameter", many_stems_diameter, mean, len(stems))


def _cautions(sheet: Sheet, overlap: float, share: float) -> None:
    if overlap <= 0:
        return
    sheet.caution(caution("roots", f"{overlap:.1f} m2 of the paving lies over roots to be protected."))
    most = default("trees", "most_covered_share").value
    if share > most * (1 + 1e-9):
        because = f"The paving covers {share * 100:.0f} % of the open ground there; the most is {most * 100:g} %."
        sheet.caution(caution("roots_covered", because))
