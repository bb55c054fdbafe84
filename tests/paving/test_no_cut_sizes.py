"""No-cut sizes held against brute force over every tiling, and against the layout engine."""

import math
from itertools import product

import numpy as np
import pytest

from service.paving.areas import area, circle, l_shape, polygon, rectangle
from service.paving.errors import OutOfRange
from service.paving.layouts import Pattern, Paving, Search, layout
from service.paving.no_cut_areas import no_cut_area
from service.paving.no_cut_nets import Laying, nets
from service.paving.no_cut_shapes import no_cut_shape
from service.paving.no_cut_sizes import no_cut_sizes
from service.paving.runs_of_slabs import JointRange
from service.paving.slabs import Slab
from service.paving.tilings import tileable

# Sides in decimetres for small numbers, joints in the same measure.
TENTH = 0.1


def slab(length: float, width: float) -> Slab:
    return Slab("slab", length, width, 0.04)


def stacked(wanted, side, joints):
    """A right-angled area as square slabs in stack bond would have it."""
    return no_cut_shape(wanted, nets(Laying.stack_bond, (slab(side, side),), joints))


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


#: Where the other half of a slab lies, by the remainder of a mesh's place; and how places are told apart.
OTHER_HALF = {
    Laying.herringbone_90: ({0: (1, 0), 1: (-1, 0), 2: (0, -1), 3: (0, 1)}, lambda x, y: x - y),
    Laying.stretcher_bond: ({0: (1, 0), 1: (-1, 0)}, lambda x, y: x - y),
}


def halves_by_looking(laying: Laying, inside: set[tuple[int, int]]) -> int:
    """Fewest meshes whose other half lies outside, over every place the pattern may begin."""
    other, place = OTHER_HALF[laying]
    ways = []
    for k in range(len(other)):
        moves = {(x, y): other[(place(x, y) + k) % len(other)] for x, y in inside}
        ways.append(sum((x + dx, y + dy) not in inside for (x, y), (dx, dy) in moves.items()))
    return min(ways)


HALVED = {
    Laying.herringbone_90: (slab(0.202, 0.1), slab(0.1, 0.1)),
    Laying.stretcher_bond: (slab(0.2, 0.1), slab(0.099, 0.1)),
}


@pytest.mark.parametrize("laying", HALVED)
@pytest.mark.parametrize("seed", range(40))
def test_edges_part_as_many_slabs_as_are_found_by_looking_at_each(laying: Laying, seed: int) -> None:
    """Of rectangles, Ls, and Ls with an opening, on the meshes of the pattern."""
    rng = np.random.default_rng(seed)
    columns, rows = (int(n) for n in rng.integers(2, 12, 2))
    left, low = int(rng.integers(1, columns)), int(rng.integers(1, rows))
    gone = set(product(range(left, columns), range(low, rows)))
    ring = [(0, 0), (columns, 0), (columns, rows), (0, rows)]
    if seed % 3:
        ring = [(0, 0), (columns, 0), (columns, low), (left, low), (left, rows), (0, rows)]
    inside = set(product(range(columns), range(rows))) - (gone if seed % 3 else set())
    rings = [ring]
    if seed % 2 and set(product(range(4), range(3))) <= inside:
        inside -= {(1, 1), (2, 1)}
        rings.append([(1, 1), (1, 2), (3, 2), (3, 1)])
    net, *_ = nets(laying, HALVED[laying], JointRange(0.002, 0.002))
    slabs, halves = net.count(rings)
    assert halves == halves_by_looking(laying, inside)
    assert 2 * slabs + halves == len(inside)


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
    found = stacked(area(shape), 0.6, JointRange(0.003, 0.010))
    assert found.fits
    assert found.slabs == 31
    assert found.joint == pytest.approx(joint)


def test_the_sides_of_an_l_are_moved_to_where_nothing_is_cut() -> None:
    wanted = area(l_shape(4.25, 3.1, 1.1, 1.3))
    found = stacked(wanted, 0.6, JointRange(0.003, 0.010))
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
    found = stacked(wanted, 0.6, JointRange(joint, joint))
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
        stacked(area(circle(3.0)), 0.6, JointRange(0, 0))
    assert refused.value.place == ("area",)


def test_a_point_between_two_corners_changes_nothing() -> None:
    plain = stacked(area(rectangle(4.25, 3.1)), 0.6, JointRange(0.003, 0.010))
    corners = [(0.0, 0.0), (2.0, 0.0), (4.25, 0.0), (4.25, 3.1), (0.0, 3.1)]
    assert stacked(area(polygon(corners, {})), 0.6, JointRange(0.003, 0.010)) == plain


USUAL = JointRange(0.002, 0.005)


def answered(wanted, slabs, laying, joints=USUAL, within=0.6):
    return no_cut_area(wanted, slabs, laying, joints, within)


