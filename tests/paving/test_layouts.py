"""Layouts as asked for: what is counted, what is refused, and what doesn't change."""

import math
from dataclasses import replace
from fractions import Fraction

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from service.paving.areas import Area, area, circle, l_shape, polygon, rectangle
from service.paving.errors import OutOfRange
from service.paving.layouts import Detail, Effort, Layout, Pattern, Paving, Search, layout
from service.paving.slabs import Slab

FLAG = Slab("flag", 0.6, 0.6, 0.04)
BLOCK = Slab("block", 0.2, 0.1, 0.06)
STACKED = Paving(slabs=(FLAG,), pattern=Pattern.stack_bond)


def paving(pattern: Pattern, *sizes: tuple[float, float], **more: object) -> Paving:
    slabs = tuple(Slab(f"slab {k}", *size, 0.05) for k, size in enumerate(sizes))
    return replace(Paving(slabs=slabs, pattern=pattern), **more)  # type: ignore[arg-type]


SIX = [
    paving(Pattern.stack_bond, (0.4, 0.3)),
    paving(Pattern.stretcher_bond, (0.4, 0.2), offset=Fraction(1, 3)),
    paving(Pattern.herringbone_90, (0.3, 0.15)),
    paving(Pattern.herringbone_45, (0.3, 0.15)),
    paving(Pattern.basket_weave, (0.4, 0.2)),
    paving(Pattern.pinwheel, (0.3, 0.3), (0.15, 0.15)),
]
each_pattern = pytest.mark.parametrize("laid", SIX, ids=[laid.pattern.value for laid in SIX])


def counts(found: Layout) -> tuple[int, int, int]:
    return found.slabs_whole, found.slabs_cut, found.cut_pieces


# What is counted


def test_a_rectangle_of_whole_slabs_needs_no_cut() -> None:
    found = layout(area(rectangle(4.835, 3.625)), replace(STACKED, joint=0.005))
    assert counts(found) == (48, 0, 0)
    assert found.thinnest_cut is None
    assert found.slabs_to_buy == found.slabs_to_buy_bound == 48
    assert found.waste == pytest.approx(0, abs=1e-12)
    assert found.sawing_length == 0
    assert found.joint_length == pytest.approx(7 * 3.625 + 5 * 4.835)
    assert found.joint_area == pytest.approx(4.835 * 3.625 - 48 * 0.36)


def test_a_strip_thinner_than_half_a_millimetre_is_not_laid() -> None:
    assert counts(layout(area(rectangle(4.8004, 3.6)), STACKED)) == (48, 0, 0)
    assert counts(layout(area(rectangle(4.8006, 3.6)), STACKED)) == (48, 6, 6)


def test_a_strip_thinner_than_half_a_millimetre_is_not_sawn_off() -> None:
    assert counts(layout(area(rectangle(4.7996, 3.6)), STACKED)) == (48, 0, 0)
    assert counts(layout(area(rectangle(4.7994, 3.6)), STACKED)) == (42, 6, 6)


def test_an_opening_that_divides_the_area_leaves_two_pieces_of_a_slab() -> None:
    found = layout(area(rectangle(1.8, 1.2), [rectangle(0.2, 1.2).at(0.8, 0)]), STACKED)
    assert counts(found) == (4, 2, 4)
    assert found.thinnest_cut == pytest.approx(0.2)
    assert found.sawing_length == pytest.approx(2 * 1.2)


def test_nothing_is_sawn_where_an_opening_lies_along_the_outline() -> None:
    found = layout(area(rectangle(1.8, 1.2), [rectangle(0.3, 0.3).at(0, 0)]), STACKED)
    assert counts(found) == (5, 1, 1)
    assert found.sawing_length == pytest.approx(0.6)


