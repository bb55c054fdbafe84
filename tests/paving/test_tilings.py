"""Tilings held against exhaustive search and against published theorems and counts."""

from functools import cache
from itertools import pairwise, product

import pytest

from service.paving.tilings import fault_free, sums_to, tileable


def laid_by_search(p: int, q: int, a: int, b: int) -> bool:
    """Whether a p x q rectangle can be filled, by trying: the first free cell takes a slab one way or the other."""
    sizes = {(a, b), (b, a)}

    @cache
    def fill(heights: tuple[int, ...]) -> bool:
        low = min(heights)
        if low == q:
            return True
        at = heights.index(low)
        run = next((k for k in range(at, p) if heights[k] != low), p) - at
        return any(
            w <= run and low + h <= q and fill((*heights[:at], *(low + h,) * w, *heights[at + w :])) for w, h in sizes
        )

    return fill((0,) * p)


CASES = [
    (p, q, a, b)
    for a, b in product(range(1, 6), repeat=2)
    if a >= b
    for p, q in product(range(1, 15), repeat=2)
    if p >= q
]


def test_there_are_enough_small_cases() -> None:
    assert len(CASES) >= 1500


def test_the_decision_equals_exhaustive_search() -> None:
    wrong = [case for case in CASES if tileable(*case) != laid_by_search(*case)]
    assert wrong == []


# Klarner 1969, de Bruijn 1969, and Ardila and Stanley, Tilings (read); the rest worked from the theorem.
@pytest.mark.parametrize(
    ("p", "q", "a", "b", "possible"),
    [
        (5, 6, 2, 3, True),
        (17, 28, 4, 7, False),
        (18, 42, 4, 7, False),
        (10, 15, 1, 6, False),
        (10, 10, 1, 4, False),
        (11, 20, 4, 5, False),
        (9, 20, 4, 5, True),
        (11, 18, 2, 3, True),
        (9, 10, 2, 3, True),
        (10, 14, 2, 5, True),
        (1, 6, 2, 3, False),
    ],
)
def test_a_published_rectangle_is_decided_as_published(p, q, a, b, possible) -> None:
    assert tileable(p, q, a, b) is possible
    assert tileable(q, p, b, a) is possible


def test_a_common_measure_changes_nothing() -> None:
    assert tileable(50, 60, 20, 30)
    assert not tileable(55, 60, 20, 30)


def fault_free_by_search(p: int, q: int, a: int, b: int) -> bool:
    """Whether some tiling has no straight joint right through: every tiling is looked at."""

    def tilings(heights, seams):
        low = min(heights)
        if low == q:
            yield seams
            return
        at = heights.index(low)
        run = next((k for k in range(at, p) if heights[k] != low), p) - at
        for w, h in {(a, b), (b, a)}:
            if w <= run and low + h <= q:
                upright = {x for x in range(1, p) if at < x < at + w}
                across = {y for y in range(1, q) if low < y < low + h}
                broken = (seams[0] | upright, seams[1] | across)
                yield from tilings((*heights[:at], *(low + h,) * w, *heights[at + w :]), broken)

    return any(len(x) == p - 1 and len(y) == q - 1 for x, y in tilings((0,) * p, (frozenset(), frozenset())))


@pytest.mark.parametrize(("p", "q"), [(p, q) for p in range(2, 9) for q in range(2, 7) if p * q % 2 == 0])
def test_fault_free_dominoes_are_those_found_by_search(p, q) -> None:
    # Graham 1981: mn even, both 5 or more, not 6 x 6 (read); 2 x 1 is a single slab.
    assert fault_free(p, q, 1, 2) == fault_free_by_search(p, q, 1, 2)
    assert fault_free(p, q, 1, 2) == (min(p, q) >= 5 and (p, q) != (6, 6))


@pytest.mark.parametrize(("p", "q"), [(p, q) for p in range(5, 12) for q in range(5, 9)])
def test_fault_free_2_by_3_slabs_are_those_found_by_search(p, q) -> None:
    assert fault_free(p, q, 2, 3) == fault_free_by_search(p, q, 2, 3)


def test_one_slab_alone_has_no_joint_through_it() -> None:
    for turned in ((3, 2), (2, 3)):
        assert fault_free(*turned, 2, 3)
        assert fault_free_by_search(*turned, 2, 3)
    # Cut to the same area it is another slab.
    assert not fault_free(6, 1, 2, 3)


def test_sums_are_made_of_both_sides() -> None:
    assert [n for n in range(1, 20) if not sums_to(n, 4, 7)] == [1, 2, 3, 5, 6, 9, 10, 13, 17]


@cache
def domino_tilings(p: int, q: int) -> int:
    """How many ways dominoes fill a p x q rectangle, row after row of squares covered from below."""
    before = {0: 1}
    for _ in range(q):
        after: dict[int, int] = {}
        for covered, number in before.items():
            for reaching in rows_over(covered, 0, p):
                after[reaching] = after.get(reaching, 0) + number
        before = after
    return before.get(0, 0)


def rows_over(covered: int, at: int, p: int):
    """Squares of the next row reached into, for each way to fill a row of which some squares are covered."""
    while at < p and covered >> at & 1:
        at += 1
    if at == p:
        yield 0
        return
    for reaching in rows_over(covered, at + 1, p):
        yield reaching | 1 << at
    if at + 1 < p and not covered >> at + 1 & 1:
        yield from rows_over(covered, at + 2, p)


def fault_free_tilings(p: int, q: int) -> int:
    """Tilings without a joint right through, by counting those with some joints in and out again."""
    total = 0
    for upright in product((False, True), repeat=p - 1):
        columns = parts(upright)
        for level in product((False, True), repeat=q - 1):
            number = (-1) ** (sum(upright) + sum(level))
            for a, b in product(columns, parts(level)):
                number *= domino_tilings(a, b)
            total += number
    return total


def parts(joints: tuple[bool, ...]) -> list[int]:
    ends = [0, *(k for k, joint in enumerate(joints, 1) if joint), len(joints) + 1]
    return [b - a for a, b in pairwise(ends)]


# OEIS A004003 (2 x 2, 4 x 4, 8 x 8) and A340535 (4 x 8), as the table of published checks has them
@pytest.mark.parametrize(("p", "q", "number"), [(2, 2, 2), (4, 4, 36), (8, 8, 12988816), (4, 8, 2245)])
def test_the_count_of_domino_tilings_is_the_published_one(p, q, number) -> None:
    assert domino_tilings(p, q) == number
    assert tileable(p, q, 1, 2)


# OEIS A124997; 6 x 6 is Graham's exception
@pytest.mark.parametrize(("p", "q", "number"), [(5, 6, 6), (6, 6, 0), (5, 8, 108), (8, 8, 25506)])
def test_fault_free_is_possible_where_the_published_count_is_above_nought(p, q, number) -> None:
    assert fault_free_tilings(p, q) == number
    assert fault_free(p, q, 1, 2) == (number > 0)
