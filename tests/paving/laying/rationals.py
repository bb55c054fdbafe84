"""A second count, in exact fractions and by brute force, that shares nothing with the engine but the rule.

Every slab that may lie on the ground is clipped out of the whole outline, side by side
(Sutherland and Hodgman), in whole numbers and fractions; nothing is rounded but the length
of a slanting cut.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from service.paving.laying.lattices import Repeat

Number = Fraction | int
Corner = tuple[Number, Number]
Ring = list[Corner]

#: The strip that is neither sawn off nor laid [µm], as the layout states it.
STRIP = 500


@dataclass
class Tally:
    """What brute force finds: slabs, and the exact area of those laid [µm2]."""

    whole: int = 0
    cut: int = 0
    area: Number = 0


def tally(rings: list[Ring], repeat: Repeat) -> Tally:
    """Count a repeat on rings of whole micrometres, outline counter-clockwise and openings clockwise."""
    found = Tally()
    for box in boxes(rings[0], repeat):
        inside = [clipped(ring, box) for ring in rings]
        area = sum(twice_area(ring) for ring in inside) / Fraction(2)
        if area == 0:
            continue
        strip = STRIP * (sum(cut_length(ring, box) for ring in inside) + STRIP)
        full = (box[2] - box[0]) * (box[3] - box[1])
        if area <= strip:
            continue
        found.area += area
        if full - area <= strip:
            found.whole += 1
        else:
            found.cut += 1
    return found


def boxes(ring: Ring, repeat: Repeat) -> Iterator[tuple[Number, Number, Number, Number]]:
    """Every slab, as left, low, right, high, whose box meets the bounding box of an outline."""
    left, right = min(x for x, _ in ring), max(x for x, _ in ring)
    low, high = min(y for _, y in ring), max(y for _, y in ring)
    (ux, uy), (vx, vy) = repeat.u, repeat.v
    reach = max(abs(n) for n in (left, right, low, high)) + 3 * max(abs(n) for n in (ux, uy, vx, vy))
    area = ux * vy - uy * vx
    most_p = math.ceil(reach * (abs(vx) + abs(vy)) / area) + 1
    for p in range(-most_p, most_p + 1):
        for q in _places(repeat, p, (left, right, low, high)):
            for tile in repeat.tiles:
                x, y = tile.box.x + p * ux + q * vx, tile.box.y + p * uy + q * vy
                box = (x, y, x + tile.box.length, y + tile.box.width)
                if x < right and box[2] > left and y < high and box[3] > low:
                    yield box


def _places(repeat: Repeat, p: int, bounds: tuple[Number, Number, Number, Number]) -> range:
    """Places along v that may reach the bounds, from the row p of u."""
    left, right, low, high = bounds
    (ux, uy), (vx, vy) = repeat.u, repeat.v
    spare = sum(abs(n) for n in (ux, uy, vx, vy)) + max(t.box.length + t.box.width for t in repeat.tiles)
    spans = []
    for shift, step, least, most in ((p * ux, vx, left, right), (p * uy, vy, low, high)):
        if step:
            ends = sorted(((least - spare - shift) / Fraction(step), (most + spare - shift) / Fraction(step)))
            spans.append((math.floor(ends[0]), math.ceil(ends[1])))
    return range(max(s[0] for s in spans), min(s[1] for s in spans) + 1)


def clipped(ring: Ring, box: tuple[Number, Number, Number, Number]) -> Ring:
    """A ring clipped to a box, side by side; its signed area is exact even if it falls apart."""
    for axis, level, sign in ((0, box[0], 1), (0, box[2], -1), (1, box[1], 1), (1, box[3], -1)):
        sides = [(point[axis] - level) * sign for point in ring]
        if all(side >= 0 for side in sides):
            continue
        kept: Ring = []
        for k, (point, side) in enumerate(zip(ring, sides, strict=True)):
            before, before_side = ring[k - 1], sides[k - 1]
            if (side > 0 > before_side) or (side < 0 < before_side):
                share = Fraction(before_side) / (before_side - side)
                kept.append((before[0] + share * (point[0] - before[0]), before[1] + share * (point[1] - before[1])))
            if side >= 0:
                kept.append(point)
        ring = kept
    return ring


def twice_area(ring: Ring) -> Number:
    """Twice the signed area."""
    return sum(ring[k - 1][0] * y - x * ring[k - 1][1] for k, (x, y) in enumerate(ring))


def cut_length(ring: Ring, box: tuple[Number, Number, Number, Number]) -> Fraction:
    """Length of a clipped ring that doesn't run along a side of the box."""
    total = Fraction(0)
    for k, (x1, y1) in enumerate(ring):
        x0, y0 = ring[k - 1]
        if (x0 == x1 and x0 in (box[0], box[2])) or (y0 == y1 and y0 in (box[1], box[3])):
            continue
        square = Fraction((x1 - x0) ** 2 + (y1 - y0) ** 2)
        exact = x0 == x1 or y0 == y1
        total += abs(x1 - x0) + abs(y1 - y0) if exact else Fraction(math.sqrt(square))
    return total