def test_an_opening_inside_one_slab_leaves_a_ring() -> None:
    found = layout(area(rectangle(1.8, 1.8), [circle(0.2).at(0.8, 0.8)]), replace(STACKED, detail=Detail.pieces))
    assert counts(found) == (8, 1, 1)
    (ring,) = [piece for piece in found.pieces if not piece.whole]
    outer, inner = (shapely.Polygon(outline) for outline in ring.outlines)
    assert outer.exterior.is_ccw
    assert not inner.exterior.is_ccw
    assert outer.area - inner.area == pytest.approx(0.36 - math.pi * 0.01, abs=1e-6)


def test_a_grain_of_a_corner_is_no_piece() -> None:
    """The corner of a turned square reaches half a millimetre into the next slab."""
    tip = area(polygon(((0.0, 0.6), (0.6, 0.0), (1.2005, 0.6), (0.6, 1.2)), {}))
    assert layout(tip, STACKED).slabs_cut == 4


def test_a_circle_touching_the_joints_is_cut_at_the_rim_only() -> None:
    found = layout(area(circle(2.4)), STACKED)
    assert counts(found) == (4, 12, 12)
    assert found.paved_area == pytest.approx(math.pi * 1.44, abs=1e-4)


def test_slivers_are_cuts_thinner_than_a_third_of_the_slab() -> None:
    assert layout(area(rectangle(1.399, 1.2)), STACKED).slivers == 2
    assert layout(area(rectangle(1.4, 1.2)), STACKED).slivers == 0


def test_slabs_are_counted_by_size() -> None:
    """As drawn in tests/drawings/pinwheel.txt."""
    found = layout(area(rectangle(1.5, 0.9)), paving(Pattern.pinwheel, (0.15, 0.15), (0.3, 0.3)))
    assert [(size.name, size.whole, size.cut) for size in found.by_slab] == [("slab 0", 12, 0), ("slab 1", 9, 6)]


def test_the_depth_of_the_answer_changes_no_count() -> None:
    land = area(l_shape(4.0, 3.0, 1.3, 1.1), [circle(0.7).at(1.0, 1.0)])
    answers = [layout(land, replace(SIX[1], angle=0.4, detail=detail)) for detail in Detail]
    assert len({counts(found) for found in answers}) == 1
    assert [len(found.pieces) for found in answers] == [0, 0, answers[0].slabs_whole + answers[0].slabs_cut]


def test_herringbone_45_is_herringbone_90_turned_by_45_degrees() -> None:
    land = area(rectangle(3.0, 2.0))
    turned = layout(land, replace(SIX[2], angle=math.pi / 4))
    assert counts(layout(land, SIX[3])) == counts(turned)


def test_the_joints_of_a_block_take_the_published_part_of_the_area() -> None:
    """TILE-43: 200 x 100 with 3 mm joints, 4.347 % of the area, full modules."""
    found = layout(area(rectangle(20.3, 10.3)), paving(Pattern.stack_bond, (0.2, 0.1), joint=0.003))
    inner = found.paved_area / (20.3 * 10.3)
    assert 1 - inner == pytest.approx(0.04347, abs=0.0001)


# What doesn't change

whole_centimetres = st.integers(min_value=60, max_value=300).map(lambda n: n / 100)
angles = st.sampled_from((0.0, math.pi / 2, 0.3, 1.1, -2.0))


@each_pattern
@given(length=whole_centimetres, width=whole_centimetres, notch=st.integers(1, 5), angle=angles)
def test_slabs_never_overlap_and_with_the_joints_fill_the_area(
    laid: Paving, length: float, width: float, notch: int, angle: float
) -> None:
    land = area(l_shape(length, width, length * notch / 7, width / 3))
    found = layout(land, replace(laid, angle=angle, joint=0.004 * notch, detail=Detail.pieces))
    faces = [face(piece) for piece in found.pieces]
    together = shapely.union_all(faces).area
    assert sum(shape.area for shape in faces) == pytest.approx(together, abs=1e-6)
    inside = shapely.intersection(shapely.union_all(faces), shapely.Polygon(land.rings[0])).area
    assert inside == pytest.approx(found.paved_area, abs=1e-5)
    assert found.paved_area + found.joint_area == pytest.approx(land.net, abs=1e-9)


