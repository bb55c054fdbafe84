"""No-cut suggestions: of a job that needs cuts, the nearest size of its outline that needs none."""

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

from service.paving.areas import Area, area
from service.paving.errors import ImpossibleShape, OutOfRange
from service.paving.laying.coursed.lines import nearest_lengths
from service.paving.laying.lattices import MICROMETRES, micrometres
from service.paving.laying.mixed.modules import module
from service.paving.laying.pavings import Detail, Pattern, Paving
from service.paving.laying.random_layings import RANDOM
from service.paving.layouts import layout
from service.paving.no_cut_areas import no_cut_area
from service.paving.no_cut_nets import Laying, NoCutSize
from service.paving.no_cut_shapes import Stop, stops
from service.paving.no_cut_sizes import no_cut_sizes
from service.paving.outlines import Point
from service.paving.reference import default
from service.paving.runs_of_slabs import JointRange
from service.paving.shapes import polygon

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
    if paving.pattern in RANDOM:
        return next(_laid_at_random(outline, paving), None)
    if len(paving.slabs) > 1:
        return None
    usual = default("no_cut_sizes", "suggested_joint")
    joints = JointRange(min(usual.low, paving.joint), max(usual.high, paving.joint))
    slab = paving.slabs[0]
    reach = 2 * max(slab.length, slab.width)
    if len(outline.outline.points) == _RECTANGLE:
        left, low, right, high = outline.outline.bounds
        found = no_cut_sizes((slab,), Laying.any, joints, right - left, high - low, reach).sizes
    else:
        found = no_cut_area(outline, (slab,), Laying.stack_bond, joints, reach).sizes
    return found[0] if found else None


def _laid_at_random(outline: Area, paving: Paving) -> Iterator[NoCutSize]:
    """The outline moved to where whole slabs end, nearest first, where it was laid and nothing cut."""
    (ring,) = stops(outline)
    if len(ring) > default("no_cut_sizes", "most_corners_at_random").value:
        return
    origin = min(x.at for x, _ in ring), min(y.at for _, y in ring)
    plain = replace(paving, origin=origin, angle=0.0, detail=Detail.counts, pack=None, joint_most=None)
    tries, words = 1, "mixed sizes at random"  # a mix can be laid on whole modules, or on none
    if paving.pattern is Pattern.coursed_random:
        tries, words = int(default("no_cut_sizes", "courses_tried").value), "coursed at random"
    for change, corners in heapq.nsmallest(tries, _moved(ring, paving)):
        try:
            found = layout(area(polygon(corners, {})), plain)
        except (ImpossibleShape, OutOfRange):
            continue
        if not found.slabs_cut:
            length, width = (max(places) - min(places) for places in zip(*corners, strict=True))
            yield NoCutSize(length, width, paving.joint, paving.joint, found.slabs_whole, 0, change, words)


def _moved(ring: Sequence[tuple[Stop, Stop]], paving: Paving) -> Iterator[tuple[float, list[Point]]]:
    """Every way to move the sides of an outline to the lengths next to theirs, and how far they move in all [m]."""
    joint = micrometres(paving.joint)
    along, across = (
        _places({corner[k] for corner in ring}, pitches, joint) for k, pitches in enumerate(_pitches(paving, joint))
    )
    for xs in product(*along.values()):
        for ys in product(*across.values()):
            x, y = dict(zip(along, xs, strict=True)), dict(zip(across, ys, strict=True))
            change = sum(abs(place - stop.at) for places in (x, y) for stop, place in places.items())
            yield change, [(x[a], y[b]) for a, b in ring]


def _places(found: set[Stop], pitches: Sequence[Sequence[int]], joint: int) -> dict[Stop, list[float]]:
    """Where each side may stand: the first where it does, the others on the lengths next to theirs [m]."""
    first = min(stop.at for stop in found)
    places = {}
    for stop in found:
        short = joint if stop.ends else 0
        lengths = nearest_lengths(pitches, micrometres(stop.at - first) + short) if stop.at > first else [short]
        places[stop] = [first + (length - short) / MICROMETRES for length in lengths]
    return places


def _pitches(paving: Paving, joint: int) -> tuple[list[list[int]], list[list[int]]]:
    """What runs along x are made up of, set by set, and what the courses are [µm]."""
    pairs = [(micrometres(slab.length), micrometres(slab.width)) for slab in paving.slabs]
    if paving.pattern is Pattern.mixed_random:
        side = module(pairs, joint).side
        return [[side]], [[side]]
    gauges = {width: [a + joint for a, b in pairs if b == width] for _, width in pairs}
    return list(gauges.values()), [[gauge + joint for gauge in gauges]]
