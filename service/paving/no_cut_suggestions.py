"""No-cut suggestions: of a job that needs cuts, the nearest size of its outline that needs none."""

from collections.abc import Iterator
from dataclasses import replace

from service.paving.areas import Area, area, rectangle
from service.paving.errors import OutOfRange
from service.paving.laying.coursed.lines import nearest_lengths
from service.paving.laying.lattices import MICROMETRES, micrometres
from service.paving.laying.mixed.modules import module
from service.paving.laying.pavings import Detail, Pattern, Paving
from service.paving.laying.random_layings import RANDOM
from service.paving.layouts import layout
from service.paving.no_cut_shapes import no_cut_area
from service.paving.no_cut_sizes import Laying, no_cut_sizes
from service.paving.no_cut_stacks import NoCutSize
from service.paving.reference import default
from service.paving.runs_of_slabs import JointRange
from service.paving.slabs import Slab

#: Corners of a rectangle.
_RECTANGLE = 4


def no_cut_suggestion(wanted: Area, paving: Paving) -> NoCutSize | None:
    """The nearest size of an outline that needs no cut; none if its sides don't run along x and y.

    Parameters
    ----------
    wanted : Area
        The area as it is to be paved; openings cut the slabs round them whatever the size.
    paving : Paving
        How it is to be paved. A bond that needs end pieces is answered in stack bond; a random laying by
        one that was laid.
    """
    outline = Area(wanted.shape)
    if not outline.right_angled:
        return None
    left, low, right, high = outline.outline.bounds
    rectangular = len(outline.outline.points) == _RECTANGLE
    if paving.pattern in RANDOM:
        sides = right - left, high - low
        return _laid(paving, _random_sizes(paving, sides), sides) if rectangular else None
    if len(paving.slabs) > 1:
        return None
    usual = default("no_cut_sizes", "suggested_joint")
    joints = JointRange(min(usual.low, paving.joint), max(usual.high, paving.joint))
    slab = paving.slabs[0]
    if not rectangular:
        return no_cut_area(outline, slab, Laying.stack_bond, joints).sizes[0]
    reach = 2 * max(slab.length, slab.width)
    found = no_cut_sizes((slab,), Laying.any, joints, right - left, high - low, reach).sizes
    return found[0] if found else None


def _random_sizes(paving: Paving, sides: tuple[float, float]) -> Iterator[tuple[float, float]]:
    """Sizes that the slabs of a random laying may fill, nearest first."""
    joint = micrometres(paving.joint)
    pairs = [(micrometres(slab.length), micrometres(slab.width)) for slab in paving.slabs]
    if paving.pattern is Pattern.mixed_random:
        side = module(pairs, joint).side
        square = Slab("module", (side - joint) / MICROMETRES, (side - joint) / MICROMETRES, paving.slabs[0].thickness)
        own = JointRange(paving.joint, paving.joint)
        found = no_cut_sizes((square,), Laying.stack_bond, own, *sides, 2 * side / MICROMETRES)
        yield from ((size.length, size.width) for size in found.sizes)
        return
    gauges = {width: [a + joint for a, b in pairs if b == width] for _, width in pairs}
    wanted_length, wanted_width = (micrometres(side) + joint for side in sides)
    for width in nearest_lengths([[gauge + joint for gauge in gauges]], wanted_width):
        for length in nearest_lengths(list(gauges.values()), wanted_length):
            yield (length - joint) / MICROMETRES, (width - joint) / MICROMETRES


def _laid(paving: Paving, sizes: Iterator[tuple[float, float]], sides: tuple[float, float]) -> NoCutSize | None:
    """The nearest of some sizes, as it is laid; none if it is cut after all."""
    ranked = sorted((abs(length - sides[0]) + abs(width - sides[1]), length, width) for length, width in sizes)
    if not ranked:
        return None
    change, *size = ranked[0]
    plain = replace(paving, origin=(0.0, 0.0), angle=0.0, detail=Detail.counts, pack=None, joint_most=None)
    try:
        found = layout(area(rectangle(size[0], size[1])), plain)
    except OutOfRange:
        return None
    if found.slabs_cut:
        return None
    words = "coursed at random" if paving.pattern is Pattern.coursed_random else "mixed sizes at random"
    return NoCutSize(size[0], size[1], paving.joint, paving.joint, found.slabs_whole, 0, change, words)
