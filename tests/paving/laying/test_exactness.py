"""Where rounding would show: corners on joints, edges at 45 degrees, thirds, and great distances."""

import math
import random
from fractions import Fraction

import numpy as np
import pytest

from service.paving.errors import BrokenIdentity
from service.paving.laying.counts import Counted, counted
from service.paving.laying.cuts import Cuts
from service.paving.laying.grounds import Frame, ground
from service.paving.laying.lattices import Box, Repeat, Tile, lattice, patch
from service.paving.laying.patterns.herringbone import herringbone
from service.paving.laying.patterns.stack_bond import stack_bond
from service.paving.laying.patterns.stretcher_bond import stretcher_bond
from service.paving.laying.pieces import courses, cut_pieces, cut_slabs, whole_keys, whole_slabs
from tests.paving.laying.rationals import tally
from tests.paving.laying.samples import PATTERNS, Ring, rectangle, repeats
from tests.paving.laying.test_rationals import micrometres


def laid(rings: list[Ring], repeat: Repeat, frame: Frame | None = None) -> Counted:
    made = lattice(repeat)
    return counted(ground(rings, frame or Frame(), made.fineness), made)


def slabs(found: Counted) -> tuple[int, int]:
    return int(found.whole_by_tile.sum()), int(found.cut_by_tile.sum())


