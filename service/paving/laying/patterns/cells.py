"""Slabs in their cells, the way most patterns lay them: half a joint all round."""

from fractions import Fraction

from service.paving.laying.lattices import Box, Exact, Tile


def laid(slab: int, x: Exact, y: Exact, length: int, width: int, joint: Fraction) -> Tile:
    """A slab lying along x with half a joint round it [µm]."""
    cell = Box(x - joint / 2, y - joint / 2, length + joint, width + joint)
    return Tile(slab, Box(x, y, length, width), cell)


def turned(slab: int, x: Exact, y: Exact, length: int, width: int, joint: Fraction) -> Tile:
    """The same slab turned a quarter, its length along y; (x, y) is still the lower left corner [µm]."""
    cell = Box(x - joint / 2, y - joint / 2, width + joint, length + joint)
    return Tile(slab, Box(x, y, width, length), cell, quarter_turns=1)
