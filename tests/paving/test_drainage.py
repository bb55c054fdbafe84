"""Drainage: run-off by published examples, low edges against shapely, planning at its boundaries."""

import math
import random

import pytest
import shapely

from service.paving.areas import MeasuredArea, area, circle, l_shape, polygon, rectangle
from service.paving.drainage import Rain, RunOff, Surface, drainage, rainfall, run_off_coefficient
from service.paving.errors import ImpossibleShape, OutOfRange
from service.paving.falls import LEVEL, Fall
from service.paving.low_edges import low_sides
from service.paving.outlines import Arc, Outline
from service.paving.planning import Country, DrainsTo, Planning, Position, Site
from service.paving.reference import Assumption
from service.paving.sheets import Sheet

LITRE, MM_PER_HOUR = 1e-3, 1e-3 / 3600


def shed(square_metres: float, rain: Rain = Rain.APPROVED_DOCUMENT_H, surface: Surface = Surface.PAVING) -> RunOff:
    return drainage(Sheet(), MeasuredArea(square_metres), rainfall(rain), run_off_coefficient(surface), None, Site())


#: Row, rule, area [m2], flow [l/s] as printed, tolerance.
PUBLISHED = [
    ("DRAIN-10", Rain.APPROVED_DOCUMENT_H, 50.0, 0.70, 1e-12),
    ("DRAIN-13", Rain.BS_6367, 50.0, 1.042, 0.001),
    ("DRAIN-15", Rain.EN_12056_3, 1.0, 0.042, 0.0005),
    ("DRAIN-16 London", Rain.EN_12056_3_LONDON, 1.0, 0.022, 1e-12),
    ("DRAIN-16 Fort William", Rain.EN_12056_3_FORT_WILLIAM, 1.0, 0.010, 1e-12),
]


@pytest.mark.parametrize(
    ("row", "rain", "square_metres", "flow", "tolerance"), PUBLISHED, ids=[r[0] for r in PUBLISHED]
)
def test_run_off_is_what_the_rule_prints(
    row: str, rain: Rain, square_metres: float, flow: float, tolerance: float
) -> None:
    assert shed(square_metres, rain).flow / LITRE == pytest.approx(flow, abs=tolerance)


def test_fourteen_thousandths_of_a_litre_a_second_are_50_4_mm_an_hour() -> None:
    # DRAIN-09
    assert rainfall(Rain.APPROVED_DOCUMENT_H).value / MM_PER_HOUR == pytest.approx(50.4)


def test_the_rational_method_gives_its_worked_example() -> None:
    # DRAIN-23: C 0.8, 50 mm/h, 0.01 ha.
    rate = Assumption("rain", 50 * MM_PER_HOUR, "m/s", 0, 1, "given", "")
    coefficient = Assumption("coefficient", 0.8, "1", 0.8, 0.8, "given", "")
    found = drainage(Sheet(), MeasuredArea(100.0), rate, coefficient, None, Site())
    assert found.flow / LITRE == pytest.approx(1.111, abs=0.001)


#: DRAIN-17 to DRAIN-22.
COEFFICIENTS = [
    (Surface.BRICK, 0.70, 0.85),
    (Surface.CONCRETE, 0.80, 0.95),
    (Surface.ASPHALT, 0.70, 0.95),
    (Surface.LAWN_ON_SAND, 0.05, 0.10),
    (Surface.LAWN_ON_HEAVY_SOIL, 0.13, 0.17),
    (Surface.STEEP_LAWN_ON_HEAVY_SOIL, 0.25, 0.35),
]


@pytest.mark.parametrize(("surface", "low", "high"), COEFFICIENTS)
def test_the_spread_of_a_coefficient_is_the_spread_of_the_flow(surface: Surface, low: float, high: float) -> None:
    found, all_of_it = shed(80.0, surface=surface), shed(80.0).flow
    assert (found.flow_low, found.flow_high) == pytest.approx((all_of_it * low, all_of_it * high))
    assert found.flow_low < found.flow < found.flow_high


def test_the_simple_method_ends_at_4000_square_metres() -> None:
    # DRAIN-11
    for square_metres, cautioned in ((4000.0, False), (4001.0, True)):
        sheet = Sheet()
        drainage(
            sheet,
            MeasuredArea(square_metres),
            rainfall(Rain.APPROVED_DOCUMENT_H),
            run_off_coefficient(Surface.PAVING),
            None,
            Site(),
        )
        assert ("large_catchment" in sheet.cautions) is cautioned


TOP, CORNER = Fall(0.0, 0.02), Fall(0.01, 0.02)


def lows(drawn: Outline, fall: Fall) -> dict[str, float]:
    return {side.name: round(side.length, 9) for side in low_sides(drawn, fall)}


def test_a_rectangle_falling_to_its_top_sheds_over_its_top() -> None:
    assert lows(rectangle(4, 3).outline, TOP) == {"side 3": 4}


def test_a_rectangle_falling_to_a_corner_sheds_over_both_its_sides() -> None:
    assert lows(rectangle(4, 3).outline, CORNER) == {"side 2": 3, "side 3": 4}


def test_an_l_falling_to_its_notch_sheds_over_the_notch_and_the_far_end() -> None:
    assert lows(l_shape(6, 5, 2, 2).outline, TOP) == {"side 3": 2, "side 5": 4}


def test_a_side_a_little_out_of_square_is_no_low_edge() -> None:
    drawn = polygon([(0, 0), (4, 0), (4.02, 3), (0, 3)], {}).outline
    assert lows(drawn, TOP) == {"side 3": 4.02}


