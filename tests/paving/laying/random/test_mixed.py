"""Mixed sizes at random: every shipped mix, judged by what shares nothing with it."""

import statistics
from collections import Counter
from itertools import product

import numpy as np
import pytest

from service.paving.areas import area, circle, l_shape, rectangle
from service.paving.laying.mixed.patches import Patch
from service.paving.layouts import layout
from tests.paving.laying.random.judges import Modules, modules, rectangle_of
from tests.paving.laying.random.mixes import JOINT, MODULE, SHIPPED, paving, side, slab, slabs

NAMES = [f"{patch.mix}, {patch.limit}" for patch in SHIPPED]
USUAL = tuple(slab(*size) for size in ((3, 2), (2, 2), (2, 1), (1, 1)))


def wanted(patch: Patch, laid: Modules) -> dict[str, int]:
    """How far the modules under each size are from the share of the patch."""
    whole = len(laid.inside)
    off = {}
    for size, share in patch.shares.items():
        number = sum(tuple(sorted(spot[2:], reverse=True)) == size for spot in laid.spots)
        off[f"{size[0]} x {size[1]}"] = abs(number * size[0] * size[1] - share * whole)
    return off


@pytest.mark.parametrize("patch", SHIPPED, ids=NAMES)
def test_every_patch_is_a_torus_without_crossed_or_long_joints(patch: Patch) -> None:
    twice = [
        (x + i * patch.period, y + k * patch.period, length, width)
        for x, y, length, width in patch.stones for i in (-1, 0, 1, 2) for k in (-1, 0, 1, 2)
    ]  # fmt: skip
    square = rectangle_of(2 * patch.period, 2 * patch.period)
    covered = [s for s in twice if any((s[0] + i, s[1] + k) in square for i in range(s[2]) for k in range(s[3]))]
    laid = Modules(covered, {(s[0] + i, s[1] + k) for s in covered for i in range(s[2]) for k in range(s[3])})
    assert not laid.fault
    assert laid.crossings == 0
    assert laid.longest_joint <= patch.limit


@pytest.mark.parametrize("patch", SHIPPED, ids=NAMES)
@pytest.mark.parametrize("seed", [1, 2])
def test_any_middle_of_a_patch_may_lie_beside_any_other(patch: Patch, seed: int) -> None:
    """Six by six of them, drawn by lot, in the middle of eight by eight."""
    rng, period = np.random.default_rng(seed), patch.period
    assert len(patch.middles) > 1
    laid = [
        (column * period + x, row * period + y, length, width)
        for column, row in product(range(8), range(8))
        for x, y, length, width in (*patch.frame, *patch.middles[rng.integers(len(patch.middles))])
    ]
    square = {(x + period, y + period) for x, y in rectangle_of(6 * period, 6 * period)}
    near = [s for s in laid if any((s[0] + i, s[1] + k) in square for i in range(s[2]) for k in range(s[3]))]
    judged = Modules(near, {(s[0] + i, s[1] + k) for s in near for i in range(s[2]) for k in range(s[3])})
    assert (judged.fault, judged.crossings) == ("", 0)
    assert judged.longest_joint <= patch.limit


@pytest.mark.parametrize("patch", SHIPPED, ids=NAMES)
def test_every_middle_of_a_patch_has_the_same_slabs(patch: Patch) -> None:
    numbers = [Counter(tuple(sorted(s[2:])) for s in middle) for middle in patch.middles]
    assert all(number == numbers[0] for number in numbers)
    assert len({frozenset(middle) for middle in patch.middles}) == len(patch.middles)


def repeated(patch: Patch, seed: int) -> float:
    """Part of the slabs that lie again a period on, along or across, in 48 by 48 modules."""
    found = layout(area(rectangle(side(48), side(48))), paving(slabs(patch), patch.limit, seed))
    spots, period = set(modules(found, MODULE, JOINT, rectangle_of(48, 48)).spots), patch.period
    again = [
        (x + dx, y + dy, length, width) in spots
        for dx, dy in ((period, 0), (0, period))
        for x, y, length, width in spots
        if x + dx + length <= 48 and y + dy + width <= 48
    ]
    return sum(again) / len(again)


def test_a_large_laying_is_not_the_same_patch_again_and_again() -> None:
    """Seven to nine slabs in ten lay again a period on when there was but one middle.

    Mixes without a single module, where the sizes leave little choice, still come near that.
    """
    parts = [repeated(patch, 3) for patch in SHIPPED]
    assert statistics.median(parts) < 0.5
    assert max(parts) < 0.85


