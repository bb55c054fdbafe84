"""Lattices: the repeat of a pattern on a whole-number grid.

A pattern is a few slabs that repeat along two vectors u and v. Each slab stands in a
cell, the slab and its share of the joints round it; the cells cover the plane.

        v
       /          cell +---------+
      /                | +-----+ |
     +----- u          | | slab| |
                       | +-----+ |
                       +---------+

The grid is so fine that every corner of every slab and cell, thirds included, is a
multiple of `STEP`; reference points of boxes lie between, so that no corner of the
area, which is put on multiples of `STEP` as well, ever lies on a line through one.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import lcm

import numpy as np

from service.paving.errors import BrokenIdentity
from service.paving.laying.arrays import Whole

#: Grid units between two places where a corner may lie.
STEP = 4
#: Micrometres in a metre.
MICROMETRES = 1_000_000

Exact = Fraction | int
Vector = tuple[Exact, Exact]


def micrometres(length: float) -> int:
    """A length [m] in whole micrometres."""
    return round(length * MICROMETRES)


@dataclass(frozen=True)
class Box:
    """An upright rectangle by its lower left corner and its sides."""

    x: Exact
    y: Exact
    length: Exact
    width: Exact

    @property
    def area(self) -> Exact:
        return self.length * self.width


@dataclass(frozen=True)
class Tile:
    """One slab of a repeat.

    Parameters
    ----------
    slab : int
        Which size of slab, as counted in the list of slabs.
    box : Box
        Where it lies [µm].
    cell : Box
        The slab with its share of the joints [µm].
    quarter_turns : int
        0 if its length runs along x, 1 if along y.
    """

    slab: int
    box: Box
    cell: Box
    quarter_turns: int = 0


@dataclass(frozen=True)
class Repeat:
    """A pattern: tiles that repeat along two vectors [µm]."""

    u: Vector
    v: Vector
    tiles: tuple[Tile, ...]

    @property
    def area(self) -> Exact:
        """Area of one repeat [µm2]; u must be turned left to reach v."""
        return self.u[0] * self.v[1] - self.u[1] * self.v[0]

    @property
    def numbers(self) -> tuple[Exact, ...]:
        boxes = [box for tile in self.tiles for box in (tile.box, tile.cell)]
        return (*self.u, *self.v, *(n for box in boxes for n in (box.x, box.y, box.length, box.width)))


@dataclass(frozen=True)
class Lattice:
    """A repeat on the grid.

    Parameters
    ----------
    repeat : Repeat
        What is laid.
    fineness : int
        Grid units in a micrometre.
    boxes : Whole
        Rows x, y, length, width of every slab, then of every cell [grid units]; without joints a slab
        is its own cell.
    """

    repeat: Repeat
    fineness: int
    boxes: Whole

    @cached_property
    def u(self) -> tuple[int, int]:
        return int(self.repeat.u[0] * self.fineness), int(self.repeat.u[1] * self.fineness)

    @cached_property
    def v(self) -> tuple[int, int]:
        return int(self.repeat.v[0] * self.fineness), int(self.repeat.v[1] * self.fineness)

    @cached_property
    def area(self) -> int:
        """Area of one repeat [grid units squared]."""
        return self.u[0] * self.v[1] - self.u[1] * self.v[0]

    @property
    def slabs(self) -> int:
        """How many kinds of box are slabs."""
        return len(self.repeat.tiles)

    @property
    def kinds(self) -> int:
        """How many kinds of box there are."""
        return int(self.boxes.shape[1])

    @cached_property
    def cells(self) -> slice:
        """Which boxes are cells."""
        return slice(0 if self.kinds == self.slabs else self.slabs, self.kinds)

    @cached_property
    def to_rows(self) -> Whole:
        """What a point is multiplied by to see its row and its place in the row, both times the repeat's area."""
        (ux, uy), (vx, vy) = self.u, self.v
        return np.array(((-uy, ux), (vy, -vx)))

    @cached_property
    def corners(self) -> Whole:
        """Row and place of the lower left corner of each kind of box, times the repeat's area."""
        return self.to_rows @ self.boxes[:2]

    @cached_property
    def reach(self) -> tuple[Whole, Whole]:
        """Least and greatest row and place of any point of each kind of box, from its corner, times the area."""
        along, across = self.to_rows[:, :1] * self.boxes[2], self.to_rows[:, 1:] * self.boxes[3]
        return np.minimum(along, 0) + np.minimum(across, 0), np.maximum(along, 0) + np.maximum(across, 0)

    @cached_property
    def sizes(self) -> Whole:
        """Which size of slab each tile is."""
        return np.array([tile.slab for tile in self.repeat.tiles])

    @cached_property
    def faces(self) -> list[int]:
        """Area of each kind of box [grid units squared], which may be more than 64 bits hold."""
        return [int(length) * int(width) for length, width in self.boxes[2:].T]

    @property
    def units(self) -> int:
        """Grid units in a metre."""
        return self.fineness * MICROMETRES

    def nearest(self, points: Whole) -> Whole:
        """The same points of the repeat, rows x, y, in the repeat that begins at (0, 0)."""
        (ux, uy), (vx, vy) = self.u, self.v
        row, place = self.to_rows @ points // self.area
        return np.array([points[0] - place * ux - row * vx, points[1] - place * uy - row * vy])

    @cached_property
    def bare(self) -> "Lattice":
        """The same without cells."""
        return replace(self, boxes=self.boxes[:, : self.slabs])


def lattice(repeat: Repeat) -> Lattice:
    """A repeat on the coarsest grid that holds it exactly.

    Raises
    ------
    BrokenIdentity
        If the cells of the tiles don't cover exactly one repeat.

    Examples
    --------
    >>> cell = Box(0, 0, 200, 100)
    >>> lattice(Repeat((200, 0), (Fraction(200, 3), 100), (Tile(0, cell, cell),))).fineness
    12
    """
    if sum(tile.cell.area for tile in repeat.tiles) != repeat.area:
        raise BrokenIdentity("The cells of the pattern don't cover its repeat.")
    return _on_grid(repeat)


def patch(tiles: tuple[Tile, ...], span: int) -> Lattice:
    """Slabs laid once and not repeated, for patterns without a repeat.

    Parameters
    ----------
    tiles : tuple of Tile
        Every slab with its cell; the cells must cover the ground, which the count checks.
    span : int
        More than the tiles and the ground together reach, along x and along y [µm].

    Examples
    --------
    >>> whole = Box(0, 0, 200, 100)
    >>> patch((Tile(0, whole, whole),), span=10_000_000).slabs
    1
    """
    return _on_grid(Repeat((span, 0), (0, span), tiles))


def _on_grid(repeat: Repeat) -> Lattice:
    fineness = STEP * lcm(*(Fraction(number).denominator for number in repeat.numbers))
    boxes = [tile.box for tile in repeat.tiles]
    if any(tile.box != tile.cell for tile in repeat.tiles):
        boxes += [tile.cell for tile in repeat.tiles]
    rows = [[int(n * fineness) for n in (box.x, box.y, box.length, box.width)] for box in boxes]
    return Lattice(repeat, fineness, np.array(rows, dtype=np.int64).T.copy())
