"""Borders and the field inside them, against shapely's own offsets."""

import math
import random

import numpy as np
import pytest
import shapely

from service.paving.areas import Area, area, circle, l_shape, polygon, rectangle
from service.paving.borders import BorderCourse, Laid, border
from service.paving.courses import Corner
from service.paving.edgings import Around
from service.paving.errors import ImpossibleShape
from service.paving.insets import inset, inset_shape
from service.paving.outlines import Arc, Outline
from service.paving.sheets import Sheet
from service.paving.slabs import Slab

SETT = Slab("sett", 0.2, 0.1, 0.06)


def soldier(joint: float = 0.005, corner: Corner = Corner.MITRED, around: Around = Around.OUTLINE) -> BorderCourse:
    return BorderCourse(SETT, Laid.SOLDIER, joint, corner, around)


def drawn_finely(outline: Outline) -> shapely.Polygon:
    """An outline with its arcs as many short chords."""
    points = []
    rises = outline.rises or (0.0,) * len(outline.points)
    for (start, end), rise in zip(outline.sides, rises, strict=True):
        points.append(start)
        if rise:
            points += Arc(start, end, rise).chords(1e-4)
    return shapely.Polygon(points)


def bulged(rng: random.Random, corners: int) -> Outline | None:
    """A random polygon, some of its sides arcs; None if it crosses itself."""
    angles = sorted(2 * math.pi * (k + rng.uniform(0, 0.7)) / corners for k in range(corners))
    points = [(r * math.cos(t), r * math.sin(t)) for t in angles for r in (rng.uniform(4, 7),)]
    chords = [math.dist(p, points[(k + 1) % corners]) for k, p in enumerate(points)]
    rises = {k: rng.uniform(-0.3, 0.5) * chord for k, chord in enumerate(chords) if rng.random() < 0.5}
    try:
        return polygon(points, rises).outline
    except ImpossibleShape:
        return None


@pytest.mark.parametrize("inwards", [True, False])
def test_an_inset_covers_what_shapely_offsets(inwards: bool) -> None:
    rng, compared, arcs = random.Random(11), 0, 0
    for _ in range(160):
        drawn = bulged(rng, rng.randint(3, 7))
        distance = rng.uniform(0.05, 0.5) * (1 if inwards else -1)
        if drawn is None:
            continue
        try:
            found = inset(drawn, distance)
        except ImpossibleShape:
            continue
        # Shapely mitres the corner between an arc and a line along their tangents; the true parallels meet a little
        # elsewhere. Away from corners the two are the same: the inset stands the distance off, no nearer anywhere.
        ring, outer = drawn_finely(found).exterior, drawn_finely(drawn)
        apart = shapely.distance(outer.exterior, shapely.points(shapely.segmentize(ring, 0.1).coords))
        assert min(apart) == pytest.approx(abs(distance), abs=2e-4)
        assert np.median(apart) == pytest.approx(abs(distance), abs=2e-4)
        middles = [ring.interpolate(t, normalized=True) for t in (0.1, 0.35, 0.6, 0.85)]
        assert all(outer.contains(point) is inwards for point in middles)
        if not drawn.arcs:
            offset = outer.buffer(-distance, join_style="mitre", mitre_limit=50)
            assert found.area == pytest.approx(offset.area, rel=1e-9)
        else:
            rounded = outer.buffer(-distance, join_style="round", quad_segs=64)
            assert found.area >= rounded.area - 1e-3 if not inwards else found.area <= rounded.area + 1e-3
        compared, arcs = compared + 1, arcs + bool(drawn.arcs)
    assert compared > 70
    assert arcs > 40


def test_a_convex_inset_with_arcs_has_the_area_of_shapelys() -> None:
    # A D: a half circle on a straight side. Inwards there are no mitres to differ at.
    d_shape = polygon([(0, 0), (4, 0), (4, 3), (0, 3)], {1: 1.5, 3: 0.4}).outline
    for distance in (0.05, 0.2, 0.6):
        expected = drawn_finely(d_shape).buffer(-distance, quad_segs=256).area
        assert inset(d_shape, distance).area == pytest.approx(expected, rel=1e-5)


def test_an_inset_drawn_back_out_is_where_it_started() -> None:
    drawn = polygon([(0, 0), (4, 0), (5, 3), (0, 3)], {1: 0.6}).outline
    back = inset(inset(drawn, 0.25), -0.25)
    assert back.area == pytest.approx(drawn.area, rel=1e-9)
    for p, q in zip(back.points, drawn.points, strict=True):
        assert math.dist(p, q) < 1e-9


def test_a_circle_inside_a_circle_is_a_circle() -> None:
    shape = inset_shape(circle(3.0), 0.25)
    assert shape.inputs == (pytest.approx(2.5),)
    assert shape.outline.area == pytest.approx(math.pi * 2.5**2 / 4)


def test_the_field_of_a_rectangle_is_a_rectangle_two_borders_smaller() -> None:
    laid = border(Sheet(), area(rectangle(4.0, 3.0)), soldier())
    assert laid.field.outline.bounds == pytest.approx((0.205, 0.205, 3.795, 2.795))
    assert laid.field_area == pytest.approx(3.59 * 2.59)
    assert laid.border_area == pytest.approx(12 - 3.59 * 2.59)
    assert laid.field.right_angled


def by_hand_in_butted_corners() -> list[tuple[int, int]]:
    """3 x 2 m, setts 200 x 100 as soldiers without a joint: 30 - 2 and 20 - 2 go between the corners."""
    return [(28, 0), (18, 0), (28, 0), (18, 0)]


