"""Edgings: counted against slabs laid one by one in shapely, measured against its offsets."""

import math
import random

import pytest
import shapely
from shapely import affinity

from service.paving.areas import area, circle, l_shape, polygon, rectangle
from service.paving.courses import Corner, Course, Lie, Run
from service.paving.edgings import Around, Edges, Edging, EdgingSlab, edging
from service.paving.errors import ImpossibleShape, OutOfRange
from service.paving.haunches import Haunch
from service.paving.laying_courses import Recipe
from service.paving.mixes import Consistence, Parts, SandState, mix_basis
from service.paving.outlines import Outline, outline
from service.paving.runs import runs_along
from service.paving.sheets import Sheet
from service.paving.sides import sides_of

KERB = EdgingSlab(0.915, 0.125, 0.006)
SECTION = Haunch(0.300, 0.150, 0.100, 0.150)
#: What can't be sawn off as a piece of its own [m].
LEAST = 0.005


def star(rng: random.Random, corners: int) -> Outline:
    """A random outline whose corners stand round a middle, some pointing in, none nearly straight."""
    while True:
        turns = sorted(rng.uniform(0, 0.8) + k for k in range(corners))
        reach = [rng.uniform(3, 9) for _ in range(corners)]
        angles = [t * 2 * math.pi / corners for t in turns]
        drawn = outline(tuple((r * math.cos(t), r * math.sin(t)) for r, t in zip(reach, angles, strict=True)))
        if all(abs(side.turn) > 0.05 for side in sides_of(drawn)):
            return drawn


