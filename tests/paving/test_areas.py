"""Areas, with shapely as outside judge over 2,000 generated shapes."""

import cmath
import math
from collections.abc import Callable
from random import Random

import pytest
import shapely

from service.paving.areas import (
    Area,
    Shape,
    area,
    area_figures,
    circle,
    l_shape,
    polygon,
    rectangle,
    set_square,
    triangle,
)
from service.paving.errors import ImpossibleShape
from service.paving.outlines import Point
from service.paving.sheets import Sheet

#: Chords that an arc is judged by.
FINE = 600


def arc_points(start: Point, end: Point, rise: float) -> list[Point]:
    """Points of an arc, from the inscribed angle: the start turned about the centre, step by step."""
    p, q = complex(*start), complex(*end)
    chord = abs(q - p)
    half_turn = 2 * math.atan2(2 * abs(rise), chord)
    # The bulge is to the right of the walk when the rise is positive, so the walk turns left about the centre.
    sign = math.copysign(1.0, rise)
    centre = (p + q) / 2 + 1j * (q - p) / 2 / math.tan(half_turn) * sign
    step = cmath.exp(2j * sign * half_turn / FINE)
    turned = [centre + (p - centre) * step**k for k in range(1, FINE)]
    return [(point.real, point.imag) for point in turned]


def judged(points: list[Point], rises: dict[int, float]) -> shapely.Polygon:
    """The outline as shapely sees it: corners walked counter-clockwise, arcs as fine chords."""
    ring: list[Point] = []
    for k, point in enumerate(points):
        ring.append(point)
        if rises.get(k):
            ring += arc_points(point, points[(k + 1) % len(points)], rises[k])
    return shapely.Polygon(ring)


def star(random: Random, corners: int) -> list[Point]:
    """Corners round a middle at random distances, counter-clockwise, as unlike as they come."""
    middle = random.uniform(-50, 50), random.uniform(-50, 50)
    steps = [random.uniform(0.3, 1.0) for _ in range(corners)]
    turn, points = random.uniform(0, 2 * math.pi), []
    for step in steps:
        reach = random.uniform(1.0, 12.0)
        points.append((middle[0] + reach * math.cos(turn), middle[1] + reach * math.sin(turn)))
        turn += step / sum(steps) * 2 * math.pi
    return points


def walked_back(points: list[Point], rises: dict[int, float]) -> tuple[list[Point], dict[int, float]]:
    """The same shape given the other way round."""
    last = len(points) - 1
    return points[::-1], {(last - 1 - side) % len(points): rise for side, rise in rises.items()}


def simple_shape(random: Random) -> tuple[Shape, shapely.Polygon]:
    """A rectangle, circle, triangle or L with what shapely makes of it."""
    a, b = random.uniform(0.3, 20), random.uniform(0.3, 20)
    c, d = a * random.uniform(0.05, 0.95), b * random.uniform(0.05, 0.95)
    match random.randrange(4):
        case 0:
            return rectangle(a, b), shapely.box(0, 0, a, b)
        case 1:
            return circle(a), judged([(0.0, a / 2), (a, a / 2)], {0: a / 2, 1: a / 2})
        case 2:
            far = math.dist((a, 0), (c, d))
            return triangle(a, far, math.hypot(c, d)), shapely.Polygon([(0, 0), (a, 0), (c, d)])
    return l_shape(a, b, c, d), shapely.box(0, 0, a, b) - shapely.box(a - c, b - d, a, b)


def assert_same(drawn: Area, judge: shapely.Polygon, tolerance: float, seed: int) -> None:
    """Hold area, perimeters, bounds and centroid against the judge."""
    figures = area_figures(Sheet(), drawn)
    left, low, right, high = judge.bounds
    expected = {
        "area": (figures.area, judge.area),
        "net": (drawn.net, judge.area),
        "gross": (figures.gross_area, shapely.Polygon(judge.exterior).area),
        "perimeter": (figures.perimeter, judge.exterior.length),
        "edges": (sum(edge.length for edge in figures.edges), judge.exterior.length),
        "openings": (figures.openings_area, sum(shapely.Polygon(ring).area for ring in judge.interiors)),
        "openings perimeter": (figures.openings_perimeter, sum(ring.length for ring in judge.interiors)),
        "length": (figures.bounding_length, right - left),
        "width": (figures.bounding_width, high - low),
        "diagonal": (figures.diagonal, math.hypot(right - left, high - low)),
    }
    for name, (ours, theirs) in expected.items():
        assert ours == pytest.approx(theirs, rel=tolerance, abs=1e-9), (name, seed)
    assert drawn.centroid == pytest.approx((judge.centroid.x, judge.centroid.y), rel=tolerance, abs=1e-4), seed
    chords = shapely.Polygon(drawn.rings[0], drawn.rings[1:])
    assert chords.area == pytest.approx(drawn.net, rel=1e-9), seed