@pytest.mark.parametrize("laid", [laid for laid in SIX if laid.pattern is not Pattern.herringbone_45])
@given(length=whole_centimetres, width=whole_centimetres)
def test_doubling_every_length_changes_no_count(laid: Paving, length: float, width: float) -> None:
    # Not at 45 degrees, where whole micrometres are no multiple of the other's.
    double = tuple(replace(slab, length=2 * slab.length, width=2 * slab.width) for slab in laid.slabs)
    once = layout(area(rectangle(length, width)), replace(laid, joint=0.01))
    twice = layout(area(rectangle(2 * length, 2 * width)), replace(laid, slabs=double, joint=0.02))
    assert counts(once) == counts(twice)
    assert twice.sawing_length == pytest.approx(2 * once.sawing_length, abs=1e-6)
    assert twice.joint_length == pytest.approx(2 * once.joint_length, abs=1e-5)
    assert twice.paved_area == pytest.approx(4 * once.paved_area, abs=1e-6)


@each_pattern
@given(side=whole_centimetres, x=st.integers(-40, 40), y=st.integers(-40, 40))
def test_turning_a_square_with_its_pattern_changes_no_count(laid: Paving, side: float, x: int, y: int) -> None:
    """A quarter turn about the middle of the square takes it onto itself, and the origin along."""
    place = (x / 100, y / 100)
    turned = (side - place[1], place[0])
    land = area(rectangle(side, side))
    found = layout(land, replace(laid, origin=place))
    again = layout(land, replace(laid, origin=turned, angle=math.pi / 2))
    assert counts(found) == counts(again)
    assert found.paved_area == pytest.approx(again.paved_area, abs=1e-6)


@each_pattern
@given(x=st.integers(-500, 500), y=st.integers(-500, 500), angle=angles)
def test_moving_the_area_with_its_pattern_changes_nothing(laid: Paving, x: int, y: int, angle: float) -> None:
    shape = l_shape(2.2, 1.7, 0.9, 0.6)
    corners = tuple((px + x / 100, py + y / 100) for px, py in shape.outline.points)
    here = layout(area(shape), replace(laid, angle=angle))
    there = layout(area(polygon(corners, {})), replace(laid, angle=angle, origin=(x / 100, y / 100)))
    assert counts(here) == counts(there)
    assert here.sawing_length == pytest.approx(there.sawing_length, abs=1e-4)


@each_pattern
def test_moving_the_origin_by_one_repeat_changes_nothing(laid: Paving) -> None:
    land = area(polygon(((0, 0), (2.3, 0.4), (1.9, 1.7), (0.8, 1.1)), {}))
    found = layout(land, replace(laid, joint=0.01))
    (ux, uy), units = found.laid.counted.lattice.u, found.laid.counted.lattice.units
    x, y = found.laid.frame.to_plan(ux / units, uy / units)
    again = layout(land, replace(laid, joint=0.01, origin=(float(x), float(y))))
    assert counts(found) == counts(again)


def face(piece) -> shapely.Geometry:  # type: ignore[no-untyped-def]
    """A slab as laid, as a shape on plan."""
    if piece.outlines:
        return shapely.union_all([shapely.Polygon(ring) for ring in piece.outlines])
    cosine, sine = math.cos(piece.angle), math.sin(piece.angle)
    sides = ((0, 0), (piece.length, 0), (piece.length, piece.width), (0, piece.width))
    return shapely.Polygon([(piece.x + a * cosine - b * sine, piece.y + a * sine + b * cosine) for a, b in sides])


# What is refused


def refused(asked: Paving, land: Area | None = None) -> OutOfRange:
    with pytest.raises(OutOfRange) as caught:
        layout(land or area(rectangle(6.0, 4.0)), asked)
    return caught.value


