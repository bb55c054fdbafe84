"""No-cut sizes held against brute force over every tiling, and against the layout engine."""

import math
from itertools import product

import pytest

from service.paving.areas import area, circle, l_shape, polygon, rectangle
from service.paving.errors import OutOfRange
from service.paving.layouts import Pattern, Paving, Search, layout
from service.paving.no_cut_bonds import herringbone_halves
from service.paving.no_cut_shapes import no_cut_area, no_cut_shape
from service.paving.no_cut_sizes import Laying, no_cut_sizes
from service.paving.runs_of_slabs import JointRange
from service.paving.slabs import Slab
from service.paving.tilings import tileable

# Sides in decimetres for small numbers, joints in the same measure.
TENTH = 0.1


def slab(length: float, width: float) -> Slab:
    return Slab("slab", length, width, 0.04)


def nearest_by_force(p: int, q: int, a: int, b: int, joint: int, within: int) -> int | None:
    """The least change to any size that can be tiled, all of them tried."""
    changes = [
        abs(x - p) + abs(y - q)
        for x, y in product(range(max(1, p - within), p + within + 1), range(max(1, q - within), q + within + 1))
        if tileable(x + joint, y + joint, a + joint, b + joint)
    ]
    return min(changes, default=None)


CASES = [
    (p, q, a, b, joint)
    for (a, b), joint in product([(2, 1), (3, 2), (4, 3), (5, 2), (5, 4), (3, 3)], [0, 1])
    for p, q in product(range(3, 15), repeat=2)
    if p >= q
]


def test_the_nearest_size_is_the_one_found_by_trying_all_of_them() -> None:
    assert len(CASES) >= 900
    for p, q, a, b, joint in CASES:
        expected = nearest_by_force(p, q, a, b, joint, 4)
        joints = JointRange(joint * TENTH, joint * TENTH)
        found = no_cut_sizes((slab(a * TENTH, b * TENTH),), Laying.any, joints, p * TENTH, q * TENTH, 4 * TENTH + 1e-9)
        change = found.sizes[0].change / TENTH if found.sizes else None
        assert (expected is None) == (change is None), (p, q, a, b, joint)
        assert change is None or change == pytest.approx(expected, abs=1e-6), (p, q, a, b, joint)
        assert found.fits == (expected == 0)


@pytest.mark.parametrize(("p", "q"), [(3.71, 2.42), (4.8, 3.6), (5.333, 2.9), (7.2, 5.4)])
@pytest.mark.parametrize("size", [(0.6, 0.6), (0.6, 0.3), (0.45, 0.45), (0.2, 0.1)])
def test_stack_bond_laid_at_a_listed_size_cuts_nothing(p, q, size) -> None:
    found = no_cut_sizes((slab(*size),), Laying.stack_bond, JointRange(0.003, 0.010), p, q, 0.6)
    assert found.sizes
    for each in found.sizes[:3]:
        if each.laid == "stack bond" and math.isclose(each.joint, each.joint_across):
            laid = layout(
                area(rectangle(each.length, each.width)),
                Paving(slabs=(slab(*size),), pattern=Pattern.stack_bond, joint=each.joint),
            )
            assert (laid.slabs_cut, laid.slabs_whole) == (0, each.slabs)


def test_the_joint_stretches_within_its_range_and_no_further() -> None:
    # Eight slabs of 600 with joints of 3 to 8 mm make up 4821 to 4856 mm.
    asked = (slab(0.6, 0.6),), Laying.stack_bond, JointRange(0.003, 0.008)
    assert no_cut_sizes(*asked, 4.8385, 4.8385, 0.3).fits
    assert not no_cut_sizes(*asked, 4.820, 4.8385, 0.3).fits
    assert no_cut_sizes(*asked, 4.8385, 4.8385, 0.3).sizes[0].joint == pytest.approx(0.0055)


def test_along_and_across_may_have_joints_of_their_own() -> None:
    found = no_cut_sizes((slab(0.6, 0.6),), Laying.stack_bond, JointRange(0.003, 0.008), 4.821, 4.856, 0.3)
    assert found.fits
    assert (found.sizes[0].joint, found.sizes[0].joint_across) == (pytest.approx(0.003), pytest.approx(0.008))


