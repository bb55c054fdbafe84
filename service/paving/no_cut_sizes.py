"""No-cut sizes: the nearest sizes that can be laid without sawing a slab.

Each pattern says what it can fill. Stack bond stretches its joints along and across apart;
a laying of any kind has one joint throughout, and is decided by the theorem in `tilings`.
"""

import heapq
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from service.paving.no_cut_nets import Laying, NoCutSize, listed, nets, netted
from service.paving.no_cut_shapes import Moved
from service.paving.reference import default
from service.paving.runs_of_slabs import JointRange
from service.paving.slabs import Slab

#: Patterns that no slabs sold fill a rectangle with.
_ALWAYS_CUT = {
    Laying.herringbone_45: "Herringbone at 45 degrees meets every edge with its corners, so a straight edge always "
    "needs cut pieces: choose stack bond or basket weave.",
    Laying.pinwheel: "Pinwheel has a stepped edge on every side, so a straight edge always needs cut pieces: choose "
    "stack bond, or mixed sizes on one module.",
}
_LISTED = "The nearest sizes in stack bond are listed."


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
        The slab; for stretcher bond and herringbone a half slab may follow.
    laying : Laying
        How they are laid.
    joints : JointRange
        Joints that may be laid.
    length, width : float
        Size wanted [m].
    within : float
        How far each side may be changed [m].

    References
    ----------
    de Bruijn 1969 and Klarner 1969 (see tilings); geometry

    Examples
    --------
    >>> found = no_cut_sizes((Slab("flag", 0.6, 0.6, 0.04),), Laying.any, JointRange(0.005, 0.005), 3.62, 2.4, 0.3)
    >>> found.fits, [(round(size.length, 6), round(size.width, 6), size.slabs) for size in found.sizes[:1]]
    (False, [(3.625, 2.415, 24)])
    """
    wanted = length, width
    found = _nearest(_sizes(slabs, laying, joints, wanted, within))
    if found and found[0].change <= default("no_cut_sizes", "same_place").value:
        same = replace(found[0], change=0.0)
        return NoCutSizes(fits=True, reason="It can be laid without a cut.", sizes=(same, *found[1:]))
    if found:
        return NoCutSizes(fits=False, reason="This size needs cuts; the nearest that don't are listed.", sizes=found)
    others = () if laying is Laying.any else _nearest(_sizes(slabs, Laying.stack_bond, joints, wanted, within))
    reason = f"{why_cut(laying, slabs, joints)} {_LISTED if others else ''}".strip()
    return NoCutSizes(fits=False, reason=reason, sizes=others)


def _kept() -> int:
    """How many sizes are looked at for those listed, for some are found in several ways."""
    return 4 * listed()


def why_cut(laying: Laying, slabs: tuple[Slab, ...], joints: JointRange) -> str:
    """Why a pattern fills no size within reach, and what would."""
    if laying in _ALWAYS_CUT:
        return _ALWAYS_CUT[laying]
    slab = slabs[0]
    if laying is Laying.stretcher_bond and len(slabs) < 2:
        return (
            "Stretcher bond starts every other course with a half slab, so two courses or more always need end "
            f"pieces, unless half slabs are sold: add one of {_mm((slab.length - joints.most) / 2)} to "
            f"{_mm((slab.length - joints.least) / 2)} by {_mm(slab.width)}, half a slab less half the joint, or choose "
            "stack bond."
        )
    if laying in (Laying.basket_weave, Laying.herringbone_90) and not joints.allow(slab.length - 2 * slab.width):
        return (
            f"{_NAMES[laying]} is straight at its edges only when a slab is as long as two and the joint between them: "
            f"here with a joint of {_mm(slab.length - 2 * slab.width)}, and {_mm(joints.least)} to "
            f"{_mm(joints.most)} is allowed. Choose stack bond."
        )
    if laying is Laying.herringbone_90 and len(slabs) < 2:
        return (
            "Herringbone meets every edge with half slabs, so it always needs end pieces, unless half slabs "
            f"are sold: add one of {_mm(slab.width)} by {_mm(slab.width)}, or choose stack bond or basket weave."
        )
    return "No size within reach needs no cut: allow a wider joint, or a greater change."


_NAMES = {Laying.basket_weave: "Basket weave", Laying.herringbone_90: "Herringbone"}


def _mm(metres: float) -> str:
    return f"{metres * 1000:g} mm"


def _sizes(
    slabs: tuple[Slab, ...], laying: Laying, joints: JointRange, wanted: tuple[float, float], within: float
) -> Iterator[NoCutSize]:
    for net in nets(laying, slabs, joints):
        yield from netted(net, wanted, within)
    if laying is Laying.any:
        yield from _mixed_ways(slabs[0], joints, wanted, within)
    elif laying is Laying.stretcher_bond:
        yield from _one_course(slabs[0], joints, wanted, within)


def _one_course(slab: Slab, joints: JointRange, wanted: tuple[float, float], within: float) -> Iterator[NoCutSize]:
    """A single course, which no other lies beside to be half a slab off."""
    for net in nets(Laying.stack_bond, (slab,), joints):
        across = net.sides.index(slab.width)
        for size in netted(net, wanted, within):
            if (size.length, size.width)[across] < 2 * slab.width:
                yield replace(size, laid="stretcher bond, one course")


def _nearest(sizes: Iterable[NoCutSize]) -> tuple[NoCutSize, ...]:
    """The nearest sizes, each once."""
    place = default("no_cut_sizes", "same_place").value
    apart: dict[tuple[int, int], NoCutSize] = {}
    for size in heapq.nsmallest(_kept(), sizes, key=lambda size: (size.change, size.slabs, size.laid)):
        apart.setdefault((round(size.length / place), round(size.width / place)), size)
    return tuple(list(apart.values())[: listed()])


def _mixed_ways(slab: Slab, joints: JointRange, wanted: tuple[float, float], within: float) -> Iterator[NoCutSize]:
    """Slabs both ways: one side is so many lengths and so many widths, the other side any sum of the two.

    By the theorem these, beside stack bond, are all there are.
    """
    if slab.length == slab.width:
        return
    slab = replace(slab, length=max(slab.length, slab.width), width=min(slab.length, slab.width))
    for turned in (False, True):
        side, other = wanted[::-1] if turned else wanted
        nearest: list[float] = []
        for joint, stands in sorted(_common_joints(slab, joints, side, within), key=lambda each: abs(each[1] - side)):
            # the other side adds to the change only, so no later joint comes nearer
            if len(nearest) >= _kept() and abs(stands - side) > nearest[_kept() - 1]:
                break
            strips = list(_strips(slab, (joint, stands), (side, other), within, turned=turned))
            nearest = sorted([*nearest, *(size.change for size in strips)])
            yield from strips


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
