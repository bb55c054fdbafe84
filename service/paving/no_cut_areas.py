"""No-cut areas: whether a right-angled area can be laid without sawing a slab, answered as a size is."""

from service.paving.areas import Area
from service.paving.no_cut_nets import Laying, NoCutSize, nets
from service.paving.no_cut_shapes import NoCutShape, no_cut_shape
from service.paving.no_cut_sizes import NoCutSizes, why_cut
from service.paving.runs_of_slabs import JointRange
from service.paving.slabs import Slab

#: What isn't decided of an area that isn't on the net.
_NOT_LOOKED_FOR = {
    Laying.any: "Of other ways to lay a shape none was looked for; a rectangle is decided for every way.",
    Laying.basket_weave: "Steps of half a square of slabs weren't looked for.",
}


def no_cut_area(area: Area, slabs: tuple[Slab, ...], laying: Laying, joints: JointRange, within: float) -> NoCutSizes:
    """Whether a right-angled area needs no cut, and where its sides should stand if it does.

    Parameters
    ----------
    area : Area
        The area as wanted.
    slabs : tuple of Slab
        The slab; for stretcher bond and herringbone a half slab may follow.
    laying : Laying
        How they are laid; any: in stack bond.
    joints : JointRange
        Joints that may be laid.
    within : float
        How far each side may be moved [m].

    Raises
    ------
    OutOfRange
        As `no_cut_shape` raises it.
    """
    found = no_cut_shape(area, nets(laying, slabs, joints))
    if found is None:
        stacked = no_cut_shape(area, nets(Laying.stack_bond, slabs, joints))
        listed = stacked if stacked and _reached(stacked, within) else None
        where = " Where its sides should stand for stack bond is listed." if listed else ""
        return _answer(listed, f"{why_cut(laying, slabs, joints)}{where}", fits=False)
    if found.fits:
        return _answer(found, "It can be laid without a cut.", fits=True)
    if not _reached(found, within):
        return _answer(None, why_cut(Laying.stack_bond, slabs, joints), fits=False)
    moves = f"In {found.laid.partition(',')[0]} it needs cuts unless its sides are moved as listed."
    return _answer(found, f"{moves} {_NOT_LOOKED_FOR.get(laying, '')}".strip(), fits=False)


def _reached(found: NoCutShape, within: float) -> bool:
    return all(abs(side.move_to - side.stands) <= within for side in found.sides)


def _answer(found: NoCutShape | None, reason: str, *, fits: bool) -> NoCutSizes:
    if found is None:
        return NoCutSizes(fits, reason, ())
    spans = [[side.move_to for side in found.sides if side.axis == axis] for axis in ("x", "y")]
    length, width = (max(span) - min(span) for span in spans)
    size = NoCutSize(
        length, width, found.joint, found.joint_across, found.slabs, found.half_slabs, found.change, found.laid
    )
    return NoCutSizes(fits, reason, (size,), found.sides)
