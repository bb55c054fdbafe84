"""Placed slabs: layings without a repeat, every slab at a place of its own.

The count wants cells that cover the ground: a slab's cell reaches half a joint beyond it,
and on the rim of the laying farther, since what is left there is taken up in the joint:

    +-----+---+--
    | +-+ |   |         slab in its cell, half a joint round it
    | | | |   |
    | +-+ |   |
    +     +   +         cells on the rim go on outwards
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from service.paving.laying.lattices import STEP, Box, Lattice, Repeat, Tile

#: How far cells on the rim go on beyond their half joint [µm], above any joint.
_RIM = 60_000
#: How far off slabs that aren't laid are put, and how far apart repeats that are never met [µm].
_OFF = 1_000_000


class Placed(NamedTuple):
    """A slab where it lies.

    Parameters
    ----------
    slab : int or None
        Which size it is; none where nothing is laid.
    x, y : int
        Its lower left corner [µm].
    length, width : int
        Its sides along x and y [µm].
    reach_x, reach_y : int
        Sides of its place, joint included [µm].
    quarter_turns : int
        1 if its own length lies along y.
    """

    slab: int | None
    x: int
    y: int
    length: int
    width: int
    reach_x: int
    reach_y: int
    quarter_turns: int = 0


def placed_lattice(slabs: Sequence[Placed], joint: int) -> Lattice:
    """A lattice of slabs laid once; their places must fill a rectangle.

    Parameters
    ----------
    slabs : sequence of Placed
        What is laid.
    joint : int
        Width of the joints [µm].
    """
    left, low = min(p.x for p in slabs), min(p.y for p in slabs)
    right, high = max(p.x + p.reach_x for p in slabs), max(p.y + p.reach_y for p in slabs)
    rim = (left, low, right, high)
    tiles = tuple(_tile(p, joint // 2, rim) for p in slabs)
    span = 2 * (max(right - left, high - low) + 2 * _OFF)
    boxes = [[b.x, b.y, b.length, b.width] for b in (*(t.box for t in tiles), *(t.cell for t in tiles))]
    rows = np.array(boxes, dtype=np.int64).T * STEP
    return Lattice(Repeat((span, 0), (0, span), tiles), STEP, np.ascontiguousarray(rows))


def _tile(p: Placed, half: int, rim: tuple[int, int, int, int]) -> Tile:
    left, low, right, high = rim
    x0, y0, x1, y1 = p.x - half, p.y - half, p.x + p.reach_x - half, p.y + p.reach_y - half
    x0, y0 = x0 - _RIM * (p.x == left), y0 - _RIM * (p.y == low)
    x1, y1 = x1 + _RIM * (p.x + p.reach_x == right), y1 + _RIM * (p.y + p.reach_y == high)
    cell = Box(x0, y0, x1 - x0, y1 - y0)
    if p.slab is None:
        return Tile(0, Box(right + _OFF // 2, high + _OFF // 2, p.length, p.width), cell)
    return Tile(p.slab, Box(p.x, p.y, p.length, p.width), cell, p.quarter_turns)
