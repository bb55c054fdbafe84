"""Stands: the ways a piece may stand in a slab.

As it lies, turned with its slab, and pushed into the corners:

    +-----------+   +-----------+   +-----------+
    |/////      |   |           |   |      /////|
    |///        |   |        ///|   |      ///  |
    |           |   |      /////|   |           |
    +-----------+   +-----------+   +-----------+
      as it lies       half turn     pushed right

Two convex pieces that fit into one slab at all also fit pushed into opposite corners: the
shifts of one against the other at which they are too close form a convex set, so if it
holds the corners of all the shifts that the slab allows, it holds all of them. For pairs
of convex pieces these stands therefore lose nothing.
"""

from typing import NamedTuple, TypeVar

import numpy as np
import numpy.typing as npt

from service.paving.laying.offcuts.parts import Part, made_sides
from service.paving.laying.offcuts.rules import Stock

Coordinate = TypeVar("Coordinate", int, npt.NDArray[np.float32])


class Stand(NamedTuple):
    """Where a piece goes.

    Parameters
    ----------
    turns : int
        Quarter turns counter-clockwise about (0, 0), first.
    x, y : int
        How far it is moved, then [µm].
    """

    turns: int
    x: int
    y: int


def turned(x: Coordinate, y: Coordinate, turns: int) -> tuple[Coordinate, Coordinate]:
    """A point after quarter turns counter-clockwise about (0, 0).

    Examples
    --------
    >>> turned(3, 1, 1)
    (-1, 3)
    """
    return ((x, y), (-y, x), (-x, -y), (y, -x))[turns]


def stands_as_laid(stock: Stock) -> list[Stand]:
    """Every piece as it lies in its own slab, and turned with the whole slab."""
    shifts = {0: (0, 0), 2: (stock.length, stock.width)}
    if stock.square:
        shifts |= {1: (stock.length, 0), 3: (0, stock.length)}
    return [Stand(turns, *shifts[turns]) for turns in stock.turns if turns in shifts]


def stands(part: Part, stock: Stock) -> list[Stand]:
    """Every stand worth trying, those that leave the piece as it lies in its slab first."""
    as_laid = stands_as_laid(stock)
    found = dict.fromkeys(as_laid)
    own = {stand.turns: stand for stand in as_laid}
    made = made_sides(part, stock)
    for turns in stock.turns:
        (left, right), (low, high) = _reach(part, turns)
        sides = made[4 - turns :] + made[: 4 - turns]
        mine = own.get(turns)
        for x in _shifts(left, right, stock.length, sides[::2], mine and mine.x):
            for y in _shifts(low, high, stock.width, sides[1::2], mine and mine.y):
                found[Stand(turns, x, y)] = None
    return list(found)


def _reach(part: Part, turns: int) -> tuple[list[int], list[int]]:
    """From where to where the turned piece reaches along x and along y."""
    (xa, ya), (xb, yb) = turned(part.x0, part.y0, turns), turned(part.x1, part.y1, turns)
    return sorted((xa, xb)), sorted((ya, yb))


def _shifts(low: int, high: int, room: int, made: tuple[bool, ...], own: int | None) -> list[int]:
    """How far a piece from low to high may be moved to lie in the room, made edges on its ends."""
    first, last = -low, room - high
    if first > last or (all(made) and first < last):
        return []
    if any(made):
        return [first if made[0] else last]
    return [first, last] if own is None else [own, first, last]
