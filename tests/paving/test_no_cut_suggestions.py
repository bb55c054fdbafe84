"""No-cut suggestions: what is suggested is laid, and nothing is cut."""

import pytest

from service.paving.areas import area, circle, l_shape, polygon, rectangle
from service.paving.laying.coursed.lines import nearest_lengths
from service.paving.layouts import Pattern, Paving, layout
from service.paving.no_cut_suggestions import no_cut_suggestion
from service.paving.shapes import Shape
from service.paving.slabs import Slab
from tests.paving.laying.random.mixes import JOINT, MODULE, slab

USUAL = tuple(slab(*size) for size in ((3, 2), (2, 2), (2, 1), (1, 1)))
COURSED = tuple(Slab(str(n), n / 1000, 0.3, 0.04) for n in (450, 600, 750))
FLAG = (Slab("flag", 0.6, 0.6, 0.04),)


@pytest.mark.parametrize(
    "paving",
    [
        Paving(slabs=USUAL, pattern=Pattern.mixed_random, joint=JOINT, seed=3),
        Paving(slabs=COURSED, pattern=Pattern.coursed_random, joint=0.008, seed=3),
        Paving(slabs=COURSED, pattern=Pattern.coursed_random, angle=0.1),
    ],
)
def test_a_suggestion_for_a_random_laying_is_laid_without_a_cut(paving: Paving) -> None:
    wanted = area(rectangle(5.07, 3.43))
    assert layout(wanted, paving).slabs_cut > 0
    found = no_cut_suggestion(wanted, paving)
    assert found is not None
    assert found.change == pytest.approx(abs(found.length - 5.07) + abs(found.width - 3.43))
    assert found.change < 2 * 0.75
    laid = layout(area(rectangle(found.length, found.width)), Paving(
        slabs=paving.slabs, pattern=paving.pattern, joint=paving.joint, seed=paving.seed
    ))  # fmt: skip
    assert (laid.slabs_cut, laid.slabs_whole) == (0, found.slabs)
    assert found.laid.endswith("at random")


def test_a_mix_is_suggested_the_nearest_whole_modules() -> None:
    found = no_cut_suggestion(
        area(rectangle(5.07, 3.43)), Paving(slabs=USUAL, pattern=Pattern.mixed_random, joint=JOINT)
    )
    assert found is not None
    assert (found.length, found.width) == (pytest.approx(17 * MODULE - JOINT), pytest.approx(11 * MODULE - JOINT))


@pytest.mark.parametrize("slabs", [(slab(2, 2), slab(2, 1), slab(3, 2)), (slab(2, 2), slab(1, 1))])
def test_nothing_is_suggested_that_cannot_be_laid(slabs: tuple[Slab, ...]) -> None:
    paving = Paving(slabs=slabs, pattern=Pattern.mixed_random, joint=JOINT)
    assert no_cut_suggestion(area(rectangle(0.95, 0.95)), paving) is None


def test_a_mix_whose_stagger_cannot_be_kept_is_suggested_nothing() -> None:
    paving = Paving(slabs=COURSED[1:2], pattern=Pattern.coursed_random)
    assert no_cut_suggestion(area(rectangle(5.07, 3.43)), paving) is None


def test_courses_of_two_gauges_are_suggested_a_length_that_both_can_have() -> None:
    slabs = (
        Slab("a", 0.4, 0.3, 0.04),
        Slab("b", 0.6, 0.3, 0.04),
        Slab("c", 0.5, 0.2, 0.04),
        Slab("d", 0.75, 0.2, 0.04),
    )
    found = no_cut_suggestion(area(rectangle(5.07, 3.43)), Paving(slabs=slabs, pattern=Pattern.coursed_random))
    assert found is not None
    assert (found.length, found.width) == (pytest.approx(5.0), pytest.approx(3.4))


def test_lengths_are_those_found_by_trying_all() -> None:
    def rows(pitches: tuple[int, ...], most: int) -> set[int]:
        found = {0}
        for length in range(1, most):
            if any(length - pitch in found for pitch in pitches):
                found.add(length)
        return found

    for pitches in ([(3, 5)], [(4, 7), (5,)], [(2, 3), (7, 9)]):
        whole = set.intersection(*(rows(each, 80) for each in pitches)) - {0}
        for wanted in range(10, 30):
            near = [max((n for n in whole if n <= wanted), default=None), min(n for n in whole if n > wanted)]
            assert nearest_lengths(pitches, wanted) == [n for n in near if n is not None], (pitches, wanted)


