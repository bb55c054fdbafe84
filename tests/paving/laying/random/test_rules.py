"""The rules of mixed laying against published numbers: tatami tilings, in which no four tiles meet."""

from itertools import product

import pytest

from service.paving.laying.mixed.amounts import single_modules_too_many
from service.paving.laying.mixed.fields import BARE, Field
from tests.paving.laying.random.judges import Modules, rectangle_of

DOMINOES = ((2, 1), (1, 1))


def tilings(columns: int, rows: int, limit: int, sizes: tuple[tuple[int, int], ...] = DOMINOES) -> list[Field]:
    """Singles of every filling of a rectangle by the rules, found by trying everything."""
    field = Field(columns, rows, [True] * (columns * rows), sizes, limit)
    found = []

    def fill() -> None:
        if BARE not in field.modules:
            found.append((tuple(field.numbers), tuple((*field.place(m), a, b) for m, a, b in field.slabs.values())))
            return
        module = field.modules.index(BARE)
        for length, width in field.kinds:
            spot = (module, length, width)
            if field.bare(spot):
                number = field.lay(spot)
                if field.sound(spot):
                    fill()
                field.lift(number)

    fill()
    return found


# Erickson, Ruskey, Schurch & Woodcock 2011: n 2^(n-1) tatami tilings of n x n with n single squares
@pytest.mark.parametrize(("n", "number"), [(1, 1), (2, 4), (4, 32), (6, 192)])
def test_squares_have_as_many_tilings_with_n_singles_as_published(n: int, number: int) -> None:
    assert sum(numbers[1] == n for numbers, _ in tilings(n, n, 99)) == number


# OEIS A192090: 4 x n tatami tilings with single squares allowed
@pytest.mark.parametrize(("n", "number"), [(1, 5), (2, 29), (3, 44), (4, 66), (5, 126), (6, 238)])
def test_strips_four_wide_have_as_many_tilings_as_published(n: int, number: int) -> None:
    assert len(tilings(4, n, 99)) == number


def test_the_judge_counts_the_published_number_as_well() -> None:
    """All tilings of 4 x 4 with dominoes and singles, the crossed ones weeded out by the judge alone."""
    inside, found = rectangle_of(4, 4), 0

    def fill(spots: list[tuple[int, int, int, int]], free: set[tuple[int, int]]) -> None:
        nonlocal found
        if not free:
            found += sum(s[2:] == (1, 1) for s in spots) == 4 and Modules(spots, inside).crossings == 0
            return
        x, y = min(free)
        for length, width in ((1, 1), (2, 1), (1, 2)):
            under = {(x + i, y + k) for i in range(length) for k in range(width)}
            if under <= free:
                fill([*spots, (x, y, length, width)], free - under)

    fill([], set(inside))
    assert found == 32


@pytest.mark.parametrize("limit", [2, 3, 4])
def test_no_tiling_by_the_rules_has_a_longer_joint_and_none_is_missed(limit: int) -> None:
    inside = rectangle_of(5, 4)
    by_judge = sum(Modules(list(spots), inside).longest_joint <= limit for _, spots in tilings(5, 4, 99))
    assert len(tilings(5, 4, limit)) == by_judge


@pytest.mark.parametrize(("columns", "rows"), list(product((3, 4, 5), (3, 4))))
def test_no_tiling_breaks_the_bound_on_single_modules(columns: int, rows: int) -> None:
    sizes = ((3, 2), (2, 2), (2, 1), (1, 1))
    found = {numbers for numbers, _ in tilings(columns, rows, 99, sizes)}
    assert len(found) > 5
    assert not any(single_modules_too_many(columns, rows, sizes, numbers) for numbers in found)
    assert single_modules_too_many(columns, rows, sizes, (0, 0, 0, columns * rows)) > 0
