"""Repeats: from a paving to the repeat of its pattern, or why it can't be laid."""

from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache

from service.paving.errors import OutOfRange
from service.paving.laying.lattices import Lattice, Repeat, lattice, micrometres
from service.paving.laying.patterns.basket_weave import basket_weave, uneven_joint
from service.paving.laying.patterns.herringbone import herringbone
from service.paving.laying.patterns.pinwheel import pinwheel
from service.paving.laying.patterns.stack_bond import stack_bond
from service.paving.laying.patterns.stretcher_bond import stretcher_bond
from service.paving.laying.pavings import Pattern, Paving
from service.paving.reference import default
from service.paving.slabs import Slab

Size = tuple[int, int]


def paving_lattice(paving: Paving) -> Lattice:
    """The lattice a paving is laid on.

    Raises
    ------
    OutOfRange
        If a slab, the joint, the offset or the kerf is outside what can be laid, or the pattern
        needs other slabs.
    """
    check_sizes(paving)
    _check_offset(paving)
    sizes = tuple((micrometres(slab.length), micrometres(slab.width)) for slab in paving.slabs)
    _NEEDS.get(paving.pattern, _one_size)(paving)
    return _lattice(paving.pattern, sizes, micrometres(paving.joint), paving.offset)


@lru_cache(maxsize=256)
def _lattice(pattern: Pattern, sizes: tuple[Size, ...], joint: int, offset: Fraction) -> Lattice:
    return lattice(_MADE[pattern](sizes, joint, offset))


def _pinwheel(sizes: tuple[Size, ...], joint: int) -> Repeat:
    (first, _), (second, _) = sizes
    return pinwheel(max(first, second), min(first, second), joint, (0, 1) if first > second else (1, 0))


def check_sizes(paving: Paving) -> None:
    """Refuse slabs, a joint or a kerf outside what can be laid.

    Raises
    ------
    OutOfRange
        If there is one.
    """
    shortest, longest = default("laying", "shortest_side").value, default("laying", "longest_side").value
    if not paving.slabs:
        raise OutOfRange("A paving needs a slab.", "slabs")
    for k, slab in enumerate(paving.slabs):
        for side in ("length", "width"):
            if not shortest <= getattr(slab, side) <= longest:
                raise OutOfRange(f"A slab is {_mm(shortest)} to {_mm(longest)} long and wide.", "slabs", k, side)
    narrowest = min(min(slab.length, slab.width) for slab in paving.slabs)
    widest = min(default("laying", "widest_joint").value, narrowest)
    if not 0 <= paving.joint <= widest:
        raise OutOfRange(f"A joint is 0 to {_mm(widest)} wide for these slabs.", "joint")
    widest = min(default("laying", "widest_kerf").value, narrowest)
    if not 0 <= paving.kerf <= widest:
        raise OutOfRange(f"A saw takes 0 to {_mm(widest)}.", "kerf")


def _check_offset(paving: Paving) -> None:
    finest = int(default("laying", "finest_offset").value)
    if not 0 < paving.offset < 1:
        raise OutOfRange("An offset is a part of a slab, above 0 and below 1, such as 1/2.", "offset")
    if paving.offset.denominator > finest:
        raise OutOfRange(f"An offset is a fraction with at most {finest} below the line, such as 1/3.", "offset")


def _one_size(paving: Paving) -> None:
    if len(paving.slabs) > 1:
        raise OutOfRange(f"{_name(paving)} is laid in one size of slab; leave the others out.", "slabs", 1)


def _oblong(paving: Paving) -> None:
    _one_size(paving)
    (slab,) = paving.slabs
    if micrometres(slab.length) <= micrometres(slab.width):
        raise OutOfRange(
            f"{_name(paving)} needs a slab longer than wide, best two to one; {_size(slab)} isn't.", "slabs", 0
        )


def _two_to_one(paving: Paving) -> None:
    _one_size(paving)
    (slab,) = paving.slabs
    off = uneven_joint(micrometres(slab.length), micrometres(slab.width), micrometres(paving.joint))
    allowed = default("laying", "uneven_joint").value
    if off > micrometres(allowed):
        raise OutOfRange(
            f"Basket weave needs a slab twice as long as wide: its length is two widths and a joint, "
            f"{_mm(2 * slab.width + paving.joint)} here, give or take {_mm(allowed)}; {_size(slab)} isn't.",
            "slabs",
            0,
        )


def _two_squares(paving: Paving) -> None:
    if len(paving.slabs) != 2:
        raise OutOfRange("Pinwheel needs two sizes of square slab, a large one and a small one.", "slabs")
    for k, slab in enumerate(paving.slabs):
        if micrometres(slab.length) != micrometres(slab.width):
            raise OutOfRange(f"Pinwheel needs square slabs; {_size(slab)} isn't square.", "slabs", k)
    if micrometres(paving.slabs[0].length) == micrometres(paving.slabs[1].length):
        raise OutOfRange("Pinwheel needs one square larger than the other; these are the same.", "slabs", 1)


_MADE: dict[Pattern, Callable[[tuple[Size, ...], int, Fraction], Repeat]] = {
    Pattern.stack_bond: lambda sizes, joint, _: stack_bond(*sizes[0], joint),
    Pattern.stretcher_bond: lambda sizes, joint, offset: stretcher_bond(*sizes[0], joint, offset),
    Pattern.herringbone_90: lambda sizes, joint, _: herringbone(*sizes[0], joint),
    Pattern.herringbone_45: lambda sizes, joint, _: herringbone(*sizes[0], joint),
    Pattern.basket_weave: lambda sizes, joint, _: basket_weave(*sizes[0], joint),
    Pattern.pinwheel: lambda sizes, joint, _: _pinwheel(sizes, joint),
}
_NEEDS: dict[Pattern, Callable[[Paving], None]] = {
    Pattern.herringbone_90: _oblong,
    Pattern.herringbone_45: _oblong,
    Pattern.basket_weave: _two_to_one,
    Pattern.pinwheel: _two_squares,
}


def _name(paving: Paving) -> str:
    return paving.pattern.value.replace("_", " ").capitalize()


def _size(slab: Slab) -> str:
    return f"{slab.length * 1000:g} x {slab.width * 1000:g} mm"


def _mm(length: float) -> str:
    return f"{length * 1000:g} mm"
