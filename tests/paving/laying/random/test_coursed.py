"""Coursed random: one gauge to a course, perpends apart, nothing cut where nothing need be."""

from dataclasses import replace
from itertools import pairwise, product

import pytest

from service.paving.areas import Area, area, circle, l_shape, polygon, rectangle
from service.paving.errors import OutOfRange
from service.paving.laying.coursed.lines import Line
from service.paving.laying.coursed.pairs import pair
from service.paving.layouts import Detail, Layout, Pattern, Paving, layout
from service.paving.slabs import Slab
from tests.paving.laying.random.judges import upright

LENGTHS = (300, 450, 600, 750)


def paving(lengths: tuple[int, ...] = LENGTHS, gauge: int = 300, stagger: float = 0.075, seed: int = 1) -> Paving:
    slabs = tuple(Slab(f"{n} x {gauge}", n / 1000, gauge / 1000, 0.04) for n in lengths)
    return Paving(slabs=slabs, pattern=Pattern.coursed_random, stagger=stagger, seed=seed, detail=Detail.pieces)


def courses(found: Layout) -> list[list[tuple[int, int]]]:
    """Left and right ends [mm] of the slabs of each course from below, left to right."""
    rows: dict[int, list[tuple[int, int]]] = {}
    for _, left, low, length, _ in upright(found):
        rows.setdefault(round(low * 1000), []).append((round(left * 1000), round((left + length) * 1000)))
    return [sorted(rows[low]) for low in sorted(rows)]


def least_stagger(found: Layout) -> int:
    """Least distance [mm] of perpends of neighbouring courses."""
    perpends = [[end for _, end in row[:-1]] for row in courses(found)]
    return min(abs(a - b) for one, other in pairwise(perpends) for a in one for b in other)


@pytest.mark.parametrize("width", [4.95, 10.05, 19.95])
@pytest.mark.parametrize("stagger", [0.05, 0.075, 0.15])
def test_a_hundred_courses_keep_the_stagger_without_a_cut(width: float, stagger: float) -> None:
    found = layout(area(rectangle(width, 30.0)), paving(stagger=stagger))
    assert found.slabs_cut == 0
    assert len(courses(found)) == 100
    assert least_stagger(found) >= stagger * 1000
    for row in courses(found):
        assert row[0][0] == 0
        assert row[-1][1] == round(width * 1000)
        assert all(a[1] == b[0] for a, b in pairwise(row))


def test_sets_of_lengths_that_get_stuck_are_laid_by_taking_courses_up_again() -> None:
    for seed in range(10):
        found = layout(area(rectangle(6.0, 12.0)), paving((400, 600, 900), 300, 0.1, seed))
        assert found.slabs_cut == 0
        assert least_stagger(found) >= 100


def test_joints_stand_between_slabs_and_courses() -> None:
    slabs = tuple(Slab(str(n), n / 1000, 0.29, 0.04) for n in (290, 440, 590))
    found = layout(
        area(rectangle(5.99, 2.99)),
        Paving(slabs=slabs, pattern=Pattern.coursed_random, joint=0.01, seed=3, detail=Detail.pieces),
    )
    assert found.slabs_cut == 0
    assert all(b[0] - a[1] == 10 for row in courses(found) for a, b in pairwise(row))
    assert len(courses(found)) == 10


def test_two_gauges_lie_in_courses_of_their_own_by_their_shares() -> None:
    slabs = tuple(Slab(f"{n} x {g}", n / 1000, g / 1000, 0.04) for g in (200, 300) for n in LENGTHS)
    found = layout(
        area(rectangle(6.0, 25.0)),
        Paving(slabs=slabs, pattern=Pattern.coursed_random, seed=5, detail=Detail.pieces),
    )
    widths: dict[int, set[int]] = {}
    for _, _, low, _, width in upright(found):
        widths.setdefault(round(low * 1000), set()).add(round(width * 1000))
    assert all(len(gauge) == 1 for gauge in widths.values())
    face = sum(p.length * p.width for p in found.pieces if round(p.width, 3) == 0.2)
    assert face / found.paved_area == pytest.approx(0.5, abs=0.05)
    assert found.slabs_cut == 0