def test_500_polygons_of_straight_sides_agree_with_shapely_either_way_round() -> None:
    for seed in range(500):
        random = Random(seed)
        points = star(random, random.randint(3, 14))
        judge = shapely.Polygon(points)
        given = points if seed % 2 else points[::-1]
        assert_same(area(polygon(given, {})), judge, 1e-9, seed)


def test_500_polygons_with_arcs_agree_with_fine_chords_either_way_round() -> None:
    checked = 0
    for seed in range(500, 2000):
        random = Random(seed)
        points = star(random, random.randint(3, 8))
        rises = {
            side: math.dist(points[side], points[(side + 1) % len(points)]) * random.uniform(-0.4, 0.5)
            for side in range(len(points))
            if random.random() < 0.5
        }
        judge = judged(points, rises)
        # Arcs may cross, or hollow a shape out until it is turned inside out: neither can be drawn.
        if not judge.is_valid or not judge.exterior.is_ccw or not rises:
            continue
        given = (points, rises) if seed % 2 else walked_back(points, rises)
        assert_same(area(polygon(*given)), judge, 2e-5, seed)
        checked += 1
        if checked == 500:
            return
    pytest.fail(f"only {checked} shapes could be drawn")


def test_500_rectangles_circles_triangles_and_ls_agree_with_shapely() -> None:
    for seed in range(500):
        drawn, judge = simple_shape(Random(seed))
        assert_same(area(drawn), judge, 2e-5, seed)


def test_500_areas_with_openings_are_taken_or_refused_as_shapely_says() -> None:
    taken = refused = 0
    for seed in range(5000, 7000):
        random = Random(seed)
        whole, judge = simple_shape(random)
        reach = judge.bounds[2:]
        openings, fault = [], None
        for k in range(random.randint(1, 3)):
            small, hole = simple_shape(random)
            scale = 0.3 * min(reach) / max(hole.bounds[2:])
            small, hole = scaled(small, hole, scale)
            x, y = random.uniform(0, reach[0] * 0.8), random.uniform(0, reach[1] * 0.8)
            hole = shapely.affinity.translate(hole, x, y)
            lost = hole.area - hole.intersection(judge).area
            fault = fault if fault is not None or lost < 1e-3 else k
            if fault is None and lost > 0:
                break  # touching the edge: neither clearly in nor out
            openings.append(small.at(x, y))
            judge = judge if fault is not None else judge - hole
        else:
            if fault is not None:
                with pytest.raises(ImpossibleShape) as refusal:
                    area(whole, openings)
                assert refusal.value.place == ("openings", fault), seed
                refused += 1
            elif isinstance(judge, shapely.Polygon) and len(judge.interiors) == len(openings):
                assert_same(area(whole, openings), judge, 2e-5, seed)
                taken += 1
        if taken + refused == 500:
            assert min(taken, refused) > 150
            return
    pytest.fail(f"only {taken} taken and {refused} refused")


def scaled(small: Shape, hole: shapely.Polygon, scale: float) -> tuple[Shape, shapely.Polygon]:
    """A shape made smaller by drawing it again as a polygon, or as a circle if it is one."""
    hole = shapely.affinity.scale(hole, scale, scale, origin=(0, 0))
    if small.outline.arcs:
        return circle(hole.bounds[2]), hole
    corners = [(x * scale, y * scale) for x, y in small.outline.points]
    return polygon(corners, {}), hole


def place_of(ask: Callable[[], object]) -> tuple[str | int, ...]:
    """Where a refused shape is at fault."""
    with pytest.raises(ImpossibleShape) as refusal:
        ask()
    assert refusal.value.detail.endswith(".")
    return refusal.value.place


SQUARE: list[Point] = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]