@pytest.mark.parametrize(
    ("wanted", "place", "says"),
    [
        (paving(Pattern.stack_bond), ("slabs",), "needs a slab"),
        (paving(Pattern.stack_bond, (0.6, 0.6), (0.3, 0.3)), ("slabs", 1), "one size"),
        (paving(Pattern.stack_bond, (0.6, 0.001)), ("slabs", 0, "width"), "10 mm to"),
        (paving(Pattern.stack_bond, (5.0, 0.3)), ("slabs", 0, "length"), "3000 mm"),
        (paving(Pattern.herringbone_90, (0.2, 0.2)), ("slabs", 0), "longer than wide"),
        (paving(Pattern.herringbone_45, (0.1, 0.2)), ("slabs", 0), "two to one"),
        (paving(Pattern.basket_weave, (0.3, 0.1), joint=0.003), ("slabs", 0), "203 mm"),
        (paving(Pattern.pinwheel, (0.3, 0.3)), ("slabs",), "two sizes"),
        (paving(Pattern.pinwheel, (0.3, 0.3), (0.2, 0.1)), ("slabs", 1), "square"),
        (paving(Pattern.pinwheel, (0.3, 0.3), (0.3, 0.3)), ("slabs", 1), "larger"),
        (replace(STACKED, joint=0.06), ("joint",), "0 to 50 mm"),
        (paving(Pattern.stack_bond, (0.02, 0.02), joint=0.03), ("joint",), "0 to 20 mm"),
        (replace(STACKED, joint=-0.001), ("joint",), "0 to"),
        (replace(STACKED, kerf=0.02), ("kerf",), "0 to 10 mm"),
        (replace(STACKED, pattern=Pattern.stretcher_bond, offset=Fraction(0)), ("offset",), "above 0"),
        (replace(STACKED, pattern=Pattern.stretcher_bond, offset=Fraction(3, 2)), ("offset",), "below 1"),
        (replace(STACKED, pattern=Pattern.stretcher_bond, offset=Fraction(1, 97)), ("offset",), "24"),
        (replace(STACKED, angle=7.0), ("angle",), "full turn"),
        (replace(STACKED, origin=(0.0, 2e6)), ("origin",), "1000 m"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_cannot_be_laid_is_refused_with_its_place(wanted: Paving, place: tuple[str | int, ...], says: str) -> None:
    error = refused(wanted)
    assert error.place == place
    assert says in error.detail


def test_a_slab_larger_than_the_area_is_refused() -> None:
    error = refused(STACKED, area(rectangle(0.5, 0.6)))
    assert error.place == ("slabs", 0)
    assert "0.36 m2" in error.detail


def test_a_slab_wider_than_a_path_is_cut() -> None:
    assert counts(layout(area(rectangle(3.0, 0.5)), STACKED)) == (0, 5, 5)


@pytest.mark.parametrize(
    ("detail", "side", "says"),
    [(Detail.pieces, 35.0, "About 116,000 slabs; at most 100,000"), (Detail.counts, 720.0, "About 49,200,000 slabs")],
)
def test_more_slabs_than_the_limit_are_refused(detail: Detail, side: float, says: str) -> None:
    small = paving(Pattern.stack_bond, (0.2, 0.1), detail=detail)
    error = refused(small, area(rectangle(side * 1.9, side)))
    assert error.place == ("slabs",)
    assert says in error.detail


def test_an_area_too_long_for_so_fine_an_offset_is_refused() -> None:
    long = paving(Pattern.stretcher_bond, (2.999, 1.0), offset=Fraction(1, 23), joint=0.0013)
    assert refused(long, area(rectangle(2000.0, 10.0))).place == ("area",)
    found = layout(area(rectangle(150.0, 10.0)), replace(long, detail=Detail.counts))
    assert found.paved_area + found.joint_area == pytest.approx(1500.0)


def test_counts_go_farther_than_pieces() -> None:
    found = layout(area(rectangle(200.0, 150.0)), replace(STACKED, slabs=(BLOCK,), detail=Detail.counts))
    assert counts(found) == (1_500_000, 0, 0)


def test_a_basket_weave_of_blocks_takes_up_their_joints() -> None:
    """Two widths and a joint are 203 mm, a length 200 mm: the joint at the ends of a pair takes the rest."""
    found = layout(area(rectangle(0.821, 0.615)), paving(Pattern.basket_weave, (0.2, 0.1), joint=0.003))
    assert counts(found) == (24, 0, 0)


# Where the pattern starts


def test_the_fewest_cuts_are_found_on_a_right_angled_area() -> None:
    land = area(l_shape(5.3, 4.7, 3.1, 1.6))
    laid = paving(Pattern.stretcher_bond, (0.6, 0.3), joint=0.005)
    best = layout(land, replace(laid, origin=Search.fewest_cuts))
    assert best.gap == 0
    assert best.search is not None
    assert best.search.startswith("all ")
    steps = [(x / 20 * 0.605, y / 20 * 0.305) for x in range(20) for y in range(20)]
    assert best.slabs_cut <= min(layout(land, replace(laid, origin=step)).slabs_cut for step in steps)
    again = layout(land, replace(laid, origin=best.origin))
    assert (again.slabs_cut, again.slivers) == (best.slabs_cut, best.slivers)


def test_the_fewest_slivers_may_cost_cuts() -> None:
    land = area(rectangle(4.5, 3.2))
    laid = replace(STACKED, joint=0.005)
    cuts, slivers = (layout(land, replace(laid, origin=aim)) for aim in Search)
    assert (cuts.slabs_cut, cuts.slivers) == (13, 8)
    assert (slivers.slabs_cut, slivers.slivers) == (20, 0)


def test_a_search_that_proves_nothing_says_so() -> None:
    found = layout(area(circle(3.0)), replace(STACKED, origin=Search.fewest_cuts))
    assert found.gap is None
    assert found.search is not None
    assert "another may be better" in found.search
    assert found.slabs_cut <= layout(area(circle(3.0)), STACKED).slabs_cut


def test_a_search_without_a_common_measure_says_so() -> None:
    """200 and 100 with a joint of 3 mm share no grid but millimetres: some slab lies flush wherever it starts."""
    land = area(rectangle(2.0, 1.5))
    laid = paving(Pattern.herringbone_90, (0.2, 0.1), joint=0.003)
    found = layout(land, replace(laid, origin=Search.fewest_slivers))
    assert found.gap is None
    assert found.slivers <= layout(land, laid).slivers


def test_a_search_that_stops_says_how_much_it_left_out() -> None:
    """A flight of twenty steps has more corners than there is time for."""
    steps = [(0.0, 0.0), (20 * 0.317, 0.0)]
    for k in range(20):
        steps += [((20 - k) * 0.317, (k + 1) * 0.293), ((19 - k) * 0.317, (k + 1) * 0.293)]
    land = area(polygon(tuple(steps), {}))
    laid = replace(STACKED, joint=0.005, effort=Effort.quick)
    found = layout(land, replace(laid, origin=Search.fewest_cuts))
    assert found.gap is None
    assert found.search is not None
    assert "more may be better" in found.search
    assert found.slabs_cut <= layout(land, laid).slabs_cut


def test_an_opening_inside_a_slab_of_a_divided_area_is_cut_out() -> None:
    openings = [rectangle(0.2, 1.2).at(0.8, 0), circle(0.2).at(0.2, 0.2)]
    found = layout(area(rectangle(1.8, 1.2), openings), replace(STACKED, detail=Detail.pieces))
    assert counts(found) == (3, 3, 5)
    assert found.paved_area == pytest.approx(1.8 * 1.2 - 0.24 - math.pi * 0.01, abs=1e-6)


def test_a_channel_through_a_row_leaves_two_pieces_of_each_slab_it_crosses() -> None:
    """Five by three and a third; the channel is 100 below the joint, so three slabs keep 400 and 100 of their 600."""
    found = layout(
        area(rectangle(3.0, 2.0), [rectangle(2.0, 0.1).at(0.5, 1.0)]), replace(STACKED, detail=Detail.counts)
    )
    assert counts(found) == (10, 10, 13)
    assert found.thinnest_cut == pytest.approx(0.1)
    assert found.slivers == 3


def test_a_post_in_a_slab_that_is_cut_anyway_is_cut_out_of_what_is_left() -> None:
    """A top row of half slabs, a post of 100 by 100 in one of them: 5 x 600 and 400 mm to saw."""
    found = layout(
        area(rectangle(3.0, 2.1), [rectangle(0.1, 0.1).at(0.2, 1.9)]), replace(STACKED, detail=Detail.pieces)
    )
    assert counts(found) == (15, 5, 5)
    assert found.sawing_length == pytest.approx(5 * 0.6 + 0.4)
    rings = [[shapely.Polygon(ring) for ring in piece.outlines] for piece in found.pieces if piece.outlines]
    faces = sorted(sum(ring.area if ring.exterior.is_ccw else -ring.area for ring in piece) for piece in rings)
    assert faces == pytest.approx([0.17, *[0.18] * 4])


def test_corners_that_a_drawing_gives_twice_change_nothing() -> None:
    """Drawing programs leave corners a fraction of a micrometre apart; an opening so small isn't there."""
    once = area(polygon([(0, 0), (2.0, 0), (2.0, 1.0), (0, 1.0)], {}))
    twice = area(polygon([(0, 0), (2.0, 0), (2.0, 3e-7), (2.0, 1.0), (0, 1.0)], {}))
    speck = area(rectangle(2.0, 1.0), [rectangle(3e-7, 3e-7).at(1.0, 0.5)])
    plain, doubled, specked = (layout(land, replace(STACKED, joint=0.005)) for land in (once, twice, speck))
    assert counts(plain) == counts(doubled) == counts(specked)
    assert plain.paved_area == doubled.paved_area == pytest.approx(specked.paved_area)


def test_a_search_over_a_large_area_looks_at_no_more_edge_than_it_may() -> None:
    """Setts along the rim of a ring 60 m wide: each origin is dear, so few are tried, and no more than are allowed."""
    land = area(circle(60.0))
    laid = paving(Pattern.stack_bond, (0.1, 0.1), detail=Detail.counts)
    found = layout(land, replace(laid, origin=Search.fewest_cuts))
    assert found.search is not None
    tried = int(found.search.split()[0])
    assert tried > 1
    assert tried * found.slabs_cut <= 400_000
    assert found.slabs_cut <= layout(land, laid).slabs_cut


# What is bought


def test_offcuts_save_slabs_and_never_undercut_the_bound() -> None:
    land = area(l_shape(5.3, 4.7, 3.1, 1.6))
    laid = paving(Pattern.stretcher_bond, (0.6, 0.3), joint=0.005, kerf=0.003)
    each, quick, thorough = (
        layout(land, replace(laid, **how))
        for how in ({"detail": Detail.counts}, {"effort": Effort.quick}, {"effort": Effort.thorough})
    )
    assert each.slabs_to_buy == each.slabs_whole + each.slabs_cut
    assert each.slabs_to_buy > quick.slabs_to_buy >= thorough.slabs_to_buy >= thorough.slabs_to_buy_bound
    assert each.slabs_to_buy_bound <= thorough.slabs_to_buy
    assert [found.effort for found in (each, quick, thorough)] == [None, Effort.quick, Effort.thorough]
    assert thorough.waste == pytest.approx(1 - thorough.paved_area / (thorough.slabs_to_buy * 0.18))


def test_very_many_cut_slabs_are_looked_at_quickly() -> None:
    found = layout(area(circle(90.0)), replace(STACKED, joint=0.005))
    assert found.slabs_cut > 500
    assert found.effort is Effort.quick


def test_the_two_sizes_of_a_pinwheel_are_bought_apart() -> None:
    found = layout(area(rectangle(1.5, 0.9)), paving(Pattern.pinwheel, (0.15, 0.15), (0.3, 0.3)))
    small, large = found.by_slab
    assert small.to_buy == small.whole
    assert large.whole < large.to_buy <= large.whole + large.cut
    assert found.slabs_to_buy == small.to_buy + large.to_buy
