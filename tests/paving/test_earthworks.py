"""Volumes under planes and between surfaces, held against numerical integration.

The judge knows nothing of centroids or clipping: it cuts the plan into upright slices, finds by
shapely how each slice crosses the area, and integrates slice by slice with scipy.
"""

import math
import random
from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest
import shapely
from scipy.integrate import fixed_quad
from scipy.interpolate import LinearNDInterpolator

from service.paving.areas import Area, area, circle, polygon, rectangle
from service.paving.earthworks import (
    end_area_volume,
    even_earthwork,
    plane_earthwork,
    prismoidal_volume,
    prisms_volume,
)
from service.paving.errors import ImpossibleShape
from service.paving.grounds import SpotLevel, earthwork, refuse_uncovered, survey
from service.paving.planes import Plane, mean_over

Height = Callable[[float, float], float]


def random_polygon(rng: random.Random) -> list[tuple[float, float]]:
    """Corners of a polygon that doesn't cross itself, somewhere on plan."""
    corners = rng.randint(3, 12)
    turns = sorted(rng.uniform(0, 2 * math.pi) for _ in range(corners))
    x, y = rng.uniform(-50, 50), rng.uniform(-50, 50)
    reach = [rng.uniform(0.5, 12) for _ in turns]
    return [(x + r * math.cos(t), y + r * math.sin(t)) for t, r in zip(turns, reach, strict=True)]


def random_area(rng: random.Random) -> Area:
    """A random polygon, about every other one with an opening."""
    while True:
        points = random_polygon(rng)
        try:
            paved = area(polygon(points, {}))
        except ImpossibleShape:
            continue
        if paved.net < 0.1:
            continue
        middle = shapely.Polygon(points).representative_point()
        side = rng.uniform(0.05, 1.5)
        try:
            return (
                area(paved.shape, [rectangle(side, side / 2).at(middle.x, middle.y)]) if rng.random() < 0.5 else paved
            )
        except ImpossibleShape:
            return paved


def random_plane(rng: random.Random, paved: Area) -> Plane:
    """A plane of depths that is above nothing at some corners and below it at others, about half of the time."""
    x, y = paved.centroid
    return Plane(rng.uniform(-0.2, 0.3), rng.uniform(-0.06, 0.06), rng.uniform(-0.06, 0.06), (x, y))


def crossings(shape: shapely.Geometry, x: float) -> list[tuple[float, float]]:
    """Where an upright line crosses a shape, as intervals of y."""
    _, low, _, high = shape.bounds
    line = shape.intersection(shapely.LineString([(x, low - 1), (x, high + 1)]))
    return [(part.bounds[1], part.bounds[3]) for part in getattr(line, "geoms", [line]) if part.length > 0]


def slices(shape: shapely.Geometry, zero_line: list[tuple[float, float]]) -> list[float]:
    """Every x where the crossings change their kind."""
    return sorted({x for x, _ in shapely.get_coordinates(shape).tolist()} | {x for x, _ in zero_line})


def integral(shape: shapely.Geometry, depth: Plane, sign: int) -> float:
    """Integral of the positive part of sign × depth over a shape, by Gauss's rule on smooth pieces."""
    zero_line = zero_points(shape, depth)

    def down_the_slice(x: float) -> float:
        total = 0.0
        for low, high in crossings(shape, x):
            cuts = [low, high]
            if depth.gradient_y:
                zero = depth.known_at[1] + (depth.at((x, depth.known_at[1]))) / depth.gradient_y
                cuts = sorted({low, high, min(max(zero, low), high)})
            for a, b in pairwise(cuts):
                total += fixed_quad(
                    lambda ys: np.array([max(sign * depth.at((x, float(y))), 0.0) for y in ys]), a, b, n=2
                )[0]
        return total

    xs = slices(shape, zero_line)
    return sum(
        fixed_quad(lambda values: np.array([down_the_slice(float(x)) for x in values]), a, b, n=3)[0]
        for a, b in pairwise(xs)
        if b - a > 1e-12
    )


