"""No-cut sizes: the nearest sizes that can be laid without sawing a slab.

Each pattern says what it can fill. Stack bond stretches its joints along and across apart;
a laying of any kind has one joint throughout, and is decided by the theorem in `tilings`.
"""

import heapq
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import product

from service.paving.errors import OutOfRange
from service.paving.reference import default
from service.paving.runs_of_slabs import JointRange, Run, nearest_runs
from service.paving.slabs import Slab


@dataclass(frozen=True, slots=True)
class Moved:
    """A side of a shape and where it should stand [m], along x or y."""

    axis: str
    stands: float
    move_to: float

    @property
    def change(self) -> float:
        return abs(self.move_to - self.stands)


class Laying(StrEnum):
    """How slabs may be laid: in a pattern, or any way at all."""

    any = "any"
    stack_bond = "stack_bond"
    stretcher_bond = "stretcher_bond"
    herringbone_90 = "herringbone_90"
    herringbone_45 = "herringbone_45"
    basket_weave = "basket_weave"
    pinwheel = "pinwheel"


#: Patterns whose edge against a straight side is never straight.
_ALWAYS_CUT = {
    Laying.herringbone_90: "Herringbone meets a straight edge with half slabs at every other place, so a rectangle "
    "always needs end pieces: lay a soldier course of half slabs, or choose stack bond or basket weave.",
    Laying.herringbone_45: "Herringbone at 45 degrees meets every edge with its corners, so a rectangle always needs "
    "cut pieces: choose stack bond or basket weave.",
    Laying.pinwheel: "Pinwheel has a stepped edge on every side, so a rectangle always needs cut pieces: choose stack "
    "bond, or mixed sizes on one module.",
}
_HALVES = (
    "Stretcher bond starts every other course with a half slab, so it always needs end pieces, unless half slabs are "
    "sold: add a slab of the same width and half the length less half a joint, or choose stack bond."
)


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
class NoCutSizes:
    """Whether a size needs no cut, why not if it does, and the nearest sizes that don't.

    For a shape `sides` says where each side should stand.
    """

    fits: bool
    reason: str
    sizes: tuple[NoCutSize, ...]
    sides: tuple[Moved, ...] = ()


def no_cut_sizes(
    slabs: tuple[Slab, ...], laying: Laying, joints: JointRange, length: float, width: float, within: float
) -> NoCutSizes:
    """The nearest sizes that can be laid without a cut.

    Parameters
    ----------
    slabs : tuple of Slab
        The slab; for stretcher bond a half slab may follow.
    laying : Laying
        How they are laid.
    joints : JointRange
        Joints that may be laid.
    length, width : float
        Size wanted [m].
    within : float
        How far each side may be changed [m].

    Raises
    ------
    OutOfRange
        If the joints aren't a range, at ``("joint_most",)``.

    References
    ----------
    de Bruijn 1969 and Klarner 1969 (see tilings); geometry

    Examples
    --------
    >>> found = no_cut_sizes((Slab("flag", 0.6, 0.6, 0.04),), Laying.any, JointRange(0.005, 0.005), 3.62, 2.4, 0.3)
    >>> found.fits, [(round(size.length, 6), round(size.width, 6), size.slabs) for size in found.sizes[:1]]
    (False, [(3.625, 2.415, 24)])
    """
    if joints.least > joints.most:
        raise OutOfRange("The widest joint must be at least the narrowest.", "joint_most")
    if laying in _ALWAYS_CUT:
        return NoCutSizes(fits=False, reason=_ALWAYS_CUT[laying], sizes=())
    found = _nearest(_sizes(slabs, laying, joints, (length, width), within))
    if found and found[0].change <= default("no_cut_sizes", "same_place").value:
        return NoCutSizes(fits=True, reason="It can be laid without a cut.", sizes=found)
    return NoCutSizes(fits=False, reason=_reason(laying, slabs, joints, found), sizes=found)


def _reason(laying: Laying, slabs: tuple[Slab, ...], joints: JointRange, found: tuple[NoCutSize, ...]) -> str:
    if found:
        return "This size needs cuts; the nearest that don't are listed."
    if laying is Laying.stretcher_bond and len(slabs) < 2:
        return _HALVES
    if laying is Laying.basket_weave:
        joint = slabs[0].length - 2 * slabs[0].width
        return (
            f"Basket weave is straight at its edges only when a slab is as long as two and the joint between them: "
            f"here with a joint of {joint * 1000:g} mm, and "
            f"{joints.least * 1000:g} to {joints.most * 1000:g} mm is allowed."
        )
    return "No size within reach needs no cut: allow a wider joint, or a greater change."


def _sizes(
    slabs: tuple[Slab, ...], laying: Laying, joints: JointRange, wanted: tuple[float, float], within: float
) -> Iterator[NoCutSize]:
    slab = slabs[0]
    if laying is Laying.stack_bond:
        yield from _stacked(slab, joints, wanted, within)
    elif laying is Laying.stretcher_bond:
        yield from _stretched(slabs, joints, wanted, within)
    elif laying is Laying.basket_weave:
        yield from _woven(slab, joints, wanted, within)
    else:
        yield from _stacked(slab, joints, wanted, within)
        yield from _mixed_ways(slab, joints, wanted, within)


