"""Pavings: what is laid, and how."""

from dataclasses import dataclass
from enum import Enum, StrEnum
from fractions import Fraction

from service.paving.laying.cut_pieces import MadeEdges, Turning
from service.paving.laying.offcuts import Effort
from service.paving.outlines import Point
from service.paving.slabs import Slab


class Pattern(StrEnum):
    """How slabs are laid."""

    stack_bond = "stack_bond"
    stretcher_bond = "stretcher_bond"
    herringbone_90 = "herringbone_90"
    herringbone_45 = "herringbone_45"
    basket_weave = "basket_weave"
    pinwheel = "pinwheel"
    coursed_random = "coursed_random"
    mixed_random = "mixed_random"


class Detail(Enum):
    """How deep the answer goes.

    `counts` touches the area's edges only and buys a slab for every cut one; `cuts` works the
    shape of every cut slab and uses offcuts again; `pieces` lists every slab as well.
    """

    counts = "counts"
    cuts = "cuts"
    pieces = "pieces"


class Search(StrEnum):
    """An origin to be looked for, by what comes first.

    `fewest_cuts`: cut slabs, then slivers, slabs to buy, sawing. `fewest_slivers`: slivers, then
    slabs to buy, cut slabs, sawing.
    """

    fewest_cuts = "fewest_cuts"
    fewest_slivers = "fewest_slivers"


@dataclass(frozen=True, kw_only=True)
class Paving:
    """Slabs and the way they are laid.

    Parameters
    ----------
    slabs : tuple of Slab
        The sizes laid; one, but two for pinwheel.
    pattern : Pattern
        How they are laid.
    joint : float
        Width of the joints [m], 0 or more.
    offset : Fraction
        Shift of each course of stretcher bond, as a part of a slab with its joint, above 0 and below 1.
    angle : float
        How far the pattern is turned counter-clockwise about its origin [rad], −2π to 2π.
    origin : Point or Search
        Where the lower left corner of the pattern's first slab lies on plan [m], or how to look for it.
    kerf : float
        Width the saw takes [m].
    made_edges : MadeEdges
        Whether pieces keep the edges slabs were made with.
    turning : Turning
        Whether offcuts may be turned a quarter.
    detail : Detail
        How deep the answer goes.
    effort : Effort
        How hard to look for a use of every offcut.
    seed : int or None
        Random layings: number that chance follows from; the usual one if none.
    stagger : float or None
        Coursed random: least distance of perpends from those of the course before [m].
    joint_most : float or None
        Coursed random: widest joint, if joints may be opened so that courses end whole [m].
    run_limit : int or None
        Mixed sizes: modules along the longest straight joint.
    pack : tuple of int or None
        Random layings: how many of each size one pack holds, in place of shares.
    """

    slabs: tuple[Slab, ...]
    pattern: Pattern
    joint: float = 0.0
    offset: Fraction = Fraction(1, 2)
    angle: float = 0.0
    origin: Point | Search = (0.0, 0.0)
    kerf: float = 0.0
    made_edges: MadeEdges = MadeEdges.free
    turning: Turning = Turning.quarter
    detail: Detail = Detail.cuts
    effort: Effort = Effort.thorough
    seed: int | None = None
    stagger: float | None = None
    joint_most: float | None = None
    run_limit: int | None = None
    pack: tuple[int, ...] | None = None