def test_half_a_circle_lies_downhill_whichever_way_it_falls() -> None:
    for fall in (TOP, CORNER, Fall(-0.02, 0.001), Fall(0.0, -0.01)):
        total = sum(lows(circle(4.0).outline, fall).values())
        # Three degrees at either end count as running along the edge.
        assert total == pytest.approx(math.pi * 2, rel=0.035)


def by_shapely(drawn: Outline, fall: Fall) -> float:
    """Length of boundary from which a short step downhill leaves the shape."""
    points: list[tuple[float, float]] = []
    for (start, end), rise in zip(drawn.sides, drawn.rises or (0.0,) * len(drawn.points), strict=True):
        points += [start, *(Arc(start, end, rise).chords(1e-6) if rise else [])]
    body, step = shapely.Polygon(points), 1e-5 / math.hypot(fall.gradient_x, fall.gradient_y)
    total = 0.0
    for p, q in zip(points, [*points[1:], points[0]], strict=True):
        middle = shapely.Point((p[0] + q[0]) / 2 + fall.gradient_x * step, (p[1] + q[1]) / 2 + fall.gradient_y * step)
        total += 0.0 if body.contains(middle) else math.dist(p, q)
    return total


def test_low_edges_are_those_a_step_downhill_leaves_the_area_over() -> None:
    rng, compared = random.Random(2), 0
    for _ in range(200):
        angles = sorted(rng.uniform(0, 2 * math.pi) for _ in range(rng.randint(3, 6)))
        points = [(r * math.cos(t), r * math.sin(t)) for t in angles for r in (rng.uniform(2, 6),)]
        chords = [math.dist(p, points[(k + 1) % len(points)]) for k, p in enumerate(points)]
        rises = {k: rng.uniform(-0.4, 0.5) * chord for k, chord in enumerate(chords) if rng.random() < 0.5}
        try:
            drawn = polygon(points, rises).outline
        except ImpossibleShape:
            continue
        turn = rng.uniform(0, 2 * math.pi)
        fall = Fall(math.cos(turn) / 50, math.sin(turn) / 50)
        radii = sum(arc.radius for arc in drawn.arcs)
        # What runs within three degrees of a side is left out here and not there: at most that much of each arc,
        # and a straight side only if it lies that near.
        headings = [math.atan2(q[1] - p[1], q[0] - p[0]) - turn for p, q in drawn.sides]
        if any(abs(math.sin(heading)) < 0.053 for heading in headings):
            continue
        assert sum(s.length for s in low_sides(drawn, fall)) == pytest.approx(
            by_shapely(drawn, fall), abs=0.01 + 0.105 * radii
        )
        compared += 1
    assert compared > 60


def test_a_channel_runs_along_the_low_edge_in_whole_pieces() -> None:
    found = drainage(
        Sheet(), area(rectangle(5.4, 3)), rainfall(Rain.BS_6367), run_off_coefficient(Surface.BRICK), TOP, Site()
    )
    assert found.channel_length == pytest.approx(5.4)
    assert found.channel_pieces == 6
    assert [side.name for side in found.low_sides] == ["side 3"]


def test_without_a_shape_or_a_fall_there_is_no_low_edge() -> None:
    assert (shed(20.0).channel_length, shed(20.0).channel_pieces) == (None, None)


def test_a_level_surface_is_refused() -> None:
    with pytest.raises(OutOfRange, match="sheds no water") as refused:
        drainage(
            Sheet(), area(rectangle(5, 3)), rainfall(Rain.BS_6367), run_off_coefficient(Surface.BRICK), LEVEL, Site()
        )
    assert refused.value.place == ("fall",)


def asked(square_metres: float, site: Site) -> tuple[Planning, set[str]]:
    sheet = Sheet()
    found = drainage(
        sheet,
        MeasuredArea(square_metres),
        rainfall(Rain.APPROVED_DOCUMENT_H),
        run_off_coefficient(Surface.PAVING),
        None,
        site,
    )
    return found.planning, set(sheet.cautions)


ENGLISH_FRONT = Site(Country.ENGLAND, Position.FRONT, DrainsTo.ROAD)


@pytest.mark.parametrize(
    ("row", "square_metres", "drains_to", "decision"),
    [
        ("DRAIN-02", 5.0, DrainsTo.ROAD, Planning.NO_APPLICATION),
        ("DRAIN-03", 5.1, DrainsTo.ROAD, Planning.APPLICATION),
        ("DRAIN-04", 60.0, DrainsTo.OPEN_GROUND, Planning.NO_APPLICATION),
        ("permeable", 60.0, DrainsTo.THROUGH_PAVING, Planning.NO_APPLICATION),
    ],
)
def test_an_english_front_garden_is_judged_as_the_guidance_says(
    row: str, square_metres: float, drains_to: DrainsTo, decision: Planning
) -> None:
    found, cautions = asked(square_metres, Site(Country.ENGLAND, Position.FRONT, drains_to))
    assert found is decision
    assert ("front_garden" in cautions) is (decision is Planning.APPLICATION)
    assert "local_codes" in cautions


@pytest.mark.parametrize(("square_metres", "cautioned"), [(50.0, False), (50.1, True)])
def test_in_scotland_more_than_50_square_metres_are_a_paved_surface(square_metres: float, cautioned: bool) -> None:
    # DRAIN-07: strictly more than.
    found, cautions = asked(square_metres, Site(Country.SCOTLAND))
    assert found is Planning.ASK
    assert ("scottish_surface_water" in cautions) is cautioned


@pytest.mark.parametrize("site", [Site(), Site(Country.ENGLAND)])
def test_anywhere_else_the_local_authority_is_asked(site: Site) -> None:
    assert asked(500.0, site) == (Planning.ASK, {"local_codes"})