def test_a_soldier_course_with_butted_corners_is_counted_as_by_hand() -> None:
    laid = border(Sheet(), area(rectangle(3.0, 2.0)), soldier(0.0, Corner.BUTTED))
    assert [(run.slabs, run.cut) for run in laid.runs] == by_hand_in_butted_corners()
    assert (laid.slabs, laid.cut, laid.whole) == (92, 0, 92)
    # What is laid fills the border: no joints, no waste.
    assert laid.slabs * 0.2 * 0.1 == pytest.approx(laid.border_area)


def test_a_mitre_across_a_soldier_course_cuts_every_sett_it_crosses() -> None:
    # 200 mm deep, 100 mm setts: each mitre crosses two setts on either side of it.
    laid = border(Sheet(), area(rectangle(3.0, 2.0)), soldier(0.0))
    assert [(run.slabs, run.cut) for run in laid.runs] == [(30, 4), (20, 4), (30, 4), (20, 4)]


def test_a_stretcher_course_lies_along_the_edge() -> None:
    laid = border(Sheet(), area(rectangle(3.0, 2.0)), BorderCourse(SETT, Laid.STRETCHER, 0.0, Corner.BUTTED))
    assert laid.field_area == pytest.approx(2.8 * 1.8)
    assert sum(run.length for run in laid.runs) == pytest.approx(2 * (2.9 + 1.9))


def test_the_joints_of_a_border_are_those_between_its_slabs_and_that_to_the_field() -> None:
    laid = border(Sheet(), area(rectangle(3.0, 2.0)), soldier(0.0, Corner.BUTTED))
    assert laid.joint_length == pytest.approx(92 * 0.2 + 2 * (2.6 + 1.6))


def test_slabs_and_joints_fill_a_butted_border() -> None:
    joint = 0.004
    laid = border(Sheet(), area(rectangle(3.0, 2.0)), soldier(joint, Corner.BUTTED))
    closing = sum(run.closing_length for run in laid.runs)
    slabs = (laid.whole * 0.1 + closing) * 0.2
    joints = laid.joint_length * joint
    # The field's joint turns four corners, which its length leaves out; runs may end within a joint of full.
    assert slabs + joints == pytest.approx(laid.border_area, abs=4 * joint * 0.2 + 4 * joint**2)


def test_a_border_goes_round_openings_too() -> None:
    terrace = area(rectangle(6.0, 5.0), [circle(1.2).at(2, 2)])
    laid = border(Sheet(), terrace, soldier(around=Around.BOTH))
    assert laid.field.openings[0].outline.area == pytest.approx(math.pi * (1.2 + 0.41) ** 2 / 4)
    assert laid.runs[-1].name == "opening 1, sides 1 to 2"
    only = border(Sheet(), terrace, soldier(around=Around.OPENINGS))
    assert only.field.outline == terrace.outline
    assert only.border_area == pytest.approx(math.pi * (1.61**2 - 1.2**2) / 4)
    assert only.joint_length == pytest.approx(only.slabs * 0.2 + math.pi * 1.61)


def test_the_workings_end_in_the_border_area() -> None:
    sheet = Sheet()
    border(sheet, area(l_shape(7.2, 5.4, 2.4, 1.8)), soldier())
    assert {"field.gross_area", "field.area", "border_area", "joint_length"} <= {step.figure for step in sheet.steps}
    assert "silica_dust" in sheet.cautions


def refused(paved: Area, laid: BorderCourse) -> ImpossibleShape:
    with pytest.raises(ImpossibleShape) as error:
        border(Sheet(), paved, laid)
    return error.value


def test_a_path_no_wider_than_two_borders_is_refused() -> None:
    error = refused(area(rectangle(3.0, 0.4)), soldier())
    assert error.place == ("area",)
    assert "too short" in error.detail


def test_an_inset_that_meets_itself_is_refused() -> None:
    # A dumb-bell: the waist is 0.3 m wide and its sides are long, so no side is used up but the waist closes.
    points = [
        (0, 0),
        (4, 0),
        (4, 1.85),
        (8, 1.85),
        (8, 0),
        (12, 0),
        (12, 4),
        (8, 4),
        (8, 2.15),
        (4, 2.15),
        (4, 4),
        (0, 4),
    ]
    with pytest.raises(ImpossibleShape, match="too narrow: its edges meet 200 mm inside"):
        inset(polygon(points, {}).outline, 0.2)


def test_an_opening_that_reaches_into_the_border_is_refused() -> None:
    error = refused(area(rectangle(3.0, 2.0), [rectangle(0.5, 0.5).at(0.1, 0.5)]), soldier())
    assert error.place == ("area", "openings", 0)
    assert error.detail.startswith("The border leaves no room for the field: inside it, opening 1")


def test_an_arc_tighter_than_the_border_is_refused() -> None:
    error = refused(area(circle(0.3)), soldier())
    assert error.place == ("area",)
    assert "too tight" in error.detail


def test_a_side_of_which_nothing_is_left_is_refused() -> None:
    with pytest.raises(ImpossibleShape, match="Side 2 is too short: nothing of it is left 250 mm inside"):
        inset(rectangle(3.0, 0.4).outline, 0.25)


def test_two_arcs_whose_parallels_no_longer_meet_are_refused() -> None:
    # A lens 4 m long and 1 m thick: 0.6 m inside its edges nothing is left.
    lens = Outline(((0.0, 0.0), (4.0, 0.0)), (0.5, 0.5))
    assert inset(lens, 0.2).area < lens.area
    with pytest.raises(ImpossibleShape):
        inset(lens, 0.6)


def test_an_inset_of_an_arc_beyond_its_radius_is_refused() -> None:
    with pytest.raises(ImpossibleShape, match=r"0\.15 m in radius, is too tight"):
        inset(circle(0.3).outline, 0.2)