@pytest.mark.parametrize(
    ("ask", "place"),
    [
        (lambda: triangle(3, 4, 8), ("side_c",)),
        (lambda: triangle(9, 4, 5), ("side_a",)),
        (lambda: triangle(1, 3, 2), ("side_b",)),
        (lambda: l_shape(5, 4, 5, 1), ("notch_length",)),
        (lambda: l_shape(5, 4, 1, 4.5), ("notch_width",)),
        (lambda: polygon(SQUARE[:2], {}), ("points",)),
        (lambda: polygon([(0, 0), (1, 1), (2, 2)], {}), ("points", 0)),
        (lambda: polygon([*SQUARE, SQUARE[0]], {}), ("points", 0)),
        (lambda: polygon([SQUARE[0], SQUARE[1], SQUARE[1], SQUARE[2]], {}), ("points", 2)),
        (lambda: polygon([(0, 0), (4, 4), (4, 0), (0, 4)], {}), ("points", 2)),
        (lambda: polygon(SQUARE, {0: 2.1}), ("arcs",)),
        (lambda: polygon(SQUARE, {7: 0.1}), ("arcs",)),
        (lambda: polygon([(0, 0), (4, 0), (4, 0.5), (0, 0.5)], {2: -1.0}), ("points", 0)),
        (lambda: polygon([(0.0, 11.0), (0.8, 2.2), (10.7, 0.0)], {1: -1.15, 2: -6.0}), ("points",)),
        (lambda: area(rectangle(4, 3), [rectangle(1, 1).at(3.5, 1)]), ("openings", 0)),
        (lambda: area(rectangle(4, 3), [rectangle(1, 1), circle(1).at(0.5, 0.5)]), ("openings", 1)),
        (lambda: area(rectangle(4, 3), [rectangle(1, 1), rectangle(4, 3)]), ("openings", 1)),
        (lambda: area(rectangle(4, 3), [rectangle(4, 3)]), ("openings",)),
        (lambda: area(l_shape(4, 4, 2, 2), [circle(1).at(2.8, 2.8)]), ("openings", 0)),
    ],
)
def test_a_shape_that_cannot_be_drawn_is_refused_with_its_place(
    ask: Callable[[], object], place: tuple[str | int, ...]
) -> None:
    assert place_of(ask) == place


def test_crossing_sides_are_named_with_the_point_where_they_meet() -> None:
    with pytest.raises(ImpossibleShape, match=r"Side 1 and side 3 meet at \(2, 2\)"):
        polygon([(0, 0), (4, 4), (4, 0), (0, 4)], {})


def test_a_half_circle_on_a_side_is_the_most_an_arc_may_bulge() -> None:
    drawn = area(polygon(SQUARE, {0: 2.0}))
    assert drawn.net == pytest.approx(16 + math.pi * 2**2 / 2)


def test_openings_may_touch_the_edge_and_each_other() -> None:
    drawn = area(rectangle(4, 3), [rectangle(1, 1), rectangle(1, 1).at(1, 0)])
    assert drawn.net == 10


def test_an_opening_stands_where_it_is_put_and_the_rest_balances_without_it() -> None:
    drawn = area(rectangle(4, 2), [rectangle(1, 1).at(3, 0)])
    # By moments: (8 × (2, 1) − 1 × (3.5, 0.5)) ÷ 7.
    assert drawn.centroid == pytest.approx((12.5 / 7, 7.5 / 7))


def test_only_shapes_with_every_side_along_x_or_y_are_right_angled() -> None:
    assert area(l_shape(4, 4, 1, 1), [rectangle(1, 1)]).right_angled
    assert not area(rectangle(4, 4), [circle(1).at(1, 1)]).right_angled
    assert not area(triangle(3, 4, 5)).right_angled


@pytest.mark.parametrize(
    ("length", "width", "diagonal"), [(6.0, 5.0, 7.5), (4.0, 3.0, 5.0), (3.0, 4.0, 5.0), (0.8, 9.0, 1.0)]
)
def test_the_largest_3_4_5_triangle_that_fits_is_offered(length: float, width: float, diagonal: float) -> None:
    found = set_square(length, width)
    assert found is not None
    assert found.diagonal == pytest.approx(diagonal)
    assert found.short_leg**2 + found.long_leg**2 == pytest.approx(found.diagonal**2)


def test_a_site_too_small_for_a_3_4_5_triangle_is_offered_none() -> None:
    assert set_square(0.3, 0.3) is None