def test_shares_are_kept_where_the_end_leaves_a_choice() -> None:
    slabs = tuple(Slab(f"{n}", n / 1000, 0.3, 0.04, s) for n, s in zip(LENGTHS, (0.1, 0.2, 0.3, 0.4), strict=True))
    found = layout(
        area(rectangle(19.95, 30.0)), Paving(slabs=slabs, pattern=Pattern.coursed_random, detail=Detail.pieces)
    )
    for slab in slabs:
        face = sum(p.length * p.width for p in found.pieces if p.name == slab.name)
        assert face / found.paved_area == pytest.approx(slab.share, abs=0.05)


def test_each_arm_of_an_l_has_courses_of_its_own_length() -> None:
    found = layout(area(l_shape(6.0, 6.0, 2.1, 3.0)), paving())
    assert found.slabs_cut == 0
    assert {row[-1][1] for row in courses(found)} == {6000, 3900}


@pytest.mark.parametrize("shape", [area(circle(5.0)), area(rectangle(5.07, 2.83))])
def test_where_courses_cannot_end_whole_they_are_cut(shape: Area) -> None:
    found = layout(shape, paving())
    assert found.slabs_cut > 0
    assert found.note
    assert found.paved_area == pytest.approx(shape.net, abs=1e-6)
    rows = dict(enumerate(courses(found)))
    assert len(rows) > 5


def test_the_seed_decides_the_laying() -> None:
    one, again, other = (layout(area(rectangle(6.0, 3.0)), paving(seed=seed)) for seed in (1, 1, 2))
    assert one.pieces == again.pieces
    assert one.pieces != other.pieces


def test_joints_are_opened_where_that_lets_courses_end_whole() -> None:
    shape = area(rectangle(6.0, 2.99))
    slabs = tuple(Slab(str(n), n / 1000, 0.29, 0.04) for n in (440, 590, 740))
    tight = Paving(slabs=slabs, pattern=Pattern.coursed_random, joint=0.004, stagger=0.05, detail=Detail.pieces)
    assert layout(shape, tight).slabs_cut > 0
    found = layout(shape, replace(tight, joint_most=0.012))
    assert found.slabs_cut == 0
    assert "so that courses end whole" in found.note
    gaps = {b[0] - a[1] for row in courses(found) for a, b in pairwise(row)}
    assert min(gaps) >= 4
    assert max(gaps) <= 12


def test_a_widest_joint_below_the_joint_is_refused() -> None:
    with pytest.raises(OutOfRange, match="below the joint, 5 mm") as caught:
        layout(area(rectangle(6.0, 3.0)), replace(paving(), joint=0.005, joint_most=0.004))
    assert caught.value.place == ("joint_most",)


def test_lengths_finer_than_a_saw_tells_apart_are_refused() -> None:
    with pytest.raises(OutOfRange, match="tenths of a millimetre"):
        layout(area(rectangle(6.0, 3.0)), replace(paving(), joint=0.003175))


def test_courses_longer_than_are_laid_in_one_are_refused() -> None:
    with pytest.raises(OutOfRange, match="100 m long"):
        layout(area(rectangle(120.0, 1.0)), paving())


def test_one_length_is_refused_with_what_would_do() -> None:
    with pytest.raises(OutOfRange, match="second length, or lay stretcher bond") as caught:
        layout(area(rectangle(6.0, 3.0)), paving((600,)))
    assert caught.value.place == ("stagger",)


def test_a_stagger_no_two_courses_can_keep_is_refused_with_the_most_that_can() -> None:
    with pytest.raises(OutOfRange, match=r"no course can lie on another\. At most 200 mm"):
        layout(area(rectangle(6.0, 3.0)), paving((400, 600), 300, 0.3))
    assert least_stagger(layout(area(rectangle(6.0, 3.0)), paving((400, 600), 300, 0.2))) >= 200


def test_a_stagger_longer_than_the_shortest_slab_is_refused() -> None:
    with pytest.raises(OutOfRange, match="at most the shortest slab, 300 mm"):
        layout(area(rectangle(6.0, 3.0)), paving(stagger=0.31))


