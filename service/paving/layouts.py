"""Layouts: a pattern laid on an area, every slab counted, cut and bought.

What a layer would mark out, saw and order:

    +------+------+---+
    |      |      |   |     whole and cut slabs, the pieces kept of them,
    +---+--+---+--+---+     joints, sawing, slabs to buy
    |   |      |      |
    +---+------+------+
"""

import math
from dataclasses import dataclass

import numpy as np

from service.paving.areas import Area
from service.paving.errors import OutOfRange
from service.paving.laying.buying import each_its_own
from service.paving.laying.counts import Counted, counted
from service.paving.laying.cut_pieces import MadeEdges, Turning
from service.paving.laying.cuts import Cuts
from service.paving.laying.grounds import Frame, ground
from service.paving.laying.lattices import MICROMETRES, Lattice
from service.paving.laying.pavings import Detail, Pattern, Paving, Search
from service.paving.laying.pieces import Piece, pieces
from service.paving.laying.repeats import paving_lattice
from service.paving.laying.tolerances import least_strip
from service.paving.outlines import Point
from service.paving.reference import default

__all__ = [
    "Detail", "Layout", "MadeEdges", "Pattern", "Paving", "Piece", "Search", "SlabCount", "Turning", "layout",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class SlabCount:
    """Slabs of one size: laid whole, laid cut, and to be bought."""

    name: str
    whole: int
    cut: int
    to_buy: int


@dataclass(frozen=True, slots=True)
class Layout:
    """A pattern laid on an area; lengths [m], areas [m2].

    Parameters
    ----------
    slabs_whole, slabs_cut : int
        Slabs laid whole and cut.
    cut_pieces : int
        Pieces kept of the cut slabs.
    slabs_to_buy, slabs_to_buy_bound : int
        Slabs to buy, and the number that can't be undercut.
    bound_model : str
        What the bound holds for.
    thinnest_cut : float or None
        Thickness of the thinnest piece, along the sides of its slab; none if nothing is cut.
    slivers : int
        Cut slabs with a piece thinner than a third of the slab's width.
    paved_area, joint_area : float
        Area of the slabs laid, and what is left of the area for joints.
    joint_length : float
        Length of all joints inside the area, along their centre lines.
    sawing_length : float
        Length of the area's edges across cut slabs.
    waste : float
        Part of the slabs bought that isn't laid, 0 to 1.
    by_slab : tuple of SlabCount
        The same by size of slab.
    origin : Point
        Origin of the pattern used.
    tolerance : float
        Width of the strip that is neither sawn off nor laid.
    search : str or None
        How the origin was searched; none if it was given.
    gap : int or None
        By how many slabs the search may have missed the best; none if it can't have, or if nothing says.
    pieces : tuple of Piece
        Every slab as laid, if asked for.
    counted : Counted
        The layout on the grid, for drawing it.
    frame : Frame
        Where the grid stands on plan.
    """

    slabs_whole: int
    slabs_cut: int
    cut_pieces: int
    slabs_to_buy: int
    slabs_to_buy_bound: int
    bound_model: str
    thinnest_cut: float | None
    slivers: int
    paved_area: float
    joint_area: float
    joint_length: float
    sawing_length: float
    waste: float
    by_slab: tuple[SlabCount, ...]
    origin: Point
    tolerance: float
    search: str | None
    gap: int | None
    pieces: tuple[Piece, ...]
    counted: Counted
    frame: Frame


def layout(area: Area, paving: Paving) -> Layout:
    """Lay a paving on an area.

    Parameters
    ----------
    area : Area
        What is paved.
    paving : Paving
        Slabs and how they are laid.

    Returns
    -------
    Layout
        What is laid, cut, sawn and bought.

    Raises
    ------
    OutOfRange
        If the slabs don't suit the pattern or the area, if there are too many of them, or if a size,
        an angle or the origin is out of range.
    BrokenIdentity
        If slabs and joints don't add up to the area.

    Notes
    -----
    A slab of which less than half a millimetre is missing along the cut counts as whole, one of which
    less than that is left as not there. Arcs are laid out by chords half a millimetre away at most.

    References
    ----------
    Geometry

    Examples
    --------
    >>> from service.paving.areas import area, rectangle
    >>> from service.paving.slabs import Slab
    >>> paving = Paving(slabs=(Slab("flag", 0.6, 0.3, 0.04),), pattern=Pattern.stretcher_bond)
    >>> found = layout(area(rectangle(1.8, 0.9)), paving)
    >>> found.slabs_whole, found.slabs_cut, found.slabs_to_buy
    (8, 2, 10)
    """
    lattice = paving_lattice(paving)
    _check_place(area, paving, lattice)
    frame = _frame(paving)
    cuts = Cuts(counted(ground(area.rings, frame, lattice.fineness), lattice))
    return _told(area, paving, frame, cuts)


def _frame(paving: Paving) -> Frame:
    origin = paving.origin
    if isinstance(origin, Search):
        raise OutOfRange("The search for an origin isn't built yet; give one.", "origin")
    return Frame(origin, paving.angle + (math.pi / 4 if paving.pattern is Pattern.herringbone_45 else 0.0))


def _check_place(area: Area, paving: Paving, lattice: Lattice) -> None:
    farthest = default("laying", "farthest_origin").value
    if not -2 * math.pi <= paving.angle <= 2 * math.pi:
        raise OutOfRange("A pattern is turned by at most a full turn either way.", "angle")
    if isinstance(paving.origin, tuple) and not all(abs(n) <= farthest for n in paving.origin):
        raise OutOfRange(f"The origin lies within {farthest:g} m of (0, 0).", "origin")
    for k, slab in enumerate(paving.slabs):
        if slab.length * slab.width > area.net * (1 + 1e-9):
            raise OutOfRange(
                f"One slab covers {slab.length * slab.width:.3g} m2, more than the whole area, {area.net:.3g} m2.",
                "slabs",
                k,
            )
    limit = "most_slabs_drawn" if paving.detail is Detail.pieces else "most_slabs_counted"
    most = default("laying", limit).value
    number = area.net * lattice.units**2 / lattice.area * len(lattice.repeat.tiles)
    if number > most:
        raise OutOfRange(f"About {number:.3g} slabs; at most {most:,.0f} are laid in one layout.", "slabs")


def _told(area: Area, paving: Paving, frame: Frame, cuts: Cuts) -> Layout:
    count = cuts.counted
    kinds = np.array([tile.slab for tile in count.lattice.repeat.tiles])
    whole, cut = (
        np.bincount(kinds, weights=by_tile, minlength=len(paving.slabs)).astype(int).tolist()
        for by_tile in (count.whole_by_tile, count.cut_by_tile)
    )
    for_cuts = each_its_own(cuts, len(paving.slabs))
    buy = [w + purchase.slabs for w, purchase in zip(whole, for_cuts, strict=True)]
    least = sum(whole) + sum(purchase.bound for purchase in for_cuts)
    thickness = cuts.thickness
    face = sum(n * slab.length * slab.width for n, slab in zip(buy, paving.slabs, strict=True))
    names = [slab.name for slab in paving.slabs]
    return Layout(
        slabs_whole=sum(whole),
        slabs_cut=sum(cut),
        cut_pieces=cuts.pieces,
        slabs_to_buy=sum(buy),
        slabs_to_buy_bound=least,
        bound_model=for_cuts[0].model,
        thinnest_cut=float(thickness.min()) if thickness.size else None,
        slivers=_slivers(cuts),
        paved_area=count.paved_area,
        joint_area=max(area.net - count.paved_area, 0.0),
        joint_length=count.joint_length,
        sawing_length=count.sawing_length,
        waste=max(1 - count.paved_area / face, 0.0) if face else 0.0,
        by_slab=tuple(SlabCount(*counts) for counts in zip(names, whole, cut, buy, strict=True)),
        origin=frame.origin,
        tolerance=least_strip().value,
        search=None,
        gap=None,
        pieces=pieces(cuts, frame, names) if paving.detail is Detail.pieces else (),
        counted=count,
        frame=frame,
    )


def _slivers(cuts: Cuts) -> int:
    tiles = cuts.counted.lattice.repeat.tiles
    widths = np.array([float(min(tile.box.length, tile.box.width)) for tile in tiles]) / MICROMETRES
    return int(np.sum(cuts.thickness < default("laying", "sliver").value * widths[cuts.tiles]))