CORNER = l_shape(5.07, 4.13, 1.52, 1.07)
STEPS = polygon([(1, 1), (6.1, 1), (6.1, 2.2), (5.2, 2.2), (5.2, 3.3), (2.9, 3.3), (2.9, 4.2), (1, 4.2)], {})
ARMS = polygon([(1, 1), (6.1, 1), (6.1, 4.2), (4.2, 4.2), (4.2, 2.4), (2.9, 2.4), (2.9, 4.2), (1, 4.2)], {})
MIXED = Paving(slabs=USUAL, pattern=Pattern.mixed_random, joint=JOINT, seed=3)
IN_COURSES = Paving(slabs=COURSED, pattern=Pattern.coursed_random, joint=0.008, seed=3)


@pytest.mark.parametrize(
    ("shape", "paving"),
    [(CORNER, MIXED), (STEPS, MIXED), (ARMS, MIXED), (CORNER, IN_COURSES), (STEPS, IN_COURSES)],
    ids=["corner mixed", "steps mixed", "arms mixed", "corner in courses", "steps in courses"],
)
def test_a_right_angled_shape_is_suggested_sides_that_a_random_laying_ends_on(shape: Shape, paving: Paving) -> None:
    wanted = area(shape)
    assert layout(wanted, paving).slabs_cut > 0
    found = no_cut_suggestion(wanted, paving)
    assert found is not None
    assert found.laid.endswith("at random")
    left, low, right, high = wanted.outline.bounds
    assert abs(found.length - (right - left)) + abs(found.width - (high - low)) <= found.change + 1e-9
    # Each side moves by half of the shortest slab at most on a mix's modules, or the next sum of lengths on courses.
    most = MODULE / 2 if paving.pattern is Pattern.mixed_random else 0.3
    assert found.change <= most * len(shape.outline.points)


def test_courses_that_a_gap_parts_are_suggested_nothing() -> None:
    """A course is laid from end to end, and sawn at a gap within it."""
    assert no_cut_suggestion(area(ARMS), IN_COURSES) is None


@pytest.mark.parametrize("paving", [MIXED, IN_COURSES])
def test_round_and_many_cornered_shapes_at_random_are_suggested_nothing(paving: Paving) -> None:
    teeth = [point for k in range(8) for point in ((6 - k / 2, k / 2), (6 - k / 2, k / 2 + 0.5))]
    assert no_cut_suggestion(area(polygon([(0, 0), *teeth, (0, 4)], {})), paving) is None
    assert no_cut_suggestion(area(circle(5.0)), paving) is None


def test_an_l_in_a_bond_is_suggested_where_its_sides_should_stand() -> None:
    paving = Paving(slabs=FLAG, pattern=Pattern.stretcher_bond, joint=0.005)
    found = no_cut_suggestion(area(l_shape(5.0, 4.0, 1.0, 1.0)), paving)
    assert found is not None
    assert found.laid == "stack bond"


def test_two_sizes_in_a_bond_and_sizes_out_of_reach_are_suggested_nothing() -> None:
    two = Paving(slabs=(*FLAG, *USUAL[:1]), pattern=Pattern.stack_bond)
    assert no_cut_suggestion(area(rectangle(5.0, 4.0)), two) is None


def test_a_rectangle_in_a_bond_is_suggested_the_nearest_size() -> None:
    found = no_cut_suggestion(area(rectangle(5.0, 4.0)), Paving(slabs=FLAG, pattern=Pattern.stack_bond, joint=0.005))
    assert found is not None
    # Eight slabs with joints of 10 mm are 4870 mm; seven with joints of 3 mm 4218 mm, six with 10 mm only 3650 mm.
    assert (found.length, found.width, found.slabs) == (pytest.approx(4.87), pytest.approx(4.218), 56)


def test_courses_that_whole_slabs_would_put_in_line_are_suggested_the_next_length() -> None:
    """Eight hundred is nearer, but is 400 and 400 only, so every perpend would lie on the one below."""
    slabs = (Slab("a", 0.4, 0.3, 0.04), Slab("b", 0.6, 0.3, 0.04))
    paving = Paving(slabs=slabs, pattern=Pattern.coursed_random, stagger=0.1)
    found = no_cut_suggestion(area(rectangle(0.83, 0.9)), paving)
    assert found is not None
    assert (found.length, found.width, found.slabs) == (pytest.approx(1.0), pytest.approx(0.9), 6)


def test_gauges_without_a_length_in_common_are_suggested_nothing() -> None:
    slabs = (Slab("a", 0.4, 0.3, 0.04), Slab("b", 0.7, 0.2, 0.04))
    paving = Paving(slabs=slabs, pattern=Pattern.coursed_random)
    assert no_cut_suggestion(area(rectangle(0.35, 1.0)), paving) is None


def test_sizes_that_cannot_be_mixed_are_suggested_nothing() -> None:
    paving = Paving(slabs=(slab(2, 2), slab(1, 1)), pattern=Pattern.mixed_random, joint=JOINT)
    assert no_cut_suggestion(area(rectangle(5.07, 3.43)), paving) is None