@pytest.mark.parametrize("laying", [Laying.herringbone_90, Laying.herringbone_45, Laying.pinwheel])
def test_a_pattern_that_always_needs_end_pieces_says_so_at_once(laying) -> None:
    found = no_cut_sizes((slab(0.2, 0.1),), laying, JointRange(0, 0), 2.0, 1.0, 0.5)
    assert not found.fits
    assert "always needs" in found.reason
    # What does work is offered: a metre by two in stack bond, as wanted.
    assert (found.sizes[0].laid, found.sizes[0].slabs, found.sizes[0].change) == ("stack bond", 100, 0.0)
    assert {size.laid for size in found.sizes} <= {"stack bond", "stack bond, slabs turned"}


def halves_by_looking(columns: int, rows: int) -> int:
    """Fewest squares whose other half lies outside, over every place herringbone may begin."""
    other = {0: (1, 0), 1: (-1, 0), 2: (0, -1), 3: (0, 1)}
    inside = set(product(range(columns), range(rows)))
    return min(
        sum((x + other[(x - y + k) % 4][0], y + other[(x - y + k) % 4][1]) not in inside for x, y in inside)
        for k in range(4)
    )


@pytest.mark.parametrize(("columns", "rows"), list(product((1, 2, 3, 4, 7, 10), (1, 2, 5, 8))))
def test_herringbone_takes_as_many_half_slabs_as_edges_part(columns: int, rows: int) -> None:
    assert herringbone_halves(columns, rows) == halves_by_looking(columns, rows)


@pytest.mark.parametrize(("columns", "rows"), [(8, 6), (10, 7), (9, 9)])
def test_herringbone_with_half_slabs_is_laid_by_the_engine_with_as_many(columns: int, rows: int) -> None:
    joint = 0.002
    sides = [squares * (0.1 + joint) - joint for squares in (columns, rows)]
    sold = slab(0.202, 0.1), slab(0.1, 0.1)
    found = no_cut_sizes(sold, Laying.herringbone_90, JointRange(0.002, 0.005), *sides, 0.15)
    assert found.fits
    best = found.sizes[0]
    laid = layout(
        area(rectangle(*sides)),
        Paving(slabs=sold[:1], pattern=Pattern.herringbone_90, joint=joint, origin=Search.fewest_cuts),
    )
    assert (laid.slabs_whole, laid.slabs_cut) == (best.slabs, best.half_slabs)


def test_herringbone_says_which_half_slab_it_needs() -> None:
    found = no_cut_sizes((slab(0.202, 0.1),), Laying.herringbone_90, JointRange(0.002, 0.005), 2.0, 1.0, 0.2)
    assert "add one of 100 mm by 100 mm" in found.reason
    assert found.sizes[0].laid.startswith("stack bond")
    wrong = no_cut_sizes((slab(0.2, 0.08),), Laying.herringbone_90, JointRange(0.002, 0.005), 2.0, 1.0, 0.2)
    assert "with a joint of 40 mm" in wrong.reason
    other = no_cut_sizes(
        (slab(0.202, 0.1), slab(0.11, 0.1)), Laying.herringbone_90, JointRange(0.002, 0.005), 2.0, 1.0, 0.2
    )
    assert not other.fits


def test_half_bond_needs_half_slabs() -> None:
    joints = JointRange(0.005, 0.005)
    without = no_cut_sizes((slab(0.6, 0.3),), Laying.stretcher_bond, joints, 3.0, 1.5, 0.5)
    assert not without.fits
    assert "add one of 297.5 mm to 297.5 mm by 300 mm" in without.reason
    assert without.sizes[0].laid == "stack bond"
    halved = no_cut_sizes((slab(0.6, 0.3), slab(0.2975, 0.3)), Laying.stretcher_bond, joints, 3.02, 1.52, 0.5)
    assert halved.fits
    # Five courses of five slabs; two of them begin and end with a half and have four between.
    assert (halved.sizes[0].slabs, halved.sizes[0].half_slabs) == (23, 4)


def test_a_half_slab_that_does_not_line_up_with_the_whole_ones_is_not_used() -> None:
    """Two halves and their joint must be as long as a slab, and as wide: 250 leaves 100 between them."""
    for half in (slab(0.25, 0.3), slab(0.2975, 0.2)):
        found = no_cut_sizes((slab(0.6, 0.3), half), Laying.stretcher_bond, JointRange(0.005, 0.005), 3.02, 1.52, 0.5)
        assert not found.fits
        assert [size.half_slabs for size in found.sizes] == [0] * len(found.sizes)