def zero_points(shape: shapely.Geometry, depth: Plane) -> list[tuple[float, float]]:
    """Where the zero line of a plane meets the edge of a shape."""
    if depth.is_level:
        return []
    g, (x, y) = depth.gradient, depth.known_at
    nx, ny = depth.gradient_x / g, depth.gradient_y / g
    x, y = x + nx * depth.level / g, y + ny * depth.level / g
    line = shapely.LineString([(x - ny * 1e3, y + nx * 1e3), (x + ny * 1e3, y - nx * 1e3)])
    met = shape.boundary.intersection(line)
    return [(cx, cy) for cx, cy in shapely.get_coordinates(met).tolist()]


def drawn(paved: Area) -> shapely.Polygon:
    return shapely.Polygon(paved.rings[0], paved.rings[1:])


@pytest.mark.parametrize("seed", range(500))
def test_cut_and_fill_under_a_random_plane_are_what_integration_makes_them(seed: int) -> None:
    rng = random.Random(seed)
    paved = random_area(rng)
    depth = random_plane(rng, paved)
    work = plane_earthwork(paved, depth)
    size = sum(prism.volume for prism in (*work.cut, *work.fill))
    for prisms, sign in ((work.cut, 1), (work.fill, -1)):
        volume = sum(prism.volume for prism in prisms)
        assert volume == pytest.approx(integral(drawn(paved), depth, sign), rel=1e-9, abs=1e-9 * size)


@pytest.mark.parametrize("seed", range(500, 600))
def test_the_volume_under_a_random_plane_is_its_area_times_its_depth_at_the_centroid(seed: int) -> None:
    rng = random.Random(seed)
    paved = random_area(rng)
    depth = random_plane(rng, paved)
    by_parts = integral(drawn(paved), depth, 1) - integral(drawn(paved), depth, -1)
    assert paved.net * mean_over(paved, depth) == pytest.approx(by_parts, rel=1e-9, abs=1e-9 * paved.net)


def test_the_random_cases_hold_many_that_are_split_along_the_zero_line() -> None:
    split = 0
    for seed in range(500):
        rng = random.Random(seed)
        paved = random_area(rng)
        work = plane_earthwork(paved, random_plane(rng, paved))
        split += bool(work.cut and work.fill)
    assert split > 150


def jittered(rng: random.Random, columns: int, rows: int, step: float, height: Height) -> list[SpotLevel]:
    """Spots on a grid, each a little off it, so that there is only one way to join them up."""
    spots = []
    for i in range(columns):
        for j in range(rows):
            x = i * step + rng.uniform(-0.2, 0.2) * step * (0 < i < columns - 1)
            y = j * step + rng.uniform(-0.2, 0.2) * step * (0 < j < rows - 1)
            spots.append(SpotLevel(x, y, height(x, y) + rng.uniform(-0.05, 0.05)))
    return spots


@pytest.mark.parametrize("seed", range(40))
def test_spot_levels_come_to_what_a_fine_grid_of_their_triangles_sums_to(seed: int) -> None:
    """scipy joins the spots up by itself; 90,000 little squares are good for a few parts in ten thousand."""
    rng = random.Random(seed)
    spots = jittered(rng, rng.randint(3, 6), rng.randint(3, 6), 1.8, lambda x, y: 0.02 * x - 0.01 * y)
    length, width = max(s.x for s in spots), max(s.y for s in spots)
    formation = Plane(rng.uniform(-0.05, 0.05), rng.uniform(-0.03, 0.03), rng.uniform(-0.03, 0.03))
    work = earthwork(area(rectangle(length, width)), survey(spots), formation)
    n = 300
    xs, ys = np.meshgrid((np.arange(n) + 0.5) * length / n, (np.arange(n) + 0.5) * width / n)
    ground = LinearNDInterpolator([(s.x, s.y) for s in spots], [s.level for s in spots])(xs, ys)
    depth = ground - (formation.level - formation.gradient_x * xs - formation.gradient_y * ys)
    square = length * width / n**2
    cut, fill = (sum(p.volume for p in prisms) for prisms in (work.cut, work.fill))
    assert cut == pytest.approx(np.clip(depth, 0, None).sum() * square, rel=2e-4, abs=2e-4 * (cut + fill))
    assert fill == pytest.approx(np.clip(-depth, 0, None).sum() * square, rel=2e-4, abs=2e-4 * (cut + fill))
    assert work.deepest == pytest.approx(max(depth.max(), 0), abs=0.01)
    assert sum(p.area for p in (*work.cut, *work.fill)) == pytest.approx(length * width, rel=1e-9)


