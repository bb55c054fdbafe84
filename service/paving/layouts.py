"""Layouts: a pattern laid on an area, every slab counted, cut and bought.

What a layer would mark out, saw and order:

    +------+------+---+
    |      |      |   |     whole and cut slabs, the pieces kept of them,
    +---+--+---+--+---+     joints, sawing, slabs to buy
    |   |      |      |
    +---+------+------+
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from service.paving.areas import Area
from service.paving.laying.buying import effort_spent
from service.paving.laying.counts import settled
from service.paving.laying.cut_pieces import MadeEdges, Turning
from service.paving.laying.grounds import Frame, ground
from service.paving.laying.laid import Laid, laid
from service.paving.laying.lattices import Lattice
from service.paving.laying.laying_orders import LaidCourse, laying_order, size_letter
from service.paving.laying.limits import check_place
from service.paving.laying.mixed.amounts import packs_for
from service.paving.laying.offcuts import Effort
from service.paving.laying.origins import Shortlist, shortlist
from service.paving.laying.pavings import Detail, Pattern, Paving, Search
from service.paving.laying.pieces import Piece, cut_slabs, whole_slabs
from service.paving.laying.random_layings import RANDOM, random_laying
from service.paving.laying.repeats import paving_lattice
from service.paving.laying.tolerances import least_strip
from service.paving.outlines import Point
from service.paving.reference import default

__all__ = [
    "Detail", "Effort", "Layout", "MadeEdges", "Pattern", "Paving", "Piece", "Search", "SlabCount", "Turning", "layout",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class SlabCount:
    """Slabs of one size: laid whole, laid cut, and to be bought.

    In random layings also the letter it goes by in the laying order, and what whole packs leave over.
    """

    name: str
    whole: int
    cut: int
    to_buy: int
    letter: str = ""
    left_over: int = 0


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
        What the bound holds for: `areas` for any cutting, `made_edges` for any that keeps made edges, `pairs`
        for pieces turned, and made edges kept, as the rules say.
    effort : Effort or None
        How hard uses for offcuts were looked for: less than asked where there are very many cut slabs;
        none if every cut slab is bought whole.
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
        Cut slabs or slivers, whichever the search puts first, above the fewest there can be: 0 if every
        origin that matters was tried; none if the origin was given, or if nothing says.
    pieces : tuple of Piece
        Every slab as laid, if asked for.
    laid : Laid
        The layout on the grid, for drawing it: `laid.frame` turns the pattern's frame into plan,
        `laid.counted.lattice` is the repeat, `courses` and `cut_slabs` give what is laid on it.
    order : tuple of LaidCourse
        Random layings: which slab comes next, course by course.
    note : str
        Random layings: what was decided on the way.
    packs : int or None
        Whole packs to buy, if a pack was given.
    """

    slabs_whole: int
    slabs_cut: int
    cut_pieces: int
    slabs_to_buy: int
    slabs_to_buy_bound: int
    bound_model: str
    effort: Effort | None
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
    laid: Laid
    order: tuple[LaidCourse, ...] = ()
    note: str = ""
    packs: int | None = None


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
    (8, 2, 9)
    """
    if paving.pattern in RANDOM:
        return _at_random(area, paving)
    lattice = paving_lattice(paving)
    check_place(area, paving, lattice)
    if isinstance(paving.origin, Search):
        return _searched(area, paving, lattice, paving.origin)
    return _told(area, laid(area, paving, lattice, _frame(paving, paving.origin)), None, None)


def _at_random(area: Area, paving: Paving) -> Layout:
    found = random_laying(area, paving)
    check_place(area, paving, found.lattice)
    one = laid(area, paving, found.lattice, found.frame)
    told = _told(area, one, found.origin if isinstance(paving.origin, Search) else None, None)
    packs, left = (None, (0,) * len(paving.slabs)) if paving.pack is None else packs_for(one.to_buy, paving.pack)
    by_slab = tuple(replace(count, letter=size_letter(k), left_over=left[k]) for k, count in enumerate(told.by_slab))
    order = laying_order(one.counted)
    return replace(told, by_slab=by_slab, order=order, note=" ".join(found.notes), packs=packs)


def _frame(paving: Paving, origin: Point) -> Frame:
    return Frame(origin, paving.angle + (math.pi / 4 if paving.pattern is Pattern.herringbone_45 else 0.0))


def _searched(area: Area, paving: Paving, lattice: Lattice, aim: Search) -> Layout:
    """The best of the origins on the shortlist, now that the slabs to buy are known."""
    still = _frame(paving, (0.0, 0.0))
    work = int(default("laying", "origins_work").value)
    found = shortlist(ground(area.rings, still, lattice.fineness), lattice, aim, work)
    x, y = (found.shifts[:, :1] if paving.detail is Detail.counts else found.shifts) / lattice.units
    places = zip(*(n.tolist() for n in still.to_plan(x, y)), strict=True)
    quick = replace(paving, effort=Effort.quick)
    best = min((laid(area, quick, lattice, _frame(paving, place)) for place in places), key=_rank(aim))
    return _told(area, replace(best, paving=paving), _how(found), 0 if found.missed == 0 else None)


def _rank(aim: Search) -> Callable[[Laid], tuple[float, ...]]:
    def rank(one: Laid) -> tuple[float, ...]:
        cuts, buy, saw = sum(one.cut), sum(one.to_buy), round(one.counted.sawing_length, 6)
        return (cuts, one.slivers, buy, saw) if aim is Search.fewest_cuts else (one.slivers, buy, cuts, saw)

    return rank


def _how(found: Shortlist) -> str:
    if found.missed == 0:
        return f"all {found.tried} origins with edges flush with slabs, or a sliver's width off; none can be better"
    if found.missed is None:
        return f"{found.tried} origins in a grid and round the best of them; another may be better"
    return f"{found.tried} origins, where the search stopped; {found.missed} more may be better"


def _told(area: Area, one: Laid, search: str | None, gap: int | None) -> Layout:
    counted = one.counted
    # First, since buying traces every cut slab, and those in several parts needn't be traced apart then.
    to_buy = sum(one.to_buy)
    paved = settled(counted.paved_area, area.net)
    return Layout(
        slabs_whole=sum(one.whole),
        slabs_cut=sum(one.cut),
        cut_pieces=one.cuts.pieces,
        slabs_to_buy=to_buy,
        slabs_to_buy_bound=one.least,
        bound_model=one.bound_model,
        effort=None if one.paving.detail is Detail.counts else effort_spent(one.paving, sum(one.cut)),
        thinnest_cut=one.thinnest,
        slivers=one.slivers,
        paved_area=paved,
        joint_area=max(area.net - paved, 0.0),
        joint_length=counted.joint_length,
        sawing_length=counted.sawing_length,
        waste=one.waste,
        by_slab=tuple(map(SlabCount, one.names, one.whole, one.cut, one.to_buy)),
        origin=one.frame.origin,
        tolerance=least_strip().value,
        search=search,
        gap=gap,
        pieces=_listed(one) if one.paving.detail is Detail.pieces else (),
        laid=one,
    )


def _listed(one: Laid) -> tuple[Piece, ...]:
    return (*whole_slabs(one.cuts, one.frame, one.names), *cut_slabs(one.cuts, one.frame, one.names))