def _nearest(sizes: Iterable[NoCutSize]) -> tuple[NoCutSize, ...]:
    """The nearest sizes, each once."""
    place = default("no_cut_sizes", "same_place").value
    apart: dict[tuple[int, int], NoCutSize] = {}
    for size in heapq.nsmallest(4 * _listed(), sizes, key=lambda size: (size.change, size.slabs, size.laid)):
        apart.setdefault((round(size.length / place), round(size.width / place)), size)
    return tuple(list(apart.values())[: _listed()])


def _listed() -> int:
    return int(default("no_cut_sizes", "sizes_listed").value)


def _turns(slab: Slab) -> Iterator[tuple[float, float, str]]:
    """Sides along and across, as given and turned."""
    yield slab.length, slab.width, "stack bond"
    if slab.length != slab.width:
        yield slab.width, slab.length, "stack bond, slabs turned"


def _stacked(slab: Slab, joints: JointRange, wanted: tuple[float, float], within: float) -> Iterator[NoCutSize]:
    for along, across, laid in _turns(slab):
        runs = nearest_runs(wanted[0], along, joints, within), nearest_runs(wanted[1], across, joints, within)
        for x, y in product(*(each[: _listed()] for each in runs)):
            yield _size(x, y, x.slabs * y.slabs, laid)


def _size(x: Run, y: Run, slabs: int, laid: str) -> NoCutSize:
    return NoCutSize(x.length, y.length, x.joint, y.joint, slabs, 0, x.change + y.change, laid)


def _stretched(
    slabs: tuple[Slab, ...], joints: JointRange, wanted: tuple[float, float], within: float
) -> Iterator[NoCutSize]:
    """Half bond with half slabs: every other course has a half slab at either end and one slab fewer."""
    if len(slabs) < 2:
        return
    slab, half = slabs[0], slabs[1]
    joint = slab.length - 2 * half.length
    if half.width != slab.width or not joints.allow(joint):
        return
    for size in _stacked(slab, JointRange(joint, joint), wanted, within):
        if size.laid == "stack bond":
            along = round((size.length + joint) / (slab.length + joint))
            courses = size.slabs // along
            halved = courses // 2
            yield replace(
                size, slabs=size.slabs - halved, half_slabs=2 * halved, laid="stretcher bond, half slabs at the ends"
            )


def _woven(slab: Slab, joints: JointRange, wanted: tuple[float, float], within: float) -> Iterator[NoCutSize]:
    """Basket weave: squares of two slabs, with the one joint that makes them square."""
    joint = slab.length - 2 * slab.width
    if not joints.allow(joint):
        return
    square = replace(slab, width=slab.length)
    for size in _stacked(square, JointRange(joint, joint), wanted, within):
        yield replace(size, slabs=2 * size.slabs, laid="basket weave")


def _mixed_ways(slab: Slab, joints: JointRange, wanted: tuple[float, float], within: float) -> Iterator[NoCutSize]:
    """Slabs both ways: one side is so many lengths and so many widths, the other side any sum of the two.

    By the theorem these, beside stack bond, are all there are.
    """
    if slab.length == slab.width:
        return
    slab = replace(slab, length=max(slab.length, slab.width), width=min(slab.length, slab.width))
    for turned in (False, True):
        side, other = wanted[::-1] if turned else wanted
        for joint in _common_joints(slab, joints, side, within):
            yield from _strips(slab, joint, (side, other), within, turned=turned)


def _common_joints(slab: Slab, joints: JointRange, side: float, within: float) -> Iterator[tuple[float, float]]:
    """Joints with which a side is both so many lengths and so many widths, and that side."""
    a, b, place = slab.length, slab.width, default("no_cut_sizes", "same_place").value
    fewest = max(1, math.floor((side - within) / (a + joints.most)))
    for lengths in range(fewest, math.ceil((side + within) / (a + joints.least)) + 2):
        low = math.ceil(lengths * (a + joints.most) / (b + joints.most) - place)
        high = math.floor(lengths * (a + joints.least) / (b + joints.least) + place)
        for widths in range(max(low, lengths + 1), high + 1):
            joint = (lengths * a - widths * b) / (widths - lengths)
            yield joint, lengths * (a + joint) - joint


def _strips(
    slab: Slab, fixed: tuple[float, float], wanted: tuple[float, float], within: float, *, turned: bool
) -> Iterator[NoCutSize]:
    """Strips of slabs laid lengthwise and strips of slabs laid widthwise, side by side."""
    joint, side = fixed
    if abs(side - wanted[0]) > within:
        return
    a, b = slab.length + joint, slab.width + joint
    for lengths in range(1, math.floor((wanted[1] + within + joint) / a) + 1):
        widths = round((wanted[1] + joint - lengths * a) / b)
        for count in {max(widths - 1, 1), max(widths, 1), widths + 1}:
            other = lengths * a + count * b - joint
            change = abs(side - wanted[0]) + abs(other - wanted[1])
            if abs(other - wanted[1]) <= within:
                number = round((side + joint) * (other + joint) / (a * b))
                sides = (other, side) if turned else (side, other)
                yield NoCutSize(*sides, joint, joint, number, 0, change, "strips of slabs laid both ways")