@pytest.mark.parametrize("seed", range(40))
def test_spots_measured_on_a_plane_come_to_what_the_plane_comes_to(seed: int) -> None:
    rng = random.Random(seed)
    paved = random_area(rng)
    ground, formation = random_plane(rng, paved), Plane(-0.05, 0.01, -0.02, paved.centroid)
    left, low, right, high = paved.outline.bounds
    across, up = (np.linspace(a, b, 5).tolist() for a, b in ((left, right), (low, high)))
    surveyed = survey([SpotLevel(x, y, ground.at((x, y))) for x in across for y in up])
    by_spots, by_plane = earthwork(paved, surveyed, formation), earthwork(paved, ground, formation)
    size = paved.net * 1e-9
    for one, other in ((by_spots.cut, by_plane.cut), (by_spots.fill, by_plane.fill)):
        assert sum(p.volume for p in one) == pytest.approx(sum(p.volume for p in other), rel=1e-9, abs=size)
    assert by_spots.deepest == pytest.approx(by_plane.deepest, abs=1e-9)
    assert by_spots.highest == pytest.approx(by_plane.highest, abs=1e-9)


def test_a_finer_survey_of_a_mound_comes_closer_to_its_true_volume() -> None:
    """A dome z = h (1 − (x² + y²) / R²) over a square holds what calculus says."""
    half, top = 3.0, 0.4
    true = top * (2 * half) ** 2 * (1 - 2 * half**2 / (3 * 2 * half**2))
    errors = []
    for spots in (3, 5, 9, 17):
        steps = np.linspace(-half, half, spots).tolist()
        mound = survey([SpotLevel(x, y, top * (1 - (x * x + y * y) / (2 * half**2))) for x in steps for y in steps])
        work = earthwork(area(rectangle(2 * half, 2 * half).at(-half, -half)), mound, Plane(-0.0))
        errors.append(abs(sum(p.volume for p in work.cut) - true))
    assert errors[0] > 3.5 * errors[1] > 3.5**2 * errors[2] > 3.5**3 * errors[3]
    assert errors[3] < 0.004 * true


def test_the_order_spots_were_measured_in_changes_nothing() -> None:
    spots = [SpotLevel(2.0 * i, 2.0 * j, 0.03 * i * j) for i in range(4) for j in range(4)]
    paved, formation = area(rectangle(6.0, 6.0)), Plane(0.1)
    volumes = set()
    for seed in range(10):
        random.Random(seed).shuffle(spots)
        volumes.add(tuple(p.volume for p in earthwork(paved, survey(spots), formation).cut))
    assert len(volumes) == 1


def test_past_the_outermost_spots_the_ground_runs_on_level() -> None:
    """A plane from 0.2 to 0.4 m along x over 4 m x 3 m; the dig is 0.5 m wider all round.

    Left of it lies 0.2, right of it 0.4, below and above it what lies at the edge: worked by hand
    0.3 × 4 × 4 + 0.5 × 4 × (0.2 + 0.4) m3.
    """
    spots = [SpotLevel(x, y, 0.2 + 0.05 * x) for x in (0.0, 2.0, 4.0) for y in (0.0, 3.0)]
    dug = area(rectangle(5.0, 4.0).at(-0.5, -0.5))
    work = earthwork(dug, survey(spots), Plane(0.0))
    assert sum(p.volume for p in work.cut) == pytest.approx(0.3 * 4 * 4 + 0.5 * 4 * (0.2 + 0.4), rel=1e-9)
    assert sum(p.area for p in work.cut) == pytest.approx(20, rel=1e-9)


def test_the_level_past_the_spots_is_that_of_the_nearest_point_of_their_edge() -> None:
    ground = survey([SpotLevel(0, 0, 0.0), SpotLevel(4, 0, 0.4), SpotLevel(4, 4, 0.4), SpotLevel(0, 4, 0.0)])
    assert ground.at((2.0, 1.0)) == pytest.approx(0.2)
    assert ground.at((2.0, -7.0)) == pytest.approx(0.2)
    assert ground.at((9.0, 9.0)) == pytest.approx(0.4)


