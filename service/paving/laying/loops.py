"""Loops: the outlines of what is kept of a cut slab that edges run through more than once.

Edges that come into a slab leave it again. From where one leaves, the outline follows the
side of the slab counter-clockwise to where the next one comes in, and so on until it is
back at the first:

        +-------X----X+
        | kept   \\   \\|        X  leaves here, then along the side
        |         \\   X        X  to where the next one comes in
        +----------X--+

What can't be told apart that way (an opening inside the slab, an edge that only touches
a side) is left to shapely.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import shapely

from service.paving.laying.arrays import Whole, spans
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import Lattice
from service.paving.laying.rows import Places
from service.paving.laying.touched import Touched

Corner = tuple[float, float]
Loop = tuple[Corner, ...]

#: Nearer than this along the sides of a slab, two ends can't be told apart [grid units].
TIE = 1e-3


@dataclass(frozen=True)
class Part:
    """A connected part of a cut slab, in grid units from the slab's lower left corner.

    Parameters
    ----------
    loops : tuple of Loop
        Its outline, counter-clockwise, and any holes, clockwise.
    """

    loops: tuple[Loop, ...]

    @property
    def area(self) -> float:
        return sum(_area(loop) for loop in self.loops)


@dataclass(frozen=True)
class Chain:
    """Edges from where they come into a slab to where they leave it.

    Parameters
    ----------
    enters, leaves : float
        Where, as a distance along the sides counter-clockwise from the lower left corner.
    corners : Loop
        The way between, both ends included.
    """

    enters: float
    leaves: float
    corners: Loop


@dataclass(frozen=True)
class Slab:
    """The sides of a slab to walk along."""

    length: float
    width: float

    @cached_property
    def perimeter(self) -> float:
        return 2 * (self.length + self.width)

    def along(self, corner: Corner) -> float:
        """Distance along the sides to a point on one of them; below 0 if it is inside."""
        x, y = corner
        if y == 0:
            return x
        if x == self.length:
            return self.length + y
        if y == self.width:
            return 2 * self.length + self.width - x
        return self.perimeter - y if x == 0 else -1.0

    def cut_length(self, loops: tuple[Loop, ...]) -> float:
        """Length of an outline that doesn't run along a side."""
        return sum(
            math.dist(start, end)
            for loop in loops
            for start, end in zip(loop, (*loop[1:], loop[0]), strict=True)
            if not self._along_side(start, end)
        )

    def _along_side(self, start: Corner, end: Corner) -> bool:
        (x0, y0), (x1, y1) = start, end
        return (x0 == x1 and x0 in (0.0, self.length)) or (y0 == y1 and y0 in (0.0, self.width))

    @cached_property
    def _stops(self) -> tuple[tuple[float, Corner], ...]:
        """Corners by their distance along the sides, twice round."""
        length, width = self.length, self.width
        lap = ((length, (length, 0.0)), (length + width, (length, width)), (2 * length + width, (0.0, width)))
        once = (*lap, (self.perimeter, (0.0, 0.0)))
        return (*once, *((at + self.perimeter, corner) for at, corner in once))

    def between(self, start: float, end: float) -> list[Corner]:
        """Corners passed on the way along the sides."""
        stop = end if end > start else end + self.perimeter
        return [corner for at, corner in self._stops if start < at < stop]


