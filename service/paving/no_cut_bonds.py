"""No-cut bonds: sizes that bonds with a joint of their own can fill, with half slabs where they need them."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

from service.paving.no_cut_stacks import NoCutSize, listed, stacked
from service.paving.runs_of_slabs import JointRange, nearest_runs
from service.paving.slabs import Slab

#: Squares after which herringbone repeats along and across.
_REPEAT = 4


def stretched(
    slabs: tuple[Slab, ...], joints: JointRange, wanted: tuple[float, float], within: float
) -> Iterator[NoCutSize]:
    """Half bond with half slabs: every other course has a half slab at either end and one slab fewer."""
    if len(slabs) < 2:
        return
    slab, half = slabs[0], slabs[1]
    joint = slab.length - 2 * half.length
    if half.width != slab.width or not joints.allow(joint):
        return
    for size in stacked(slab, JointRange(joint, joint), wanted, within):
        if size.laid == "stack bond":
            along = round((size.length + joint) / (slab.length + joint))
            courses = size.slabs // along
            halved = courses // 2
            yield replace(
                size, slabs=size.slabs - halved, half_slabs=2 * halved, laid="stretcher bond, half slabs at the ends"
            )


def woven(slab: Slab, joints: JointRange, wanted: tuple[float, float], within: float) -> Iterator[NoCutSize]:
    """Basket weave: squares of two slabs, with the one joint that makes them square."""
    joint = slab.length - 2 * slab.width
    if not joints.allow(joint):
        return
    square = replace(slab, width=slab.length)
    for size in stacked(square, JointRange(joint, joint), wanted, within):
        yield replace(size, slabs=2 * size.slabs, laid="basket weave")


def herringboned(
    slabs: tuple[Slab, ...], joints: JointRange, wanted: tuple[float, float], within: float
) -> Iterator[NoCutSize]:
    """Herringbone with half slabs: squares of half a slab each way, a half wherever the edge parts a slab."""
    if len(slabs) < 2:
        return
    slab, half = slabs[0], slabs[1]
    joint = slab.length - 2 * slab.width
    if (half.length, half.width) != (slab.width, slab.width) or not joints.allow(joint):
        return
    own = JointRange(joint, joint)
    along, across = (nearest_runs(side, slab.width, own, within)[: listed()] for side in wanted)
    for x, y in product(along, across):
        halves = herringbone_halves(x.slabs, y.slabs)
        yield NoCutSize(
            x.length, y.length, joint, joint, (x.slabs * y.slabs - halves) // 2, halves, x.change + y.change,
            "herringbone, half slabs at the edges",
        )  # fmt: skip


def herringbone_halves(columns: int, rows: int) -> int:
    """Fewest half slabs at the edges of herringbone on so many squares, over the places it may begin.

    Parameters
    ----------
    columns, rows : int
        Squares of half a slab along and across, above 0.

    Notes
    -----
    Square (x, y) holds, by x - y and where the pattern begins, modulo 4:

        0 1   left and right half of a slab along      2   upper half of one across
                                                       3   lower half

    References
    ----------
    Geometry

    Examples
    --------
    >>> herringbone_halves(4, 4), herringbone_halves(1, 1)
    (4, 1)
    """
    return min(_halves(columns, rows, start) for start in range(_REPEAT))


def _halves(columns: int, rows: int, start: int) -> int:
    left = _squares(rows, 1 - start, -1)
    right = _squares(rows, -(columns - 1) - start, -1)
    low = _squares(columns, 2 - start, 1)
    high = _squares(columns, 3 - start + rows - 1, 1)
    return left + right + low + high


def _squares(number: int, wanted: int, step: int) -> int:
    """How many of the numbers 0, 1, 2 ... times the step are a wanted one, modulo 4."""
    return (number + _REPEAT - 1 - wanted * step % _REPEAT) // _REPEAT
