"""Random areas and pavings, the same ones every time."""

import math
import random
from fractions import Fraction

from service.paving.laying.lattices import Lattice, lattice
from service.paving.laying.patterns.basket_weave import basket_weave
from service.paving.laying.patterns.herringbone import herringbone
from service.paving.laying.patterns.pinwheel import pinwheel
from service.paving.laying.patterns.stack_bond import stack_bond
from service.paving.laying.patterns.stretcher_bond import stretcher_bond

Ring = list[tuple[float, float]]

#: Joints a layer would leave, and some none would [µm].
JOINTS = (0, 0, 2_000, 3_000, 5_000, 10_000, 3_175, 2_001)


def repeats(name: str, rng: random.Random) -> Lattice:
    """A pattern by name with random slabs and joint."""
    joint = rng.choice(JOINTS)
    width = rng.choice((100_000, 150_000, 200_000, 298_000, 305_000, rng.randint(90_000, 320_000)))
    longer = rng.choice((2 * width + joint, 2 * width, 3 * width, width + rng.randint(1_000, 200_000)))
    small = rng.randint(60_000, width - 10_000)
    offset = Fraction(rng.randint(1, 6), 7) if rng.random() < 0.3 else rng.choice((Fraction(1, 2), Fraction(1, 3)))
    made = {
        "stack_bond": lambda: stack_bond(longer, width, joint),
        "stretcher_bond": lambda: stretcher_bond(longer, width, joint, offset),
        "herringbone": lambda: herringbone(longer, width, joint),
        "basket_weave": lambda: basket_weave(2 * width + rng.choice((joint, 0, 1_500)), width, joint),
        "pinwheel": lambda: pinwheel(width, small, joint, (0, 1)),
    }
    return lattice(made[name]())


PATTERNS = ("stack_bond", "stretcher_bond", "herringbone", "basket_weave", "pinwheel")


def small_area(rng: random.Random, size: float) -> list[Ring]:
    """An area about so large [m]: upright on whole centimetres, at 45 degrees, or any polygon; some with an opening."""
    kind = rng.randrange(5)
    if kind == 0:
        return [rectangle(centimetres(rng, size), centimetres(rng, size))]
    if kind == 1:
        return [l_shape(rng, size)]
    if kind == 2:
        half = centimetres(rng, size) / 2
        return [[(half, 0.0), (2 * half, half), (half, 2 * half), (0.0, half)]]
    if kind == 3:
        return [star(rng, size / 2)]
    length, width = centimetres(rng, size) + 0.1, centimetres(rng, size) + 0.1
    return [rectangle(length, width), opening(rng, length, width)]


def opening(rng: random.Random, length: float, width: float) -> Ring:
    """A rectangle inside another, clockwise; half of them share an edge with it."""
    u, v = centimetres(rng, 0.6 * length), centimetres(rng, 0.6 * width)
    x, y = (
        rng.choice((0, rng.randint(0, int((whole - part) * 100)))) / 100 for whole, part in ((length, u), (width, v))
    )
    return [(x, y), (x, y + v), (x + u, y + v), (x + u, y)]


def centimetres(rng: random.Random, size: float) -> float:
    """A length up to a size, on whole centimetres [m]."""
    return rng.randint(max(int(size * 30), 2), max(int(size * 100), 3)) / 100


def rectangle(length: float, width: float) -> Ring:
    return [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)]


def l_shape(rng: random.Random, size: float) -> Ring:
    x, y = centimetres(rng, size), centimetres(rng, size)
    notch_x, notch_y = round(x * rng.randint(2, 8)) / 10 or x / 2, y / 2
    return [(0.0, 0.0), (x, 0.0), (x, y - notch_y), (x - notch_x, y - notch_y), (x - notch_x, y), (0.0, y)]


def star(rng: random.Random, radius: float) -> Ring:
    """A polygon of three to eight corners, some of them hollow, counter-clockwise."""
    number = rng.randint(3, 8)
    ring = []
    for k in range(number):
        angle = 2 * math.pi * (k + 0.8 * rng.random()) / number
        reach = radius * rng.uniform(0.45, 1.0)
        ring.append((radius + reach * math.cos(angle), radius + reach * math.sin(angle)))
    return ring


def angle(rng: random.Random) -> float:
    """An angle: often none, a quarter or an eighth of a turn."""
    return rng.choice((0.0, 0.0, 0.0, math.pi / 2, math.pi / 4, math.pi / 6, rng.uniform(-3, 3)))


def origin(rng: random.Random) -> tuple[float, float]:
    """An origin: often a corner, or on whole centimetres."""
    return rng.choice(((0.0, 0.0), (0.1, 0.05), (rng.randint(-50, 50) / 100, 0.15), (rng.random(), rng.random())))
