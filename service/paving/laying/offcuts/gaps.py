"""Gaps: which stands of two pieces leave room for the blade between them.

Between two convex outlines there is room for a blade if it fits along a side of either:

          ______
         |      | \\ <- kerf ->   the widest gap along any side, measured across it
         |______|  \\
          side ->   \\____

The gap along a side is the least reach of the one outline across that side, less the
greatest of the other. Reaches are worked once per piece and turn; moving a piece only
adds to them, so every stand against every other is a handful of array sums.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from service.paving.laying.arrays import Flags, Whole
from service.paving.laying.cut_pieces import Ring, Turning
from service.paving.laying.offcuts.rules import Stock
from service.paving.laying.offcuts.stands import Stand, turned

Short = npt.NDArray[np.float32]


@dataclass(frozen=True)
class Standing:
    """Every stand of every piece, in rows.

    Parameters
    ----------
    owners : Whole
        Which piece each stand is of; stands of one piece are next to each other.
    turns : Whole
        Quarter turns of each.
    shifts : Whole
        How far each is moved, rows of (x, y) [µm].
    """

    owners: Whole
    turns: Whole
    shifts: Whole


def standing(stands: Sequence[Sequence[Stand]]) -> Standing:
    """Stands of many pieces."""
    rows = np.array([(k, s.turns, s.x, s.y) for k, each in enumerate(stands) for s in each], dtype=np.int64)
    return Standing(rows[:, 0], rows[:, 1], rows[:, 2:])


def widest_gaps(hulls: Sequence[Ring], standing: Standing, stock: Stock) -> Short:
    """Widest gap along any side of the first of two stands, first by second [µm].

    Negative where every side of the first cuts into the second. Accurate to a micrometre.

    Notes
    -----
    Turning the slab with everything in it changes no gap, so only stands at the first
    turns are measured; the rest is the same table read in another order.
    """
    sides = _sides(hulls)
    reaches = _reaches(sides, stock)
    step = 1 if stock.square and stock.turning is Turning.quarter else 2
    gaps = np.empty((standing.owners.size, standing.owners.size), dtype=np.float32)
    around = _turned_with_slab(standing, stock, step)
    for turns in range(step if stock.turning is Turning.quarter else 1):
        rows = np.flatnonzero(standing.turns == turns)
        _measure(gaps, rows, turns, sides, reaches, standing)
        for _ in range(4 // step - 1):
            gaps[np.ix_(around[rows], around)] = gaps[rows]
            rows = around[rows]
    return gaps


@dataclass(frozen=True)
class _Sides:
    """Sides of all outlines in a row.

    Parameters
    ----------
    starts, counts : Whole
        First side of each piece, and how many it has.
    corners, normals : Short
        Where each side starts [µm] and its unit vector outwards, rows of (x, y).
    """

    starts: Whole
    counts: Whole
    corners: Short
    normals: Short


def _sides(hulls: Sequence[Ring]) -> _Sides:
    corners = np.array([point for ring in hulls for point in ring], dtype=np.float64)
    following = np.array([point for ring in hulls for point in (*ring[1:], ring[0])], dtype=np.float64)
    counts = np.array([len(ring) for ring in hulls])
    along = following - corners
    normals = np.stack((along[:, 1], -along[:, 0]), axis=1) / np.hypot(along[:, 0], along[:, 1])[:, None]
    return _Sides(np.cumsum(counts) - counts, counts, corners.astype(np.float32), normals.astype(np.float32))


def _reaches(sides: _Sides, stock: Stock) -> Short:
    """Least reach of each piece across each side, by how far it is turned against it: (turns, piece, side)."""
    found = np.zeros((4, sides.starts.size, sides.normals.shape[0]), dtype=np.float32)
    across = _products(sides.corners, sides.normals)
    found[0] = -_greatest(-across, sides)
    found[2] = -_greatest(across, sides)
    if stock.turning is Turning.quarter:
        along = _products(sides.corners, np.stack((-sides.normals[:, 1], sides.normals[:, 0]), axis=1))
        found[1] = -_greatest(along, sides)
        found[3] = -_greatest(-along, sides)
    return found


def _products(first: Short, second: Short) -> Short:
    """Every vector of the first times every vector of the second.

    Two products and a sum: a matrix product would wake the threads of the algebra library for it.
    """
    return first[:, :1] * second[:, 0] + first[:, 1:] * second[:, 1]


def _greatest(rows: Short, sides: _Sides) -> Short:
    """Greatest of the rows that belong to each piece, column by column.

    Pieces with most sides first, so that those with a next row are always the first few: much
    quicker than a reduction over runs of different length.
    """
    order, most = _most_sides_first(sides.counts)
    greatest = rows[sides.starts[order]]
    for k, number in enumerate(most[1:], 1):
        np.maximum(greatest[:number], rows[sides.starts[order[:number]] + k], out=greatest[:number])
    found = np.empty_like(greatest)
    found[order] = greatest
    return found


def _most_sides_first(counts: Whole) -> tuple[Whole, list[int]]:
    """The order, and how many have a side number 0, 1, 2 and so on."""
    order = np.argsort(-counts, kind="stable")
    return order, np.searchsorted(-counts[order], -np.arange(counts.max(initial=0)), side="left").tolist()


def _measure(gaps: Short, rows: Whole, turns: int, sides: _Sides, reaches: Short, standing: Standing) -> None:
    """Fill in the rows, all of the same turns."""
    normals = np.stack(turned(sides.normals[:, 0], sides.normals[:, 1], turns), axis=1)
    moved = _products(normals, standing.shifts.astype(np.float32))
    against = reaches[(standing.turns - turns) % 4, standing.owners].T + moved
    own = np.einsum("ij,ij->i", sides.normals, sides.corners)
    order, most = _most_sides_first(sides.counts[standing.owners[rows]])
    rows = rows[order]
    widest = np.full((rows.size, standing.owners.size), -np.inf, dtype=np.float32)
    for k, number in enumerate(most):
        side = sides.starts[standing.owners[rows[:number]]] + k
        wide = against[side]
        wide -= (moved[side, rows[:number]] + own[side])[:, None]
        np.maximum(widest[:number], wide, out=widest[:number])
    gaps[rows] = widest


def _turned_with_slab(standing: Standing, stock: Stock, step: int) -> Whole:
    """Which stand each becomes when its slab is turned by so many quarters."""
    dx, dy = (stock.length, 0) if step == 1 else (stock.length, stock.width)
    rows = list(zip(standing.owners.tolist(), standing.turns.tolist(), *standing.shifts.T.tolist(), strict=True))
    numbers = {row: number for number, row in enumerate(rows)}
    found = []
    for owner, turns, x, y in rows:
        xt, yt = turned(x, y, step)
        found.append(numbers[owner, (turns + step) % 4, xt + dx, yt + dy])
    return np.array(found)


def room_for_blade(gaps: Short, stock: Stock) -> Flags:
    """Which two stands leave room for the blade between them."""
    clear = gaps >= stock.kerf - 1
    return clear | clear.T