def strips(drawn: Outline, course: Course) -> list[shapely.Geometry]:
    """The mitred strip along each side, by shapely's offset and the lines between its corners."""
    body = shapely.Polygon(drawn.points)
    away = course.across * course.outwards
    other = body.buffer(away, join_style="mitre", mitre_limit=50)
    ring = other.difference(body) if away > 0 else body.difference(other)
    far = list(other.exterior.coords)[:-1]
    mitres = [
        shapely.LineString((near, min(far, key=lambda p, near=near: math.dist(near, p)))) for near in drawn.points
    ]
    lengthened = [affinity.scale(line, 1.5, 1.5) for line in mitres]
    cuts = shapely.union_all([line.buffer(max(course.joint / 2, 1e-9), cap_style="flat") for line in lengthened])
    parts = list(ring.difference(cuts).geoms)
    found = []
    for start, end in drawn.sides:
        middle = shapely.Point((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        part = min(parts, key=middle.distance)
        angle = -math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
        found.append(affinity.rotate(part, angle, origin=start))
    return found


def laid_one_by_one(strip: shapely.Geometry, course: Course) -> tuple[int, int]:
    """Slabs and cut slabs of a strip that lies along x, each clipped out of it."""
    left, low, right, high = strip.bounds
    whole = cut = 0
    for k in range(math.ceil((right - left) / course.pitch) + 1):
        at = left + k * course.pitch
        piece = shapely.box(at, low - 1, at + course.along, high + 1).intersection(strip)
        if piece.is_empty or piece.bounds[2] - piece.bounds[0] <= LEAST:
            continue
        full = piece.area > course.along * course.across - 5e-10
        whole, cut = whole + full, cut + (not full)
    return whole + cut, cut


def test_mitred_runs_take_the_slabs_that_shapely_counts_one_by_one() -> None:
    rng, compared = random.Random(5), 0
    for _ in range(150):
        drawn = star(rng, rng.randint(3, 7))
        lie = rng.choice(list(Lie))
        course = Course(rng.uniform(0.1, 1.0), rng.uniform(0.05, 0.3), rng.choice([0.0, 0.004, 0.01]), lie)
        try:
            runs = runs_along(Sheet(), drawn, course)
        except ImpossibleShape:
            continue
        expected = [laid_one_by_one(strip, course) for strip in strips(drawn, course)]
        assert [(run.slabs, run.cut) for run in runs] == expected
        compared += len(runs)
    assert compared > 400


@pytest.mark.parametrize("corner", Corner)
@pytest.mark.parametrize("lie", Lie)
def test_the_middle_line_times_the_width_is_the_area_that_shapely_offsets(lie: Lie, corner: Corner) -> None:
    rng = random.Random(7)
    shapes = [l_shape(7.2, 5.4, 2.4, 1.8).outline, rectangle(4, 3).outline, *(star(rng, 5) for _ in range(20))]
    compared = 0
    for drawn in shapes:
        course = Course(0.6, 0.15, 0.0, lie, corner)
        try:
            runs = runs_along(Sheet(), drawn, course)
        except ImpossibleShape:
            continue
        body = shapely.Polygon(drawn.points)
        ring = body.symmetric_difference(body.buffer(0.15 * course.outwards, join_style="mitre", mitre_limit=50))
        assert sum(run.length for run in runs) * 0.15 == pytest.approx(ring.area, rel=1e-9)
        compared += 1
    assert compared >= 15


def drawing(runs: tuple[Run, ...]) -> list[tuple[int, int, float]]:
    return [(run.slabs, run.cut, round(run.closing_length, 6)) for run in runs]


def test_butted_kerbs_round_a_rectangle_run_past_one_corner_and_butt_at_the_next() -> None:
    # 3 x 2 m, kerbs 1 m by 0.1 m, no joint: every run gains its own width at the end it runs past.
    course = Course(1.0, 0.1, 0.0, Lie.OUTSIDE, Corner.BUTTED)
    runs = runs_along(Sheet(), rectangle(3, 2).outline, course)
    assert drawing(runs) == [(4, 1, 0.1), (3, 1, 0.1), (4, 1, 0.1), (3, 1, 0.1)]


def test_a_butted_border_inside_a_rectangle_loses_its_width_where_it_butts() -> None:
    # 3 x 2 m, border slabs 0.5 m along and 0.5 m across: 2.5 m and 1.5 m to cover, nothing cut.
    course = Course(0.5, 0.5, 0.0, Lie.INSIDE, Corner.BUTTED)
    runs = runs_along(Sheet(), rectangle(3, 2).outline, course)
    assert drawing(runs) == [(5, 0, 0), (3, 0, 0), (5, 0, 0), (3, 0, 0)]


def test_at_an_inner_corner_one_butted_kerb_stops_short_of_the_other() -> None:
    # The L's notch, 2 x 2 m: its first side butts at (6, 3) and runs into the inner corner: 2 m. Its second
    # starts a kerb's width later and runs past the last corner by as much: 2 m again.
    course = Course(0.5, 0.1, 0.0, Lie.OUTSIDE, Corner.BUTTED)
    runs = runs_along(Sheet(), l_shape(6, 5, 2, 2).outline, course)
    assert drawing(runs)[2:4] == [(4, 0, 0), (4, 0, 0)]
    # Edged alone, the second starts at the inner corner and has no corner to run past.
    (alone,) = runs_along(Sheet(), l_shape(6, 5, 2, 2).outline, course, {3})
    assert drawing((alone,)) == [(4, 0, 0)]
    pair = runs_along(Sheet(), l_shape(6, 5, 2, 2).outline, course, {2, 3})
    assert drawing(pair) == [(4, 0, 0), (4, 1, 0.4)]


def test_corners_that_are_not_square_are_mitred_whatever_was_asked() -> None:
    drawn = polygon([(0, 0), (5, 0), (3, 4)], {}).outline
    mitred = runs_along(Sheet(), drawn, Course(0.9, 0.1, 0.005, Lie.OUTSIDE, Corner.MITRED))
    assert runs_along(Sheet(), drawn, Course(0.9, 0.1, 0.005, Lie.OUTSIDE, Corner.BUTTED)) == mitred


@pytest.mark.parametrize("lie", Lie)
def test_straight_slabs_round_a_circle_fit_and_one_more_would_not(lie: Lie) -> None:
    radius, course = 2.5, Course(0.45, 0.2, 0.008, lie)
    (run,) = runs_along(Sheet(), circle(2 * radius).outline, course)
    whole = run.slabs - run.cut
    inner = radius if lie is Lie.OUTSIDE else radius - course.across

    def ring_of(count: int, gap: float) -> list[shapely.Geometry]:
        slab = shapely.box(-course.along / 2 - gap / 2, inner, course.along / 2 + gap / 2, inner + course.across)
        return [affinity.rotate(slab, k * 360 / count, origin=(0, 0)) for k in range(count)]

    def overlap(count: int) -> float:
        slabs = ring_of(count, course.joint)
        return sum(a.intersection(b).area for a, b in zip(slabs, [*slabs[1:], slabs[0]], strict=True))

    assert run.cut == 1
    assert overlap(whole) == pytest.approx(0, abs=1e-9)
    assert overlap(whole + 1) > 1e-5
    far = [max(shapely.get_coordinates(slab)[:, 1]) for slab in ring_of(whole, 0)]
    assert max(far) == pytest.approx(inner + course.across)
    assert run.length == pytest.approx(2 * math.pi * (inner + course.across / 2))
    # Two neighbours a pitch apart on the inner face gape by this much on the outer one.
    half = math.atan(course.pitch / 2 / inner)
    right = complex(course.along / 2, inner + course.across) * complex(math.cos(half), math.sin(half))
    assert 2 * abs(right.real) == pytest.approx(run.widest_joint, rel=1e-9) or run.widest_joint > 0.008


def test_a_straight_side_that_runs_into_an_arc_is_one_run_with_it() -> None:
    # A stadium: 4 m, a half circle of 3 m across, 4 m back, and a half circle again.
    stadium = polygon([(0, 0), (4, 0), (4, 3), (0, 3)], {1: 1.5, 3: 1.5}).outline
    course = Course(0.2, 0.1, 0.005)
    (part,) = runs_along(Sheet(), stadium, course, {0, 1})
    assert part.name == "sides 1 to 2"
    assert part.length == pytest.approx(4 + math.pi * 1.55)
    (whole,) = runs_along(Sheet(), stadium, course)
    assert whole.length == pytest.approx(8 + math.pi * 3.1)


def test_a_length_is_edged_with_a_cut_at_its_end() -> None:
    # By hand: 10 kerbs and 10 joints reach 9.21 m, 0.79 m is left.
    laid = edging(Sheet(), 10.0, KERB)
    assert (laid.slabs, laid.whole, laid.cut) == (11, 10, 1)
    assert laid.runs[0].closing_length == pytest.approx(0.79)
    assert laid.length == 10.0


def test_a_length_of_whole_kerbs_and_joints_needs_no_cut() -> None:
    laid = edging(Sheet(), 10 * 0.915 + 9 * 0.006, KERB)
    assert (laid.slabs, laid.cut) == (10, 0)


def test_less_than_a_joint_left_over_is_taken_up_by_the_joints() -> None:
    assert edging(Sheet(), 4.6, EdgingSlab(0.915, 0.125, 0.006)).cut == 0


def test_kerb_bed_and_haunch_hold_the_concrete_that_was_worked_by_hand() -> None:
    # GEOM-23: 300 x 150 mm under it and a triangle of 100 x 150 mm behind it are 0.0525 m3/m.
    laid = edging(Sheet(), 1.0, KERB, SECTION)
    assert laid.concrete == pytest.approx(0.0525, rel=1e-12)
    assert edging(Sheet(), 20.0, KERB, SECTION).concrete == pytest.approx(1.05, rel=1e-12)


def test_an_edging_without_concrete_is_cautioned_and_takes_none() -> None:
    sheet = Sheet()
    laid = edging(sheet, 5.0, KERB)
    assert (laid.section, laid.concrete, laid.mix) == (0.0, 0.0, None)
    assert "loose_edging" in sheet.cautions


def test_the_usual_haunch_is_named_among_the_assumptions() -> None:
    sheet = Sheet()
    edging(sheet, 5.0, KERB, Haunch())
    assert {"bed_margin", "bed_depth", "haunch_width", "haunch_height"} <= set(sheet.assumptions)
    assert {entry.basis for entry in sheet.assumptions.values()} == {"common practice"}
    assert "loose_edging" not in sheet.cautions


def test_the_concrete_of_an_edging_is_mixed() -> None:
    consistence, sand = Consistence.SEMI_DRY, SandState.DAMP
    recipe = Recipe(Parts(1, 2, 4), consistence, sand, mix_basis(consistence, sand))
    laid = edging(Sheet(), 20.0, KERB, SECTION, recipe)
    assert laid.mix is not None
    # CPWD: 1:2:4 concrete holds about 320 kg of cement in a cubic metre; give or take a tenth.
    assert laid.mix.cement == pytest.approx(1.05 * 320, rel=0.1)


def edged(edges: Edges) -> Edging:
    return edging(Sheet(), edges, KERB)


def test_only_the_sides_asked_for_are_edged_and_their_open_ends_are_square() -> None:
    terrace = area(rectangle(4.0, 3.0))
    laid = edged(Edges(terrace, sides=(1,)))
    assert [run.name for run in laid.runs] == ["side 2"]
    assert laid.length == pytest.approx(3.0)
    assert laid == edging(Sheet(), 3.0, KERB) or laid.slabs == edging(Sheet(), 3.0, KERB).slabs


def test_two_sides_that_meet_gain_at_their_corner_and_nowhere_else() -> None:
    laid = edged(Edges(area(rectangle(4.0, 3.0)), sides=(0, 1)))
    assert laid.length == pytest.approx(4 + 3 + 0.125)


def test_the_edge_round_an_opening_stands_inside_the_opening() -> None:
    terrace = area(rectangle(6, 5), [circle(2.0).at(1, 1)])
    laid = edging(Sheet(), Edges(terrace, Around.OPENINGS), EdgingSlab(0.2, 0.1, 0.005))
    assert laid.length == pytest.approx(math.pi * 1.9)
    assert laid.runs[0].name == "opening 1, sides 1 to 2"
    both = edging(Sheet(), Edges(terrace, Around.BOTH), EdgingSlab(0.2, 0.1, 0.005))
    assert both.length == pytest.approx(math.pi * 1.9 + 22 + 0.4)


def test_a_short_closing_piece_and_a_gaping_joint_are_cautioned() -> None:
    sheet = Sheet()
    edging(sheet, Edges(area(circle(3.0))), KERB)
    assert "gaping_joint" in sheet.cautions
    edging(sheet, 10 * 0.921 + 0.1, KERB)
    assert "short_closer" in sheet.cautions
    plain = Sheet()
    edging(plain, 10 * 0.921 + 0.5, KERB)
    assert "short_closer" not in plain.cautions
    assert "gaping_joint" not in plain.cautions


def test_a_short_closing_piece_names_the_joint_that_does_without() -> None:
    # Ten kerbs of 915 mm leave 9.3 m 150 mm for nine joints.
    sheet = Sheet()
    edging(sheet, 9.3, KERB)
    assert "Joints of 16.7 mm close it with whole slabs." in sheet.cautions["short_closer"].because
    # Two kerbs leave 250 mm for one joint: no joint is so wide.
    wide = Sheet()
    edging(wide, 2 * 0.915 + 0.25, KERB)
    assert "close it" not in wide.cautions["short_closer"].because


def test_a_side_that_does_not_exist_is_refused() -> None:
    with pytest.raises(OutOfRange, match="There is no side 5") as refused:
        edged(Edges(area(rectangle(4.0, 3.0)), sides=(4,)))
    assert refused.value.place == ("sides",)


def test_no_opening_to_edge_is_refused() -> None:
    with pytest.raises(OutOfRange, match="nothing to edge") as refused:
        edged(Edges(area(rectangle(4.0, 3.0)), Around.OPENINGS))
    assert refused.value.place == ("around",)


def test_a_bed_narrower_than_its_kerb_is_refused() -> None:
    with pytest.raises(OutOfRange, match="125 mm or more") as refused:
        edging(Sheet(), 3.0, KERB, Haunch(bed_width=0.1))
    assert refused.value.place == ("haunch", "bed_width")


def test_a_kerb_wider_than_an_opening_is_refused() -> None:
    terrace = area(rectangle(6, 5), [circle(0.5).at(1, 1)])
    with pytest.raises(ImpossibleShape, match="too tight") as refused:
        edging(Sheet(), Edges(terrace, Around.OPENINGS), EdgingSlab(0.2, 0.3, 0.005))
    assert refused.value.place == ("area", "openings", 0)


def test_a_side_too_short_for_its_mitres_is_refused() -> None:
    with pytest.raises(ImpossibleShape, match="Side 2 is too short") as refused:
        edging(Sheet(), Edges(area(rectangle(6, 5), [rectangle(1.0, 0.2).at(1, 1)]), Around.OPENINGS), KERB)
    assert refused.value.place == ("area", "openings", 0)


def test_a_corner_too_sharp_to_mitre_is_refused() -> None:
    needle = area(polygon([(0, 0), (10, 0), (10, 1)], {}))
    with pytest.raises(ImpossibleShape, match="6 degrees; 30 is the least") as refused:
        edged(Edges(needle))
    assert refused.value.place == ("area",)