@pytest.mark.parametrize("patch", SHIPPED, ids=NAMES)
@pytest.mark.parametrize("seed", [1, 2])
def test_a_square_of_every_mix_has_no_crossed_joint_and_none_too_long(patch: Patch, seed: int) -> None:
    found = layout(area(rectangle(side(20), side(20))), paving(slabs(patch), patch.limit, seed))
    laid = modules(found, MODULE, JOINT, rectangle_of(20, 20))
    assert (laid.fault, laid.crossings, found.slabs_cut) == ("", 0, 0)
    assert laid.longest_joint <= patch.limit
    assert found.note == ""
    assert all(off <= 6 for off in wanted(patch, laid).values())


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_an_l_on_whole_modules_is_laid_without_a_cut(seed: int) -> None:
    inside = {(x, y) for x in range(20) for y in range(18) if not (x >= 12 and y >= 10)}
    shape = l_shape(side(20), side(18), 8 * MODULE, 8 * MODULE)
    found = layout(area(shape), paving(USUAL, 6, seed))
    laid = modules(found, MODULE, JOINT, inside)
    assert (laid.fault, laid.crossings, found.slabs_cut, found.note) == ("", 0, 0, "")
    assert laid.longest_joint <= 6


def test_an_opening_on_whole_modules_is_left_out_without_a_cut() -> None:
    hole = rectangle(4 * MODULE + JOINT, 3 * MODULE + JOINT).at(5 * MODULE - JOINT, 6 * MODULE - JOINT)
    inside = rectangle_of(16, 14) - {(x, y) for x in range(5, 9) for y in range(6, 9)}
    found = layout(area(rectangle(side(16), side(14)), [hole]), paving(USUAL, 8, 4))
    laid = modules(found, MODULE, JOINT, inside)
    assert (laid.fault, laid.crossings, found.slabs_cut) == ("", 0, 0)


def test_an_area_may_end_with_a_joint_or_without() -> None:
    for length in (side(12), side(12) + JOINT / 2, 12 * MODULE):
        found = layout(area(rectangle(length, side(10))), paving(USUAL, 6, 2))
        assert modules(found, MODULE, JOINT, rectangle_of(12, 10)).fault == ""
        assert found.slabs_cut == 0


def test_any_other_area_is_laid_over_and_cut() -> None:
    found = layout(area(circle(4.0)), paving(USUAL, 6, 1))
    assert found.slabs_cut > 0
    assert "cut" in found.note
    assert found.paved_area + found.joint_area == pytest.approx(area(circle(4.0)).net, abs=1e-6)


def test_the_same_seed_lays_the_same_and_another_one_another() -> None:
    square = area(rectangle(side(20), side(20)))
    one, again, other = (layout(square, paving(USUAL, 6, seed)) for seed in (7, 7, 8))
    assert one.pieces == again.pieces
    here, there = ({(p.name, round(p.x, 3), round(p.y, 3), round(p.angle, 3)) for p in f.pieces} for f in (one, other))
    assert len(here & there) < 0.4 * len(here)


def test_all_of_ten_seeds_differ_from_one_another() -> None:
    square = area(rectangle(side(12), side(12)))
    assert len({layout(square, paving(USUAL, 6, seed)).pieces for seed in range(10)}) == 10


def test_joints_are_as_long_as_the_sides_of_modules_between_slabs() -> None:
    """Each side between two slabs is a module of joint; one that ends at the rim is half a joint shorter there."""
    found = layout(area(rectangle(side(20), side(20))), paving(USUAL, 6, 5))
    laid = modules(found, MODULE, JOINT, rectangle_of(20, 20))
    of = {(x + i, y + k): n for n, (x, y, a, b) in enumerate(laid.spots) for i in range(a) for k in range(b)}
    upright = [(x, y) for x, y in of if (x + 1, y) in of and of[x, y] != of[x + 1, y]]
    level = [(x, y) for x, y in of if (x, y + 1) in of and of[x, y] != of[x, y + 1]]
    ends = sum((y == 0) + (y == 19) for _, y in upright) + sum((x == 0) + (x == 19) for x, _ in level)
    expected = MODULE * (len(upright) + len(level)) - JOINT / 2 * ends
    assert found.joint_length == pytest.approx(expected, abs=1e-6)
    assert found.joint_area == pytest.approx(side(20) ** 2 - sum(p.length * p.width for p in found.pieces), abs=1e-9)


def test_the_laying_order_names_every_slab_once_from_left_to_right() -> None:
    found = layout(area(rectangle(side(12), side(10))), paving(USUAL, 6, 3))
    letters = [mark[0] for course in found.order for mark in course.slabs.split(", ")]
    assert {count.letter: count.whole for count in found.by_slab} == {k: letters.count(k) for k in "ABCD"}
    for course in found.order:
        assert list(course.along) == sorted(course.along)
        here = [p for p in found.pieces if abs(p.y - course.above) < 1e-6]
        assert len(here) == len(course.along) == len(course.slabs.split(", "))
