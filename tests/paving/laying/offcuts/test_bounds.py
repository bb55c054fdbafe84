"""Bounds, against exhaustive search, known optima and a linear program over patterns."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from service.paving.laying.cut_pieces import MadeEdges, Turning
from service.paving.laying.offcuts import Effort
from service.paving.laying.offcuts.area_bounds import (
    area_bound,
    quick_area_bound,
    round_spread_area,
    slab_shares,
    spread_area,
)
from service.paving.laying.offcuts.boards import Board
from service.paving.laying.offcuts.pair_bounds import lone_bound, most_matched, pairing_bound
from service.paving.laying.offcuts.rectangle_bounds import rectangle_bound
from service.paving.laying.offcuts.rectangles import Sawyer
from service.paving.laying.offcuts.rules import Stock
from service.paving.laying.offcuts.searches import dealt, fewest, largest_first
from tests.paving.laying.offcuts.exhaustive import Box, least_slabs
from tests.paving.laying.offcuts.judges import RULES, Job, drawn, jobs, parts, rectangle, slabs_to_buy
from tests.paving.laying.offcuts.patterns import pattern_bound

SIZES = st.lists(st.tuples(st.integers(1, 6), st.integers(1, 5)), min_size=1, max_size=5)
MICRO = 100_000


def sawn(boxes: list[Box], stock: Stock, tries: int) -> int:
    """Slabs that the rectangles were sawn from."""
    sawyer = Sawyer(boxes, stock)
    return len(fewest(sawyer, dealt(sawyer, largest_first(sawyer), []), tries, 0))


@settings(max_examples=150)
@given(SIZES, RULES["turning"])
def test_the_least_number_of_small_rectangles_lies_between_bound_and_count(boxes: list[Box], turning: Turning) -> None:
    stock = Stock(6, 5, 0, turning, MadeEdges.free)
    least = least_slabs(boxes, 6, 5, turning is Turning.quarter)
    assert rectangle_bound(boxes, stock) <= least <= sawn(boxes, stock, 50)


@settings(max_examples=100)
@given(SIZES, RULES["turning"])
def test_the_least_number_of_small_pieces_lies_between_bound_and_count(boxes: list[Box], turning: Turning) -> None:
    cuts = [rectangle(k, a * MICRO, b * MICRO) for k, (a, b) in enumerate(boxes)]
    bought = slabs_to_buy(cuts, 6 * MICRO, 5 * MICRO, 0, turning, MadeEdges.free, Effort.thorough)
    assert bought.bound <= least_slabs(boxes, 6, 5, turning is Turning.quarter) <= bought.slabs


def test_most_small_cases_are_solved_exactly() -> None:
    draw = np.random.default_rng(7)
    exact = 0
    for _ in range(60):
        boxes = [tuple(draw.integers((1, 1), (6, 5)).tolist()) for _ in range(6)]
        cuts = [rectangle(k, a * MICRO, b * MICRO) for k, (a, b) in enumerate(boxes)]
        bought = slabs_to_buy(cuts, 6 * MICRO, 5 * MICRO, 0, Turning.none, MadeEdges.free, Effort.thorough)
        exact += bought.slabs == least_slabs(boxes, 6, 5, False)
    assert exact >= 58


ROLLS = {
    1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20,
    2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
}  # fmt: skip


def test_the_rolls_of_the_worked_example_need_seventy_three() -> None:
    # Worked example of an encyclopaedia's article on cutting stock, from memory: optimum 73, first fit
    # 82, waste 0.401 % of 73 rolls of 5600.
    boxes = [(size, 10) for size, number in ROLLS.items() for _ in range(number)]
    stock = Stock(5600, 10, 0, Turning.none, MadeEdges.free)
    assert 1 - sum(a * b for a, b in boxes) / (73 * 56_000) == pytest.approx(0.00401, abs=1e-5)
    assert rectangle_bound(boxes, stock) == 73
    assert sawn(boxes, stock, 0) == 82
    assert 73 <= sawn(boxes, stock, 200) <= 76


def test_a_bound_rounded_up_may_still_be_one_short() -> None:
    # Fieldhouse and Marcotte's example, from memory: length 132; 2 of 44, 3 of 33, 6 of 12; linear
    # program 259/132 = 1.962, optimum 3.
    boxes = [(44, 10)] * 2 + [(33, 10)] * 3 + [(12, 10)] * 6
    stock = Stock(132, 10, 0, Turning.none, MadeEdges.free)
    assert sum(a for a, _ in boxes) == 259
    assert rectangle_bound(boxes, stock) == 2
    assert sawn(boxes, stock, 50) == 3


@settings(max_examples=60)
@given(st.lists(st.integers(1, 40), min_size=1, max_size=7))
def test_area_bounds_do_not_pass_the_least_number_of_lengths(sizes: list[int]) -> None:
    least = least_slabs([(size, 1) for size in sizes], 40, 1, False)
    shares = np.array(sizes) / 40
    assert math.ceil(sum(sizes) / 40) <= quick_area_bound(shares) <= least
    assert quick_area_bound(shares) <= area_bound(shares) <= least


@pytest.mark.parametrize("sizes", [[0.51] * 7, [0.5] * 7, [0.34] * 7, [0.9, 0.2, 0.2], []])
def test_area_bounds_of_like_shares_are_counted_by_hand(sizes: list[float]) -> None:
    expected = {0.51: 7, 0.5: 4, 0.34: 4, 0.9: 2}.get(sizes[0], 0) if sizes else 0
    assert area_bound(np.array(sizes)) == expected


@settings(max_examples=80)
@given(st.integers(1, 8), st.data())
def test_the_most_mates_are_found(number: int, data: st.DataObject) -> None:
    among = [data.draw(st.lists(st.integers(0, number - 1), unique=True, max_size=number)) for _ in range(number)]
    assert most_matched(among) == _most_by_trying(among)


def _most_by_trying(mates: list[list[int]], given_away: frozenset[int] = frozenset()) -> int:
    if not mates:
        return 0
    best = _most_by_trying(mates[1:], given_away)
    for mate in mates[0]:
        if mate not in given_away:
            best = max(best, 1 + _most_by_trying(mates[1:], given_away | {mate}))
    return best


@settings(max_examples=80)
@given(st.integers(1, 7), st.data())
def test_pair_bounds_do_not_pass_the_least_number_of_slabs(number: int, data: st.DataObject) -> None:
    shares = [data.draw(st.integers(1, 100)) for _ in range(number)]
    pairs = np.zeros((number, number), dtype=bool)
    for i in range(number):
        for j in range(i):
            pairs[i, j] = pairs[j, i] = shares[i] + shares[j] <= 100 and data.draw(st.booleans())
    least = _least_by_trying(shares, pairs)
    assert pairing_bound(np.array(shares) / 100, pairs) <= least
    assert lone_bound(np.array(shares) / 100, pairs) <= least


def _least_by_trying(
    shares: list[int], pairs: np.ndarray, slabs: tuple[tuple[int, ...], ...] = (), piece: int = 0
) -> int:
    if piece == len(shares):
        return len(slabs)
    best = _least_by_trying(shares, pairs, (*slabs, (piece,)), piece + 1)
    for k, slab in enumerate(slabs):
        if sum(shares[p] for p in slab) + shares[piece] <= 100 and all(pairs[p, piece] for p in slab):
            grown = (*slabs[:k], (*slab, piece), *slabs[k + 1 :])
            best = min(best, _least_by_trying(shares, pairs, grown, piece + 1))
    return best


@settings(max_examples=25)
@given(jobs(), RULES["turning"])
def test_bounds_do_not_pass_the_linear_program_over_patterns(job: Job, turning: Turning) -> None:
    cuts, length, width = job
    stock = Stock(length, width, 3000, turning, MadeEdges.free)
    if not cuts:
        return
    board = Board(parts(cuts, stock), stock)
    # Any weights of pieces that no pattern exceeds 1 with are a solution of its dual.
    assert max(board.area_bound, board.pair_bound) <= pattern_bound(board.shares, board.sharings)
    bought = slabs_to_buy(cuts, length, width, 3000, turning, MadeEdges.free, Effort.thorough)
    assert pattern_bound(board.shares, board.sharings) <= bought.slabs


@settings(max_examples=60)
@given(jobs(most=3))
def test_spread_areas_are_at_most_what_shapely_spreads(job: Job) -> None:
    for cut in job[0]:
        shape = drawn(cut)
        spread = shape.buffer(1500, quad_segs=64).area
        assert round_spread_area(shape.area, 3000) <= spread * (1 + 1e-6)
        convex = shape.convex_hull
        expected = convex.buffer(1500, quad_segs=64).area
        assert spread_area(convex.area, convex.length, 3000) == pytest.approx(expected, rel=1e-5)


def test_a_slab_is_one_share_of_itself() -> None:
    stock = Stock(600_000, 400_000, 3000, Turning.none, MadeEdges.free)
    spread = box(0, 0, 600_000, 400_000).buffer(1500, quad_segs=64).area
    assert slab_shares([spread], stock)[0] == pytest.approx(1, abs=1e-6)
    assert slab_shares([spread_area(stock.area, 2_000_000, 3000)], stock)[0] == pytest.approx(1, abs=1e-9)