def test_basket_weave_needs_its_own_joint() -> None:
    woven = no_cut_sizes((slab(0.203, 0.1),), Laying.basket_weave, JointRange(0.002, 0.005), 2.057, 1.027, 0.2)
    assert woven.fits
    assert woven.sizes[0].slabs == 100
    refused = no_cut_sizes((slab(0.2, 0.1),), Laying.basket_weave, JointRange(0.002, 0.005), 2.0, 1.0, 0.2)
    assert {size.laid for size in refused.sizes} <= {"stack bond", "stack bond, slabs turned"}
    assert "as long as two" in refused.reason


def test_a_joint_range_the_wrong_way_round_is_refused() -> None:
    with pytest.raises(OutOfRange) as refused:
        no_cut_sizes((slab(0.6, 0.6),), Laying.any, JointRange(0.008, 0.003), 3.0, 3.0, 0.3)
    assert refused.value.place == ("joint_most",)


def test_an_l_of_whole_slabs_fits_and_its_count_is_the_engines() -> None:
    joint = 0.005
    pitch = 0.6 + joint
    shape = l_shape(7 * pitch - joint, 5 * pitch - joint, 2 * pitch, 2 * pitch)
    found = no_cut_shape(area(shape), slab(0.6, 0.6), JointRange(0.003, 0.010))
    assert found.fits
    assert found.slabs == 31
    assert found.joint == pytest.approx(joint)


def test_the_sides_of_an_l_are_moved_to_where_nothing_is_cut() -> None:
    wanted = area(l_shape(4.25, 3.1, 1.1, 1.3))
    found = no_cut_shape(wanted, slab(0.6, 0.6), JointRange(0.003, 0.010))
    assert not found.fits
    at = {(side.axis, side.stands): side.move_to for side in found.sides}
    moved = [(at["x", x], at["y", y]) for x, y in wanted.outline.points]
    assert found.joint == pytest.approx(found.joint_across) or found.slabs > 0
    for joint, k in ((found.joint, 0), (found.joint_across, 1)):
        for point in moved:
            off = math.remainder(point[k], 0.6 + joint)
            assert min(abs(off), abs(off + joint)) < 1e-9


@pytest.mark.parametrize(("joint", "openings"), [(0.005, ()), (0.0, ("pit",)), (0.008, ("pit",))])
def test_an_l_moved_as_told_is_laid_without_a_cut(joint, openings) -> None:
    pit = [rectangle(0.62, 0.61).at(1.2, 0.62)] if openings else []
    wanted = area(l_shape(4.25, 3.1, 1.1, 1.3), pit)
    found = no_cut_shape(wanted, slab(0.6, 0.6), JointRange(joint, joint))
    at = {(side.axis, side.stands): side.move_to for side in found.sides}

    def moved(shape):
        return polygon([(at["x", x], at["y", y]) for x, y in shape.outline.points], {})

    laid = layout(
        area(moved(wanted.shape), [moved(opening) for opening in wanted.openings]),
        Paving(slabs=(slab(0.6, 0.6),), pattern=Pattern.stack_bond, joint=joint),
    )
    assert laid.slabs_cut == 0
    assert laid.slabs_whole == found.slabs


def test_a_round_area_always_needs_cuts() -> None:
    with pytest.raises(OutOfRange) as refused:
        no_cut_shape(area(circle(3.0)), slab(0.6, 0.6), JointRange(0, 0))
    assert refused.value.place == ("area",)


def test_a_shape_is_decided_in_stack_bond_and_says_that_no_other_was_looked_for() -> None:
    """Three by three dominoes' halves less a corner can be laid with four dominoes, though not in stack bond."""
    corner = area(l_shape(0.3, 0.3, 0.1, 0.1))
    found = no_cut_area(corner, slab(0.2, 0.1), Laying.any, JointRange(0, 0))
    assert not found.fits
    assert "stack bond" in found.reason
    assert "none was looked for" in found.reason
    assert "looked for" not in no_cut_area(corner, slab(0.2, 0.1), Laying.stack_bond, JointRange(0, 0)).reason


def test_a_shape_in_any_other_bond_is_refused_with_what_to_ask_for() -> None:
    with pytest.raises(OutOfRange, match="ask for stack_bond, or any") as refused:
        no_cut_area(area(l_shape(3.0, 2.4, 1.2, 0.6)), slab(0.2, 0.1), Laying.herringbone_90, JointRange(0, 0))
    assert refused.value.place == ("pattern",)
