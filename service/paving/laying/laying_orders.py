"""Laying orders: course by course, left to right, which slab comes next, for whoever lays them."""

from dataclasses import dataclass
from itertools import groupby

from service.paving.laying.counts import Counted
from service.paving.laying.lattices import MICROMETRES


@dataclass(frozen=True, slots=True)
class LaidCourse:
    """Slabs with their lower edge on one line.

    Parameters
    ----------
    number : int
        Number of the course, from 1 at the bottom.
    above : float
        Distance of its lower edge from that of the first course [m].
    slabs : str
        Letters of the slabs from left to right, `A` for the first size listed, each with `turned` after it
        if its length runs across the course, and `cut` if it is cut.
    along : tuple of float
        Distance of the left edge of each from the left end of the laying [m].
    """

    number: int
    above: float
    slabs: str
    along: tuple[float, ...]


def size_letter(slab: int) -> str:
    """The letter a size goes by.

    Examples
    --------
    >>> size_letter(0), size_letter(11)
    ('A', 'L')
    """
    return chr(ord("A") + slab)


def laying_order(counted: Counted) -> tuple[LaidCourse, ...]:
    """The order of a laying without a repeat: every slab of its lattice is laid once or not at all."""
    whole, cut = counted.whole_by_tile.tolist(), counted.cut_by_tile.tolist()
    tiles = counted.lattice.repeat.tiles
    laid = sorted(
        (int(tile.box.y), int(tile.box.x), size_letter(tile.slab) + " turned" * tile.quarter_turns + " cut" * cut[k])
        for k, tile in enumerate(tiles)
        if whole[k] or cut[k]
    )
    left = min((x for _, x, _ in laid), default=0)
    courses = [(y, list(row)) for y, row in groupby(laid, key=lambda one: one[0])]
    return tuple(
        LaidCourse(
            number=number,
            above=(y - courses[0][0]) / MICROMETRES,
            slabs=", ".join(mark for _, _, mark in row),
            along=tuple((x - left) / MICROMETRES for _, x, _ in row),
        )
        for number, (y, row) in enumerate(courses, 1)
    )