class Tracer:
    """Traces the parts of touched slabs.

    Parameters
    ----------
    ground, lattice, touched, places
        What was laid and measured.
    boxes : Whole
        Which of the touched slabs; they are numbered anew from 0.
    """

    def __init__(self, ground: Ground, lattice: Lattice, touched: Touched, places: Places, boxes: Whole) -> None:
        self.ground, self.lattice, self.places, self.keys = ground, lattice, places, touched.keys[boxes]
        first, end = touched.first[boxes], touched.first[boxes + 1]
        _, pairs = spans(first, end - 1)
        self.first = [0, *(end - first).cumsum().tolist()]
        self.edges, self.following = touched.edges[pairs].tolist(), ground.following[touched.edges[pairs]].tolist()
        self.starts, self.ends = (list(zip(*ends.tolist(), strict=True)) for ends in touched.chords[:, :, pairs])
        self.slabs = [Slab(*sides) for sides in touched.sides[:, boxes].T.tolist()]

    def big_enough(self, box: int, strip: float) -> tuple[Part, ...]:
        """Parts of one slab wide enough to be laid, by the least strip [grid units]; the biggest in any case."""
        parts = self.parts(box)
        if len(parts) == 1:
            return parts
        cut_length = self.slabs[box].cut_length
        kept = tuple(part for part in parts if part.area > strip * (cut_length(part.loops) + strip))
        return kept or (max(parts, key=lambda part: part.area),)

    def parts(self, box: int) -> tuple[Part, ...]:
        """The connected parts of one slab, as they lie in it."""
        slab, first, last = self.slabs[box], self.first[box], self.first[box + 1]
        chains = self._chains(slab, first, last)
        followed = sum(len(chain.corners) - 1 for chain in chains)
        if followed < last - first or _tied(chains, slab.perimeter):
            return self._by_shapely(box)
        return tuple(Part((loop,)) for loop in _joined(chains, slab))

    def _chains(self, slab: Slab, first: int, last: int) -> list[Chain]:
        """Chains of edges through a slab; edges that never reach a side are in none."""
        at = {self.edges[k]: k for k in range(first, last)}
        entered = ((k, slab.along(self.starts[k])) for k in range(first, last))
        return [self._chain(slab, at, k, enters) for k, enters in entered if enters >= 0]

    def _chain(self, slab: Slab, at: dict[int, int], k: int, enters: float) -> Chain:
        corners = [self.starts[k], self.ends[k]]
        while (leaves := slab.along(corners[-1])) < 0:
            k = at[self.following[k]]
            corners.append(self.ends[k])
        return Chain(enters, leaves, tuple(corners))

    def _by_shapely(self, box: int) -> tuple[Part, ...]:
        kind, row, place = self.places.box(self.keys[box])
        x, y, length, width = (int(n) for n in self.lattice.boxes[:, kind])
        x += int(place) * self.lattice.u[0] + int(row) * self.lattice.v[0]
        y += int(place) * self.lattice.u[1] + int(row) * self.lattice.v[1]
        kept = shapely.intersection(self.ground.polygon, shapely.box(x, y, x + length, y + width))
        polygons = [p for p in shapely.get_parts(shapely.orient_polygons(kept)) if p.area > 0]
        return tuple(Part(tuple(_loop(ring, x, y) for ring in shapely.get_rings(p))) for p in polygons)


def _tied(chains: list[Chain], perimeter: float) -> bool:
    ends = sorted(end for chain in chains for end in (chain.enters, chain.leaves))
    gaps = [b - a for a, b in zip(ends, [*ends[1:], ends[0] + perimeter], strict=True)]
    return min(gaps) < TIE


def _joined(chains: list[Chain], slab: Slab) -> Iterator[Loop]:
    """Close chains along the sides of the slab."""
    waiting = {chain.enters: chain for chain in chains}
    while waiting:
        home, chain = waiting.popitem()
        corners = list(chain.corners)
        while True:
            leaves = chain.leaves
            enters = min((home, *waiting), key=lambda at: (at - leaves) % slab.perimeter)
            corners.extend(slab.between(leaves, enters))
            if enters == home:
                break
            chain = waiting.pop(enters)
            corners.extend(chain.corners)
        yield tuple(corners)


def _loop(ring: shapely.Geometry, x: int, y: int) -> Loop:
    return tuple((px - x, py - y) for px, py in shapely.get_coordinates(ring)[:-1].tolist())


def _area(loop: Loop) -> float:
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(loop, (*loop[1:], loop[0]), strict=True)) / 2