def test_spots_that_leave_a_corner_out_are_refused_with_how_far() -> None:
    paved = area(rectangle(5.0, 3.0))
    ground = survey([SpotLevel(0, 0, 0), SpotLevel(4, 0, 0), SpotLevel(4, 3, 0), SpotLevel(0, 3, 0)])
    with pytest.raises(ImpossibleShape, match=r"reaches 1\.00 m past"):
        refuse_uncovered(paved, ground)
    refuse_uncovered(area(rectangle(4.005, 3.0)), ground)


def test_a_spot_given_twice_is_refused_at_its_number() -> None:
    with pytest.raises(ImpossibleShape, match="already") as refused:
        survey([SpotLevel(0, 0, 0), SpotLevel(1, 0, 0), SpotLevel(0, 0, 0.1), SpotLevel(1, 1, 0)])
    assert refused.value.place == (2,)


@pytest.mark.parametrize("spots", [[(0, 0)], [(0, 0), (1, 1)], [(0, 0), (1, 1), (2, 2), (3, 3)]])
def test_spots_in_one_line_are_refused(spots: list[tuple[float, float]]) -> None:
    with pytest.raises(ImpossibleShape, match="one line"):
        survey([SpotLevel(x, y, 0.0) for x, y in spots])


def test_many_sided_ground_is_split_quickly_and_loses_nothing() -> None:
    rng = random.Random(7)
    spots = [SpotLevel(x, y, rng.uniform(-0.1, 0.1)) for x in range(-10, 11) for y in range(-10, 11)]
    paved = area(circle(18.0).at(-9.0, -9.0), [circle(4.0).at(-2.0, -2.0)])
    work = earthwork(paved, survey(spots), Plane(0.0))
    assert sum(p.area for p in (*work.cut, *work.fill)) == pytest.approx(math.pi * (81 - 4), rel=1e-9)


def test_an_even_depth_is_cut_above_nothing_and_fill_below() -> None:
    assert [p.volume for p in even_earthwork(20.0, 0.25).cut] == [5.0]
    assert [p.volume for p in even_earthwork(20.0, -0.25).fill] == [5.0]
    assert even_earthwork(20.0, 1e-12).cut == even_earthwork(20.0, 1e-12).fill == ()


def test_ground_that_meets_the_formation_needs_neither_cut_nor_fill() -> None:
    slope = Plane(0.1, 0.02, 0.03)
    work = earthwork(area(rectangle(5.0, 3.0)), slope, slope)
    assert (work.cut, work.fill, work.deepest, work.highest) == ((), (), 0.0, 0.0)


def test_the_average_of_end_areas_is_the_navys_in_feet_and_yards() -> None:
    """NAVEDTRA 14080 chapter 4: (A1 + A2) × 1.85 × D in stations; 100 and 140 square feet, 2.5 stations: 1110 yd3."""
    foot, yard = 0.3048, 0.9144
    volume = end_area_volume(100 * foot**2, 140 * foot**2, 250 * foot)
    assert volume / yard**3 == pytest.approx(1110, rel=0.002)


def test_the_prismoidal_formula_is_exact_where_the_end_areas_are_not() -> None:
    """Under two planes the sides of a cutting slope; held against the prisms of the same earth."""
    depth = Plane(0.2, -0.05)
    work = plane_earthwork(area(rectangle(4.0, 3.0)), depth)
    sections = [3.0 * depth.at((x, 0.0)) for x in (0.0, 2.0, 4.0)]
    assert prismoidal_volume(*sections, 4.0) == pytest.approx(work.cut[0].volume, rel=1e-12)
    cone = [math.pi * r**2 for r in (1.0, 0.5, 0.0)]
    assert prismoidal_volume(*cone, 3.0) == pytest.approx(math.pi, rel=1e-12)
    assert end_area_volume(cone[0], cone[2], 3.0) == pytest.approx(1.5 * math.pi, rel=1e-12)


def test_prisms_add_up() -> None:
    assert prisms_volume((1.0, 2.0, 0.25)) == 3.25
