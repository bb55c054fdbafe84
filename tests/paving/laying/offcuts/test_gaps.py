"""Gaps, bodies and sharings, against shapely."""

import numpy as np
import shapely
from hypothesis import given, settings
from shapely import affinity

from service.paving.laying.cut_pieces import MadeEdges, Turning
from service.paving.laying.offcuts.boards import Board
from service.paving.laying.offcuts.bodies import body_inside, hull, ring_length
from service.paving.laying.offcuts.bought import Source
from service.paving.laying.offcuts.box_gaps import clear_boxes
from service.paving.laying.offcuts.gaps import room_for_blade, standing, widest_gaps
from service.paving.laying.offcuts.parts import ring_area
from service.paving.laying.offcuts.rules import Stock
from service.paving.laying.offcuts.stands import stands, stands_as_laid
from tests.paving.laying.offcuts.judges import RULES, SLACK, CutPiece, Job, drawn, jobs, parts, placed

KERF = 3000
#: Places along each side at which two pieces are tried: fine enough to find most fits, if there are any.
STEPS = 7


@settings(max_examples=60)
@given(jobs(most=5), RULES["turning"], RULES["made_edges"])
def test_stands_that_leave_room_for_the_blade_are_a_kerf_apart(
    job: Job, turning: Turning, made_edges: MadeEdges
) -> None:
    cuts, length, width = job
    stock = Stock(length, width, KERF, turning, made_edges)
    measured = parts(cuts, stock)
    if not measured:
        return
    each = [stands(part, stock) for part in measured]
    clear = room_for_blade(widest_gaps([hull(part.rings[0]) for part in measured], standing(each), stock), stock)
    shapes = [placed(drawn(cut), Source(0, *stand)) for cut, some in zip(cuts, each, strict=True) for stand in some]
    owners = np.repeat(np.arange(len(each)), [len(some) for some in each])
    for one, other in zip(*np.nonzero(clear & (owners[:, None] < owners)), strict=True):
        assert shapes[one].distance(shapes[other]) >= KERF - SLACK


@settings(max_examples=60)
@given(jobs(most=6), RULES["kerf"], RULES["turning"])
def test_rectangles_as_they_lie_leave_room_exactly_where_they_are_a_kerf_apart(
    job: Job, kerf: int, turning: Turning
) -> None:
    cuts, length, width = job
    stock = Stock(length, width, kerf, turning, MadeEdges.kept)
    if not cuts:
        return
    laid = [Source(0, *stand) for stand in stands_as_laid(stock)]
    boxes = [placed(drawn(cut).envelope, source).bounds for cut in cuts for source in laid]
    expected = [
        [a[0] - b[2] >= kerf or b[0] - a[2] >= kerf or a[1] - b[3] >= kerf or b[1] - a[3] >= kerf for b in boxes]
        for a in boxes
    ]
    assert clear_boxes(parts(cuts, stock), stock).tolist() == expected


@settings(max_examples=60)
@given(jobs())
def test_one_body_lies_round_the_piece_and_one_inside(job: Job) -> None:
    cuts, length, width = job
    stock = Stock(length, width, KERF, Turning.none, MadeEdges.free)
    for cut, part in zip(cuts, parts(cuts, stock), strict=True):
        shape, around = drawn(cut), hull(cut.outline[0])
        assert shapely.Polygon(around).equals(shape.convex_hull)
        assert abs(part.area - shape.area) < 1
        assert abs(ring_length(around) - shape.convex_hull.length) < 1
        inside = body_inside(part, around)
        if inside is not None:
            assert shapely.Polygon(inside).difference(shape.buffer(SLACK)).area == 0
            assert shapely.Polygon(inside).convex_hull.area - ring_area(inside) < 1


def test_a_piece_with_a_hollow_side_has_a_smaller_body_inside() -> None:
    ring = ((0, 0), (600_000, 0), (300_000, 200_000), (0, 600_000))
    stock = Stock(600_000, 600_000, KERF, Turning.none, MadeEdges.free)
    (part,) = parts([_cut(ring)], stock)
    inside = body_inside(part, hull(ring))
    assert inside is not None
    assert 0.5 * part.area < ring_area(inside) < part.area < ring_area(hull(ring))


def test_a_piece_with_two_hollow_sides_may_have_no_body_inside_that_one_cut_leaves() -> None:
    hollow = [(0, 0), (300, 150), (600, 0), (450, 300), (600, 600), (300, 450), (0, 600), (150, 300)]
    ring = tuple((1000 * x, 1000 * y) for x, y in hollow)
    stock = Stock(600_000, 600_000, KERF, Turning.none, MadeEdges.free)
    (part,) = parts([_cut(ring)], stock)
    assert body_inside(part, hull(ring)) is None


def test_nothing_is_known_of_the_inside_of_a_piece_with_a_hole() -> None:
    ring = ((0, 0), (600_000, 0), (600_000, 600_000), (0, 600_000))
    hole = ((200_000, 200_000), (200_000, 400_000), (400_000, 400_000), (400_000, 200_000))
    stock = Stock(600_000, 600_000, KERF, Turning.none, MadeEdges.free)
    (part,) = parts([_cut(ring, hole)], stock)
    assert body_inside(part, hull(ring)) is None


@settings(max_examples=40)
@given(jobs(most=4), RULES["turning"])
def test_pieces_said_never_to_share_a_slab_fit_nowhere_on_a_grid(job: Job, turning: Turning) -> None:
    cuts, length, width = job
    board = Board(
        parts(cuts, Stock(length, width, KERF, turning, MadeEdges.free)),
        Stock(length, width, KERF, turning, MadeEdges.free),
    )
    if not cuts:
        return
    for one, other in zip(*np.nonzero(np.triu(~board.sharings, 1)), strict=True):
        first, second = (_everywhere(drawn(cuts[k]), length, width, turning) for k in (one, other))
        tree = shapely.STRtree(second)
        near = tree.query(first, predicate="dwithin", distance=KERF)
        assert near.shape[1] == len(first) * len(second)


def _everywhere(shape: shapely.Polygon, length: int, width: int, turning: Turning) -> list[shapely.Polygon]:
    """The shape at many places in the slab, among them pushed against its sides."""
    found = []
    for turns in (0, 1, 2, 3) if turning is Turning.quarter else (0, 2):
        turned = affinity.rotate(shape, 90 * turns, origin=(0, 0))
        x0, y0, x1, y1 = turned.bounds
        if x1 - x0 <= length and y1 - y0 <= width:
            found += [
                affinity.translate(turned, x, y)
                for x in np.linspace(-x0, length - x1, STEPS)
                for y in np.linspace(-y0, width - y1, STEPS)
            ]
    return found


def _cut(*rings: tuple[tuple[int, int], ...]) -> CutPiece:

    return CutPiece(0, rings)