def everything(strides: tuple[int, ...], length: int) -> list[set[int]]:
    """Perpends of every course of a length, by trying all."""
    if length == 0:
        return [set()]
    found = []
    for stride in strides:
        if stride <= length:
            found += [{p + stride for p in rest} | {stride} for rest in everything(strides, length - stride)]
    return found


@pytest.mark.parametrize(
    ("strides", "length"), [(s, n) for s, n in product(((2, 3), (2, 5), (3, 4), (2, 3, 4), (4, 6, 9)), range(5, 19))]
)
def test_two_courses_are_found_if_and_only_if_trying_all_finds_them(strides: tuple[int, ...], length: int) -> None:
    whole = [perpends - {length} for perpends in everything(strides, length)]
    line = Line(strides, 1, 0, (length, length))
    for stagger in range(1, min(strides) + 1):
        there_are = any(all(abs(a - b) >= stagger for a in x for b in y) for x in whole for y in whole)
        verdict = pair(line, line, 0, stagger, 10_000)
        assert verdict.decided or verdict.courses
        assert (verdict.courses is not None) == there_are, (stagger, verdict)


def test_lengths_that_suit_each_other_in_few_ways_are_laid_by_turns() -> None:
    """200, 350 and 950 make up 2900 in many ways, but hardly two have all perpends 200 apart."""
    found = layout(area(rectangle(2.9, 3.0)), paving((200, 350, 950), 300, 0.2))
    rows = courses(found)
    assert (found.slabs_cut, len(rows)) == (0, 10)
    assert least_stagger(found) >= 200
    assert all(row == rows[k % 2] for k, row in enumerate(rows))


def test_a_stagger_that_no_laying_of_an_l_was_found_for_is_refused_with_one_that_can_be_kept() -> None:
    """Each arm alone can be laid with 150, but where the arms meet no courses were found that do."""
    shape = area(l_shape(3.0, 3.0, 1.15, 1.5))
    for length in (3.0, 1.85):
        assert least_stagger(layout(area(rectangle(length, 1.5)), paving((200, 250, 550), 300, 0.15))) >= 150
    with pytest.raises(OutOfRange, match=r"none were found\. Ask for 100 mm or less") as caught:
        layout(shape, paving((200, 250, 550), 300, 0.15))
    assert caught.value.place == ("stagger",)
    assert least_stagger(layout(shape, paving((200, 250, 550), 300, 0.1))) >= 100


def test_no_slab_lies_in_a_bed_planted_right_across() -> None:
    """A bed of 900 mm across a patio leaves three courses below it and four above, all whole."""
    found = layout(area(rectangle(6.0, 3.0), [rectangle(6.0, 0.9).at(0, 0.9)]), paving())
    assert found.slabs_cut == 0
    assert sorted({round(low, 3) for _, _, low, _, _ in upright(found)}) == [0.0, 0.3, 0.6, 1.8, 2.1, 2.4, 2.7]
    assert found.paved_area == pytest.approx(6.0 * 2.1)


def test_a_size_of_course_given_twice_is_refused() -> None:
    with pytest.raises(OutOfRange, match="450 x 300 is given twice") as caught:
        layout(area(rectangle(6.0, 3.0)), paving((450, 600, 450)))
    assert caught.value.place == ("slabs", 2)


def test_more_slabs_than_are_laid_in_courses_are_refused() -> None:
    with pytest.raises(OutOfRange, match=r"More than 20,000 slabs may be needed") as caught:
        layout(area(rectangle(60.0, 40.0)), paving())
    assert caught.value.place == ("area",)


@pytest.mark.parametrize(
    "points", [[(0, 0), (90, 0), (90, 0.0004), (0, 0.0004)], [(0, 0), (0.0004, 0), (0.0004, 90), (0, 90)]]
)
def test_an_area_thinner_than_anything_laid_in_courses_is_refused(points: list[tuple[float, float]]) -> None:
    setts = tuple(Slab(str(n), n / 1000, 0.05, 0.05) for n in (50, 100))
    with pytest.raises(OutOfRange, match=r"no wider than 0\.5 mm: nothing is laid") as caught:
        layout(area(polygon(points, {})), Paving(slabs=setts, pattern=Pattern.coursed_random, stagger=0.05))
    assert caught.value.place == ("area",)
