"""A solver as oracle: the same tasks of mixed laying for HiGHS and for the project, both judged by a third.

What each took is printed at the end of the run; no speed is held here, because HiGHS is as quick or as slow
as its luck. Squares of 20 modules with joints of 6 and 5 take it 7 and 35 seconds, so they are left to
`python -m tests.benchmarks.random_layings`.
"""

import time
from collections import Counter

import pytest

from service.paving.areas import area, rectangle
from service.paving.laying.mixed.amounts import by_shares
from service.paving.laying.mixed.mixes import Mix, mixed
from service.paving.layouts import layout
from tests.paving.laying.random.judges import Modules, modules, rectangle_of
from tests.paving.laying.random.mixes import JOINT, MODULE, paving, side, slab
from tests.paving.laying.random.solver import Size, solved

SHARES: dict[Size, float] = {(3, 2): 0.33, (2, 2): 0.31, (2, 1): 0.25, (1, 1): 0.11}
SECONDS = 60.0


def task(number: int) -> dict[Size, int]:
    """How many of each size on a square."""
    found = by_shares(number * number, list(SHARES), list(SHARES.values()))
    assert found is not None
    return dict(zip(SHARES, found.numbers, strict=True))


def counted(laid: Modules) -> dict[Size, int]:
    return dict(Counter((max(spot[2:]), min(spot[2:])) for spot in laid.spots))


@pytest.mark.parametrize(("number", "limit"), [(10, 10), (10, 6), (10, 5), (20, 10)])
def test_the_solver_and_the_project_lay_the_same_numbers_by_the_same_rules(
    number: int, limit: int, compared: list[str]
) -> None:
    start = time.process_time()
    spots = solved(number, task(number), limit, SECONDS)
    theirs = (time.process_time() - start) * 1000
    sizes = tuple(slab(*size, share) for size, share in SHARES.items())
    start = time.process_time()
    found = layout(area(rectangle(side(number), side(number))), paving(sizes, limit, 1))
    ours = (time.process_time() - start) * 1000
    inside = rectangle_of(number, number)
    laid = modules(found, MODULE, JOINT, inside)
    compared.append(f"{number} x {number}, joints of {limit:2d}: solver {theirs:5.0f}, ours {ours:4.0f}")
    assert spots is not None
    for judged in (laid, Modules(spots, inside)):
        assert (judged.fault, judged.crossings) == ("", 0)
        assert judged.longest_joint <= limit
        assert counted(judged) == task(number)


@pytest.mark.parametrize(("number", "limit"), [(5, 3), (5, 4), (6, 3), (6, 4), (6, 5), (7, 4), (7, 5), (8, 4), (8, 5)])
def test_what_the_solver_proves_impossible_is_not_laid_and_what_it_lays_is(number: int, limit: int) -> None:
    numbers = task(number)
    spots = solved(number, numbers, limit, SECONDS)
    mix = Mix(number, number, (True,) * number**2, tuple(numbers), tuple(numbers.values()), limit)
    found = [mixed(mix, seed) for seed in range(1, 6)]
    met = [one for one in found if not one.flaws and one.numbers == tuple(numbers.values())]
    assert bool(met) == (spots is not None)