def test_a_shape_is_decided_in_stack_bond_and_says_that_no_other_was_looked_for() -> None:
    """Three by three dominoes' halves less a corner can be laid with four dominoes, though not in stack bond."""
    corner, dominoes, joints = area(l_shape(0.3, 0.3, 0.1, 0.1)), (slab(0.2, 0.1),), JointRange(0, 0)
    found = answered(corner, dominoes, Laying.any, joints)
    assert not found.fits
    assert "stack bond" in found.reason
    assert "none was looked for" in found.reason
    assert "looked for" not in answered(corner, dominoes, Laying.stack_bond, joints).reason


JOINT = 0.002
BONDS = {
    Laying.stretcher_bond: (HALVED[Laying.stretcher_bond], Pattern.stretcher_bond),
    Laying.herringbone_90: (HALVED[Laying.herringbone_90], Pattern.herringbone_90),
    Laying.basket_weave: ((slab(0.202, 0.1),), Pattern.basket_weave),
    Laying.stack_bond: ((slab(0.2, 0.1),), Pattern.stack_bond),
}


@pytest.mark.parametrize("laying", BONDS)
@pytest.mark.parametrize("seed", range(12))
def test_a_shape_moved_as_told_is_laid_by_the_engine_with_half_slabs_alone(laying: Laying, seed: int) -> None:
    rng = np.random.default_rng(seed)
    length, width = rng.uniform(1.2, 2.6, 2)
    wanted = area(l_shape(length, width, rng.uniform(0.25, 0.6 * length), rng.uniform(0.25, 0.6 * width)))
    slabs, pattern = BONDS[laying]
    found = answered(wanted, slabs, laying, JointRange(JOINT, JOINT))
    assert not found.fits
    at = {(side.axis, side.stands): side.move_to for side in found.sides}
    moved = area(polygon([(at["x", x], at["y", y]) for x, y in wanted.outline.points], {}))
    again = answered(moved, slabs, laying, JointRange(JOINT, JOINT))
    assert again.fits
    (size,) = again.sizes
    turned = math.pi / 2 if "turned" in size.laid or "across" in size.laid else 0.0
    laid = layout(moved, Paving(slabs=slabs[:1], pattern=pattern, joint=JOINT, angle=turned, origin=Search.fewest_cuts))
    assert (laid.slabs_whole, laid.slabs_cut) == (size.slabs, size.half_slabs)


@pytest.mark.parametrize("laying", [Laying.herringbone_45, Laying.pinwheel, Laying.stretcher_bond])
def test_a_shape_in_a_pattern_that_needs_end_pieces_is_told_so_and_where_stack_bond_would_do(laying: Laying) -> None:
    found = answered(area(l_shape(3.0, 2.4, 1.2, 0.6)), (slab(0.2, 0.1),), laying)
    assert not found.fits
    assert "always need" in found.reason
    assert found.reason.endswith("Where its sides should stand for stack bond is listed.")
    assert [size.laid.partition(",")[0] for size in found.sizes] == ["stack bond"]
    assert found.sides


def test_a_shape_whose_sides_would_move_too_far_is_told_so() -> None:
    wanted = area(l_shape(3.0, 2.4, 1.2, 0.6))
    far = answered(wanted, (slab(0.9, 0.9),), Laying.stack_bond, within=0.05)
    assert (far.fits, far.sizes, far.sides) == (False, (), ())
    assert "greater change" in far.reason
    other = answered(wanted, (slab(0.9, 0.9),), Laying.pinwheel, within=0.05)
    assert (other.sizes, other.reason.endswith("one module.")) == ((), True)


def test_one_course_of_stretcher_bond_needs_no_half_slab() -> None:
    slabs = (slab(0.6, 0.3),)
    found = no_cut_sizes(slabs, Laying.stretcher_bond, JointRange(0.005, 0.005), 3.02, 0.3, 0.5)
    assert found.fits
    assert (found.sizes[0].slabs, found.sizes[0].laid) == (5, "stretcher bond, one course")


def test_courses_may_end_on_half_slabs_by_turns() -> None:
    """Four and a half slabs: each course has one half, at either end by turns."""
    slabs, joint = (slab(0.6, 0.3), slab(0.2975, 0.3)), 0.005
    wanted = 4 * 0.605 + 0.2975, 5 * 0.305 - joint
    found = no_cut_sizes(slabs, Laying.stretcher_bond, JointRange(joint, joint), *wanted, 0.5)
    assert found.fits
    assert (found.sizes[0].slabs, found.sizes[0].half_slabs) == (20, 5)
    laid = layout(area(rectangle(*wanted)), Paving(slabs=slabs[:1], pattern=Pattern.stretcher_bond, joint=joint))
    assert (laid.slabs_whole, laid.slabs_cut) == (20, 5)
