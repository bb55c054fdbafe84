"""Judges of random layings that share nothing with what laid them: they read the pieces of the answer only.

A mixed laying is put on a grid of modules again from the millimetres of its pieces; crossings are
counted by corners of slabs, and straight joints by walking along the sides of slabs.
"""

import math
from collections import Counter
from dataclasses import dataclass

from service.paving.layouts import Layout

Spot = tuple[int, int, int, int]


def upright(found: Layout) -> list[tuple[str, float, float, float, float]]:
    """Name, left, low, length along x and width along y of every piece [m], for layings that aren't turned."""
    spots = []
    for piece in found.pieces:
        if abs(math.sin(piece.angle)) < 1e-9:
            spots.append((piece.name, piece.x, piece.y, piece.length, piece.width))
        else:
            spots.append((piece.name, piece.x - piece.width, piece.y, piece.width, piece.length))
    return spots


@dataclass
class Modules:
    """Slabs on a grid: column, row, length, width, and the modules the area has."""

    spots: list[Spot]
    inside: set[tuple[int, int]]

    @property
    def fault(self) -> str:
        """What is wrong with the cover; empty if every module has one slab."""
        covered = Counter(
            (x + i, y + k) for x, y, length, width in self.spots for i in range(length) for k in range(width)
        )
        twice = [place for place, n in covered.items() if n > 1]
        return f"twice {twice}" * bool(twice) + f"bare {self.inside - set(covered)}" * (set(covered) != self.inside)

    @property
    def crossings(self) -> int:
        """Points at which four slabs have a corner."""
        corners = Counter((x + i, y + k) for x, y, length, width in self.spots for i in (0, length) for k in (0, width))
        return sum(n == 4 for n in corners.values())

    @property
    def longest_joint(self) -> int:
        """Modules along the longest straight joint between slabs, the rim of the area not counted."""
        upright, level = set(), set()
        for x, y, length, width in self.spots:
            upright |= {(x + i, y + k) for i in (0, length) for k in range(width)}
            level |= {(y + k, x + i) for k in (0, width) for i in range(length)}
        upright = {(x, y) for x, y in upright if {(x - 1, y), (x, y)} <= self.inside}
        level = {(y, x) for y, x in level if {(x, y - 1), (x, y)} <= self.inside}
        return max(longest(upright), longest(level))


def longest(sides: set[tuple[int, int]]) -> int:
    """Most sides in a row along their second number."""
    most = 0
    for line, place in sides:
        if (line, place - 1) not in sides:
            end = place
            while (line, end) in sides:
                end += 1
            most = max(most, end - place)
    return most


def modules(found: Layout, module: float, joint: float, inside: set[tuple[int, int]]) -> Modules:
    """The grid of a laying that begins at (0, 0), from its pieces in metres."""
    spots = []
    for _, left, low, length, width in upright(found):
        numbers = [left / module, low / module, (length + joint) / module, (width + joint) / module]
        spot = tuple(round(n) for n in numbers)
        assert all(abs(n - k) * module < 0.0006 for n, k in zip(numbers, spot, strict=True)), numbers
        spots.append((spot[0], spot[1], spot[2], spot[3]))
    return Modules(spots, inside)


def rectangle_of(columns: int, rows: int) -> set[tuple[int, int]]:
    return {(x, y) for x in range(columns) for y in range(rows)}
