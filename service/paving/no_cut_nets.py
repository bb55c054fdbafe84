"""No-cut nets: the lines on which edges must stand for a pattern to need no cut.

A net has meshes as long and as wide as a slab, or as half a slab where half slabs are sold.
Along each axis an edge stands a whole number of meshes and joints from the first edge, less
the joint where the paving ends there. A slab of two meshes that an edge parts is laid as a half:

    stack bond       stretcher bond        herringbone         basket weave
    +---+---+---+    +---+---+---+---+     +---+---+---+---+   +---+---+---+---+
    |   |   |   |    |       |       |     |       |   |   |   |       |       |
    +---+---+---+    +---+---+---+---+     +---+---+   +---+   +       +       +
    |   |   |   |    |   |       |   |     |   |       |       |       |       |
    +---+---+---+    +---+---+---+---+     +---+---+---+---+   +---+---+---+---+
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import product

from service.paving.reference import default
from service.paving.runs_of_slabs import JointRange, Run, nearest_runs
from service.paving.slabs import Slab

#: Corners of a ring, in meshes from the first edges.
Ring = Sequence[tuple[int, int]]


class Laying(StrEnum):
    """How slabs may be laid: in a pattern, or any way at all."""

    any = "any"
    stack_bond = "stack_bond"
    stretcher_bond = "stretcher_bond"
    herringbone_90 = "herringbone_90"
    herringbone_45 = "herringbone_45"
    basket_weave = "basket_weave"
    pinwheel = "pinwheel"


@dataclass(frozen=True, slots=True)
class NoCutSize:
    """A size that needs no cut.

    Parameters
    ----------
    length, width : float
        The size [m].
    joint, joint_across : float
        Joint along the length and across it [m].
    slabs : int
        How many slabs.
    half_slabs : int
        How many half slabs beside them.
    change : float
        How far it is from the size wanted [m], both sides together.
    laid : str
        How, in words.
    """

    length: float
    width: float
    joint: float
    joint_across: float
    slabs: int
    half_slabs: int
    change: float
    laid: str


@dataclass(frozen=True, slots=True)
class Net:
    """Lines on which edges may stand.

    Parameters
    ----------
    sides : (float, float)
        Length along x and along y of a mesh [m].
    joints : (JointRange, JointRange)
        Joints that may be laid along x and along y.
    laid : str
        How, in words.
    meshes : int
        Meshes of a slab; above 1 it may be parted into half slabs if `halves` says so.
    halves : callable or None
        How many slabs the edges of some rings part; none where edges never part one.
    slabs : int
        Slabs to so many meshes: 2 to the one mesh of a basket weave.
    """

    sides: tuple[float, float]
    joints: tuple[JointRange, JointRange]
    laid: str
    meshes: int = 1
    slabs: int = 1
    halves: Callable[[Sequence[Ring]], int] | None = None

    def count(self, rings: Sequence[Ring]) -> tuple[int, int]:
        """Slabs and half slabs within rings, the outline counter-clockwise and openings clockwise."""
        halves = self.halves(rings) if self.halves else 0
        return (_meshes(rings) - halves) // self.meshes * self.slabs, halves


def nets(laying: Laying, slabs: tuple[Slab, ...], joints: JointRange) -> Iterator[Net]:
    """The nets of a pattern; none if it parts slabs wherever the edges are, or the slabs don't suit it.

    Parameters
    ----------
    laying : Laying
        The pattern; any: in stack bond.
    slabs : tuple of Slab
        The slab; for stretcher bond and herringbone a half slab has to follow.
    joints : JointRange
        Joints that may be laid.
    """
    slab = slabs[0]
    if laying in (Laying.any, Laying.stack_bond):
        yield from _turned(Net((slab.length, slab.width), (joints, joints), "stack bond"))
    elif laying is Laying.stretcher_bond and len(slabs) > 1:
        yield from _stretched(slab, slabs[1], joints)
    elif laying in (Laying.basket_weave, Laying.herringbone_90):
        joint = slab.length - 2 * slab.width
        if joints.allow(joint):
            yield from _woven(laying, slabs, JointRange(joint, joint))


def _turned(net: Net) -> Iterator[Net]:
    """A net, and the same with the slabs turned."""
    yield net
    if net.sides[0] != net.sides[1]:
        yield Net(net.sides[::-1], net.joints, f"{net.laid}, slabs turned")


def _stretched(slab: Slab, half: Slab, joints: JointRange) -> Iterator[Net]:
    joint = slab.length - 2 * half.length
    if half.width != slab.width or not joints.allow(joint):
        return
    own, laid = JointRange(joint, joint), "stretcher bond, half slabs at the ends"
    yield Net((half.length, half.width), (own, joints), laid, 2, halves=_stretcher_halves)
    yield Net(
        (half.width, half.length),
        (joints, own),
        f"{laid}, courses across",
        2,
        halves=lambda rings: _stretcher_halves([[(y, x) for x, y in ring] for ring in rings]),
    )


def _woven(laying: Laying, slabs: tuple[Slab, ...], own: JointRange) -> Iterator[Net]:
    slab = slabs[0]
    if laying is Laying.basket_weave:
        yield Net((slab.length, slab.length), (own, own), "basket weave", slabs=2)
    elif len(slabs) > 1 and (slabs[1].length, slabs[1].width) == (slab.width, slab.width):
        laid = "herringbone, half slabs at the edges"
        yield Net((slab.width, slab.width), (own, own), laid, 2, halves=_herringbone_halves)


def netted(net: Net, wanted: tuple[float, float], within: float) -> Iterator[NoCutSize]:
    """The nearest rectangles of whole meshes; of those as large the one with the fewest."""
    along, across = (
        nearest_runs(size, side, joints, within)[: listed()]
        for size, side, joints in zip(wanted, net.sides, net.joints, strict=True)
    )
    place = default("no_cut_sizes", "same_place").value
    apart: dict[tuple[int, int], tuple[Run, Run]] = {}
    for x, y in sorted(product(along, across), key=lambda pair: (pair[0].change + pair[1].change, _number(pair))):
        apart.setdefault((round(x.length / place), round(y.length / place)), (x, y))
    for x, y in list(apart.values())[: listed()]:
        slabs, halves = net.count([[(0, 0), (x.slabs, 0), (x.slabs, y.slabs), (0, y.slabs)]])
        yield NoCutSize(x.length, y.length, x.joint, y.joint, slabs, halves, x.change + y.change, net.laid)


def _number(pair: tuple[Run, Run]) -> int:
    return pair[0].slabs * pair[1].slabs


def listed() -> int:
    """How many sizes an answer lists."""
    return int(default("no_cut_sizes", "sizes_listed").value)


def _meshes(rings: Sequence[Ring]) -> int:
    """Meshes within rings: their area."""
    return sum(x0 * y1 - x1 * y0 for ring in rings for (x0, y0), (x1, y1) in _sides(ring)) // 2


def _sides(ring: Ring) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
    return zip(ring, (*ring[1:], ring[0]), strict=True)


def _stretcher_halves(rings: Sequence[Ring]) -> int:
    """Half slabs at the ends of courses: in every other course each end that stands on half a slab.

    The fewer of the two ways to begin.
    """
    upright = [(x0, *sorted((y0, y1))) for ring in rings for (x0, y0), (x1, y1) in _sides(ring) if x0 == x1]
    return min(sum(_numbers(low, high, x - 1 - start, 2) for x, low, high in upright) for start in range(2))


def _herringbone_halves(rings: Sequence[Ring]) -> int:
    """Fewest half slabs at the edges of herringbone, over the places it may begin.

    Mesh (x, y) holds, by x - y and where the pattern begins, modulo 4:

        0 1   left and right half of a slab along      2   upper half of one across
                                                       3   lower half
    """
    sides = [side for ring in rings for side in _sides(ring)]
    upright = [(x0, *sorted((y0, y1))) for (x0, y0), (x1, y1) in sides if x0 == x1]
    level = [(y0, *sorted((x0, x1))) for (x0, y0), (x1, y1) in sides if y0 == y1]
    return min(
        sum(_numbers(low, high, x - 1 - start, 4) for x, low, high in upright)
        + sum(_numbers(low, high, y + 2 + start, 4) for y, low, high in level)
        for start in range(4)
    )


def _numbers(low: int, high: int, wanted: int, modulus: int) -> int:
    """How many whole numbers from `low` up to and without `high` leave the remainder of a wanted one."""
    return (high - 1 - wanted) // modulus - (low - 1 - wanted) // modulus