def test_an_edge_at_45_degrees_through_every_corner_halves_the_slabs_on_it() -> None:
    """300 squares on the diagonal are cut in half; below it lie the whole ones."""
    side = 300 * 0.2
    found = laid([[(0.0, 0.0), (side, 0.0), (side, side)]], stack_bond(200_000, 200_000, 0))
    assert slabs(found) == (300 * 299 // 2, 300)
    assert found.paved_area == pytest.approx(side * side / 2, abs=1e-9)


@pytest.mark.parametrize("shift", [0.1e-6, 0.3e-6, 0.9e-6, 2e-6])
def test_an_edge_a_hair_beside_every_corner_still_adds_up(shift: float) -> None:
    """The sum of slabs and joints is checked to a square millimetre by the count itself."""
    side = 300 * 0.2
    frame = Frame((shift, 0.0), math.pi / 4)
    found = laid([rectangle(side, side / 3)], herringbone(200_000, 100_000, 0), frame)
    assert sum(slabs(found)) > 60_000
    assert found.paved_area == pytest.approx(side * side / 3, abs=1e-4)


def test_thirds_stay_thirds_over_a_thousand_courses() -> None:
    """Every third course begins with a whole slab, however far up it is."""
    pitch, width = 0.605, 0.305
    thirds = stretcher_bond(600_000, 300_000, 5_000, Fraction(1, 3))
    found = laid([rectangle(10 * pitch - 0.005, 999 * width - 0.005)], thirds)
    assert slabs(found) == (333 * (10 + 9 + 9), 2 * 666)


def test_a_reference_point_on_an_edge_is_decided_by_whole_numbers() -> None:
    """Edges drawn exactly through the reference points of slabs: the count agrees with exact fractions."""
    repeat = stack_bond(200_000, 100_000, 0)
    # Through (1/4, 1/2) micrometre and its like: y = 2 x, and y = x / 2 + 3/8 put on whole micrometres.
    for tip in ((400_000, 800_000), (800_000, 400_000), (600_000, 600_000)):
        rings = [[(0.0, 0.0), (1.2, 0.0), (tip[0] / 1e6, tip[1] / 1e6)]]
        found = laid(rings, repeat)
        exact = tally(micrometres(found.ground, found.lattice.fineness), repeat)
        assert slabs(found) == (exact.whole, exact.cut)
        assert found.paved_area == pytest.approx(float(exact.area) / 1e12, abs=1e-15)


@pytest.mark.parametrize("far", [0.0, 317.0, 950.0])
def test_a_far_origin_changes_nothing(far: float) -> None:
    ring = [(far, far), (far + 2.03, far + 0.41), (far + 1.3, far + 2.2)]
    here = [(x - far, y - far) for x, y in ring]
    blocks = herringbone(200_000, 100_000, 3_000)
    assert slabs(laid([ring], blocks, Frame((far, far), 0.7))) == slabs(laid([here], blocks, Frame((0.0, 0.0), 0.7)))


def test_a_million_slabs_are_counted_to_the_last() -> None:
    found = laid([rectangle(600.0, 600.0)], stack_bond(595_000, 595_000, 5_000))
    assert slabs(found) == (1_000_000, 0)


def test_no_slab_is_lost_in_the_joints() -> None:
    """An area that ends in the middle of a joint has all its slabs whole."""
    found = laid([rectangle(3.025, 3.025)], stack_bond(600_000, 600_000, 5_000), Frame((0.0025, 0.0025)))
    assert slabs(found) == (25, 0)


def test_an_area_inside_a_joint_holds_no_slab() -> None:
    found = laid([rectangle(0.004, 0.004)], stack_bond(600_000, 600_000, 10_000), Frame((0.007, 0.007)))
    assert slabs(found) == (0, 0)
    assert found.joint_length == pytest.approx(0.008)


def test_cells_that_leave_a_hole_are_refused() -> None:
    box = Box(0, 0, 200, 100)
    with pytest.raises(BrokenIdentity, match="don't cover"):
        lattice(Repeat((210, 0), (0, 100), (Tile(0, box, box),)))


# Slabs that don't repeat


def spread(repeat: Repeat, reach: int) -> tuple[Tile, ...]:
    """Every slab of a repeat within a reach of (0, 0), one by one."""
    tiles = []
    for p in range(-40, 41):
        for q in range(-40, 41):
            x, y = p * repeat.u[0] + q * repeat.v[0], p * repeat.u[1] + q * repeat.v[1]
            for tile in repeat.tiles:
                if max(abs(tile.cell.x + x), abs(tile.cell.y + y)) < reach:
                    tiles.append(Tile(tile.slab, moved(tile.box, x, y), moved(tile.cell, x, y), tile.quarter_turns))
    return tuple(tiles)


def moved(box: Box, x: Fraction | int, y: Fraction | int) -> Box:
    return Box(box.x + x, box.y + y, box.length, box.width)


@pytest.mark.parametrize("pattern", PATTERNS)
def test_slabs_listed_one_by_one_count_like_their_pattern(pattern: str) -> None:
    rng = random.Random(pattern)
    ring = [(-0.4, 0.0), (0.1, -0.6), (0.9, 0.1), (0.3, 0.8), (0.2, 0.2)]
    for _ in range(5):
        repeated = repeats(pattern, rng)
        land = ground([ring], Frame((0.0, 0.0), rng.random()), repeated.fineness)
        alone = patch(spread(repeated.repeat, 2_000_000), 20_000_000)
        by_pattern, one_by_one = counted(land, repeated), counted(land, alone)
        assert slabs(by_pattern) == slabs(one_by_one)
        assert by_pattern.paved_area == pytest.approx(one_by_one.paved_area, abs=1e-12)
        assert by_pattern.joint_length == pytest.approx(one_by_one.joint_length, abs=1e-9)


def test_a_slab_missing_from_the_list_breaks_the_sum() -> None:
    repeat = stack_bond(300_000, 300_000, 5_000)
    tiles = spread(repeat, 3_000_000)
    short = patch(tuple(tile for tile in tiles if (tile.box.x, tile.box.y) != (305_000, 305_000)), 20_000_000)
    with pytest.raises(BrokenIdentity, match="differ from the area"):
        counted(ground([rectangle(1.5, 1.5)], Frame(), short.fineness), short)


# The same slabs, listed in other ways


@pytest.mark.parametrize("pattern", PATTERNS)
def test_courses_hold_every_whole_slab_once(pattern: str) -> None:
    made = repeats(pattern, random.Random(pattern))
    frame = Frame((0.2, 0.1), 0.3)
    found = counted(ground([rectangle(3.0, 2.0), [(1.0, 1.0), (1.2, 1.5), (1.6, 1.1)]], frame, made.fineness), made)
    whole = whole_slabs(Cuts(found), frame, ("one", "other"))
    assert sum(course.slabs for course in courses(found)) == len(whole) == whole_keys(found).size
    (ux, uy), units = made.u, made.units
    corners = set()
    for course in courses(found):
        across = made.boxes[2, course.tile] / units if made.repeat.tiles[course.tile].quarter_turns else 0.0
        for k in range(course.slabs):
            x, y = frame.to_plan(course.x + k * ux / units + across, course.y + k * uy / units)
            corners.add((round(float(x), 6), round(float(y), 6)))
    assert corners == {(round(piece.x, 6), round(piece.y, 6)) for piece in whole}


@pytest.mark.parametrize("pattern", PATTERNS)
def test_a_piece_on_its_own_slab_is_the_piece_on_plan(pattern: str) -> None:
    made = repeats(pattern, random.Random("own" + pattern))
    frame = Frame((0.2, 0.1), 0.3)
    cuts = Cuts(counted(ground([rectangle(1.0, 0.8)], frame, made.fineness), made))
    on_plan = {k: iter(piece.outlines) for k, piece in enumerate(cut_slabs(cuts, frame, ("one", "other")))}
    pieces = cut_slabs(cuts, frame, ("one", "other"))
    for drawn in cut_pieces(cuts, 2):
        for place, (outline, *_) in zip(drawn.places.tolist(), drawn.outlines, strict=True):
            slab = pieces[place]
            cosine, sine = math.cos(slab.angle), math.sin(slab.angle)
            along, across = np.array(outline).T / 1e6
            on_slab = np.array([slab.x + along * cosine - across * sine, slab.y + along * sine + across * cosine]).T
            assert np.allclose(on_slab, next(on_plan[place]), atol=2e-6)
            assert along.min() >= 0
            assert across.min() >= 0
            assert along.max() <= round(slab.length, 6)
            assert across.max() <= round(slab.width, 6)
    assert [next(rest, None) for rest in on_plan.values()] == [None] * len(on_plan)
