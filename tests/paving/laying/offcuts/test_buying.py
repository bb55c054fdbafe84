"""Slabs to buy: every cutting can be sawn, and the bound never passes the count."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.paving.errors import BrokenIdentity
from service.paving.laying.offcuts import Effort, MadeEdges, Turning
from tests.paving.laying.offcuts.judges import RULES, CutPiece, Job, faults, jobs, piece, rectangle, slabs_to_buy

SLAB = (600_000, 400_000)
FREE = (Turning.none, MadeEdges.free)


@settings(max_examples=150)
@given(jobs(), st.sampled_from(list(Effort)), RULES["kerf"], RULES["turning"], RULES["made_edges"])
def test_every_cutting_can_be_sawn_as_the_rules_say(
    job: Job, effort: Effort, kerf: int, turning: Turning, made_edges: MadeEdges
) -> None:
    cuts, length, width = job
    bought = slabs_to_buy(cuts, length, width, kerf, turning, made_edges, effort)
    assert faults(cuts, bought, (length, width), kerf, turning, made_edges) == []
    assert bought.bound <= bought.slabs <= len({cut.place for cut in cuts})


@settings(max_examples=40)
@given(jobs(), RULES["kerf"], RULES["turning"])
def test_a_thorough_search_buys_no_more_than_a_quick_one(job: Job, kerf: int, turning: Turning) -> None:
    cuts, length, width = job
    quick, thorough = (
        slabs_to_buy(cuts, length, width, kerf, turning, MadeEdges.free, effort).slabs for effort in Effort
    )
    assert thorough <= quick


@settings(max_examples=20)
@given(jobs(), st.sampled_from(list(Effort)), RULES["turning"], RULES["made_edges"])
def test_the_same_pieces_always_come_to_the_same_cutting(
    job: Job, effort: Effort, turning: Turning, made_edges: MadeEdges
) -> None:
    cuts, length, width = job
    first, second = (slabs_to_buy(cuts, length, width, 3000, turning, made_edges, effort) for _ in range(2))
    assert (first.slabs, first.bound, first.sources) == (second.slabs, second.bound, second.sources)


@pytest.mark.parametrize("effort", Effort)
def test_no_pieces_need_no_slabs(effort: Effort) -> None:
    bought = slabs_to_buy([], *SLAB, 3000, *FREE, effort)
    assert (bought.slabs, bought.bound, bought.sources, bought.least) == (0, 0, (), True)


@pytest.mark.parametrize("effort", Effort)
def test_a_piece_outside_its_slab_is_refused(effort: Effort) -> None:
    with pytest.raises(BrokenIdentity, match="outside the slab"):
        slabs_to_buy([rectangle(0, 100_000, 400_001)], *SLAB, 3000, *FREE, effort)


@pytest.mark.parametrize("effort", Effort)
def test_two_halves_less_the_kerf_come_from_one_slab(effort: Effort) -> None:
    halves = [rectangle(k, 298_500, 400_000) for k in range(2)]
    bought = slabs_to_buy(halves, *SLAB, 3000, *FREE, effort)
    assert (bought.slabs, bought.bound, bought.least) == (1, 1, True)


@pytest.mark.parametrize("effort", Effort)
def test_two_halves_a_hair_too_long_for_the_kerf_need_two_slabs(effort: Effort) -> None:
    halves = [rectangle(k, 298_520, 400_000) for k in range(2)]
    assert slabs_to_buy(halves, *SLAB, 3000, *FREE, effort).slabs == 2


def test_two_halves_without_room_for_the_blade_are_proved_to_need_two_slabs() -> None:
    halves = [rectangle(k, 299_900, 400_000) for k in range(2)]
    bought = slabs_to_buy(halves, *SLAB, 3000, *FREE, Effort.thorough)
    assert (bought.slabs, bought.bound, bought.bound_model) == (2, 2, "areas")


def test_a_piece_that_only_fits_turned_is_turned_where_that_is_allowed() -> None:
    #  a strip as long as the slab is wide, beside one nearly as long as the slab
    strips = [rectangle(0, 498_000, 400_000), rectangle(1, 390_000, 99_000)]
    none, quarter = (slabs_to_buy(strips, *SLAB, 3000, t, MadeEdges.free, Effort.quick) for t in Turning)
    assert (none.slabs, quarter.slabs, quarter.sources[1].turns) == (2, 1, 1)


def test_five_strips_come_from_one_slab_if_made_edges_are_given_up_and_two_if_not() -> None:
    #  each strip has the made edge on its left, and a slab has two edges to give
    strips = [rectangle(k, 117_600, 400_000) for k in range(5)]
    kept, free = (slabs_to_buy(strips, *SLAB, 3000, Turning.none, m, Effort.thorough) for m in MadeEdges)
    assert (kept.slabs, kept.bound, free.slabs, free.bound) == (3, 3, 1, 1)


@pytest.mark.parametrize(("made_edges", "slabs"), [(MadeEdges.kept, 1), (MadeEdges.free, 1)])
def test_two_triangles_that_leave_the_blade_its_room_come_from_one_slab(made_edges: MadeEdges, slabs: int) -> None:
    #  +------+
    #  | A  / /|
    #  |  / /  |    legs 5 mm short of the slab: 3.5 mm between the long sides
    #  | / / B |
    #  +-------+
    triangle = [(0, 0), (594_000, 0), (0, 396_000)]
    bought = slabs_to_buy(
        [piece(k, triangle) for k in range(2)], *SLAB, 3000, Turning.none, made_edges, Effort.thorough
    )
    assert (bought.slabs, bought.model, bought.least) == (slabs, "true_shapes", True)


def test_two_triangles_as_large_as_half_a_slab_leave_no_room_for_the_blade() -> None:
    triangle = [(0, 0), (600_000, 0), (0, 400_000)]
    bought = slabs_to_buy([piece(k, triangle) for k in range(2)], *SLAB, 3000, *FREE, Effort.thorough)
    assert (bought.slabs, bought.bound) == (2, 2)


def test_triangles_are_cut_in_pairs_where_rectangles_would_take_one_each() -> None:
    triangles = [piece(k, [(0, 0), (590_000, 0), (0, 390_000)]) for k in range(10)]
    quick, thorough = (slabs_to_buy(triangles, *SLAB, 3000, *FREE, effort) for effort in Effort)
    assert (quick.slabs, thorough.slabs, thorough.bound) == (10, 5, 5)
    assert thorough.bound_model in ("areas", "pairs")


def test_three_pieces_of_less_than_half_a_slab_that_can_not_share_are_proved_to_need_three() -> None:
    #  a cross of two bars would overlap wherever they lie: 350 of 600 by 250 of 400 each way
    blocks = [rectangle(k, 301_000, 201_000) for k in range(3)]
    bought = slabs_to_buy(blocks, *SLAB, 3000, *FREE, Effort.thorough)
    assert (bought.slabs, bought.bound, bought.bound_model) == (3, 3, "pairs")


@pytest.mark.parametrize("number", [8, 100])
def test_blocks_that_leave_a_gap_too_narrow_for_the_blade_are_proved_to_need_one_slab_each(number: int) -> None:
    #  two lie 2 mm apart at most: the blade takes 3
    blocks = [rectangle(k, 299_000, 250_000) for k in range(number)]
    bought = slabs_to_buy(blocks, *SLAB, 3000, *FREE, Effort.thorough)
    assert (bought.slabs, bought.bound, bought.bound_model) == (number, number, "pairs")


def test_such_blocks_too_many_and_too_different_to_measure_are_let_share_in_the_bound() -> None:
    blocks = [rectangle(k, 299_000 + k, 250_000) for k in range(130)]
    bought = slabs_to_buy(blocks, *SLAB, 3000, *FREE, Effort.thorough)
    assert bought.slabs == 130
    assert 40 <= bought.bound < 130


def test_pieces_of_one_slab_closer_than_the_kerf_still_come_from_that_slab() -> None:
    sides = [rectangle(7, 299_500, 400_000), rectangle(7, 299_500, 400_000, x=300_500)]
    for effort in Effort:
        for made_edges in MadeEdges:
            bought = slabs_to_buy(sides, *SLAB, 3000, Turning.none, made_edges, effort)
            assert (bought.slabs, bought.bound) == (1, 1)


def test_strips_and_triangles_together_are_cut_partly_by_rectangles_partly_by_shape() -> None:
    strips = [rectangle(k, 95_000, 400_000) for k in range(12)]
    triangles = [piece(20 + k, [(0, 0), (590_000, 0), (0, 390_000)]) for k in range(6)]
    bought = slabs_to_buy([*strips, *triangles], *SLAB, 3000, *FREE, Effort.thorough)
    assert bought.slabs == 2 + 3
    assert faults([*strips, *triangles], bought, SLAB, 3000, *FREE) == []


def test_hundreds_of_pieces_are_dealt_in_lots_that_can_be_sawn() -> None:
    cuts: list[CutPiece] = []
    for k in range(300):
        cut = 100_000 + 1_600 * k
        cuts.append(piece(k, [(0, 0), (cut, 0), (max(0, cut - 200_000), 400_000), (0, 400_000)]))
    for effort in Effort:
        bought = slabs_to_buy(cuts, *SLAB, 3000, *FREE, effort)
        assert faults(cuts, bought, SLAB, 3000, *FREE) == []
        assert bought.bound <= bought.slabs < 300
        assert bought.bound_model == "areas"
