"""Trees: root protection by published examples, overlap against shapely."""

import math
import random

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from service.paving.areas import Area, area, circle, polygon, rectangle
from service.paving.discs import disc_overlap
from service.paving.errors import ImpossibleShape, OutOfRange
from service.paving.outlines import Arc, Outline
from service.paving.sheets import Sheet
from service.paving.trees import RootProtection, Tree, root_protection

FAR = area(rectangle(1.0, 1.0))


def protection(*stems: float, paved: Area = FAR, at: tuple[float, float] = (100.0, 100.0)) -> RootProtection:
    return root_protection(Sheet(), paved, Tree(stems, at))


#: Row of the published checks, stem diameter [m], radius [m], area [m2], tolerance as printed.
PUBLISHED = [
    ("TREE-01", 0.100, 1.2, 4.5),
    ("TREE-02", 0.250, 3.0, 28.3),
    ("TREE-03", 0.300, 3.6, 40.7),
    ("TREE-06", 1.000, 12.0, 452.4),
    ("TREE-07", 1.250, 15.0, 706.9),
    ("TREE-08", 1.500, 15.0, 706.9),
]


@pytest.mark.parametrize(("row", "stem", "radius", "square_metres"), PUBLISHED, ids=[row[0] for row in PUBLISHED])
def test_a_single_stem_is_protected_as_bs_5837_prints_it(
    row: str, stem: float, radius: float, square_metres: float
) -> None:
    found = protection(stem)
    assert found.radius == pytest.approx(radius, abs=0.05)
    assert found.protection_area == pytest.approx(square_metres, abs=0.1)


def test_more_than_five_stems_are_combined_by_their_mean() -> None:
    # TREE-10: six stems, 120 mm in the mean.
    found = protection(0.10, 0.14, 0.11, 0.13, 0.12, 0.12)
    assert found.stem_diameter == pytest.approx(0.2939, abs=5e-5)
    assert found.radius == pytest.approx(3.53, abs=0.005)
    assert found.protection_area == pytest.approx(39.1, abs=0.1)


def test_up_to_five_stems_are_combined_by_their_squares() -> None:
    # Three, four and twelve are the sides of a box whose diagonal is thirteen.
    assert protection(0.03, 0.04, 0.12).stem_diameter == pytest.approx(0.13)


def drawn_finely(outline: Outline) -> shapely.Polygon:
    points = []
    for (start, end), rise in zip(outline.sides, outline.rises or (0.0,) * len(outline.points), strict=True):
        points += [start, *(Arc(start, end, rise).chords(1e-6) if rise else [])]
    return shapely.Polygon(points)


def by_shapely(paved: Area, at: tuple[float, float], radius: float) -> float:
    body = drawn_finely(paved.outline)
    for opening in paved.openings:
        body = body.difference(drawn_finely(opening.outline))
    return body.intersection(shapely.Point(at).buffer(radius, quad_segs=2000)).area


def random_area(rng: random.Random) -> Area | None:
    corners = rng.randint(3, 8)
    angles = sorted(rng.uniform(0, 2 * math.pi) for _ in range(corners))
    points = [(r * math.cos(t), r * math.sin(t)) for t in angles for r in (rng.uniform(1, 6),)]
    chords = [math.dist(p, points[(k + 1) % corners]) for k, p in enumerate(points)]
    rises = {k: rng.uniform(-0.5, 0.5) * chord for k, chord in enumerate(chords) if rng.random() < 0.5}
    try:
        return area(polygon(points, rises), [circle(0.6).at(0.1, 0.1)] if rng.random() < 0.3 else [])
    except ImpossibleShape:
        return None


def test_the_overlap_is_what_shapely_intersects_arcs_and_openings_too() -> None:
    rng, compared = random.Random(3), 0
    for _ in range(600):
        paved = random_area(rng)
        at, radius = (rng.uniform(-7, 7), rng.uniform(-7, 7)), rng.choice([0.3, 1.0, 3.0, 6.0])
        if paved is None or not drawn_finely(paved.outline).is_valid:
            continue
        assert disc_overlap(paved, at, radius) == pytest.approx(by_shapely(paved, at, radius), abs=3e-4)
        compared += 1
    assert compared > 250


@given(x=st.floats(-3, 8), y=st.floats(-3, 8), radius=st.floats(0.1, 9))
@settings(max_examples=150, deadline=None)
def test_two_halves_overlap_a_disc_as_much_as_the_whole(x: float, y: float, radius: float) -> None:
    whole = area(polygon([(0, 0), (5, 0), (5, 4), (0, 4)], {1: 1.0}))
    left, right = area(rectangle(2, 4)), area(polygon([(2, 0), (5, 0), (5, 4), (2, 4)], {1: 1.0}))
    halves = disc_overlap(left, (x, y), radius) + disc_overlap(right, (x, y), radius)
    assert halves == pytest.approx(disc_overlap(whole, (x, y), radius), abs=1e-9)


def test_a_disc_that_holds_the_whole_area_overlaps_all_of_it() -> None:
    paved = area(circle(3.0), [rectangle(0.5, 0.5).at(1, 1)])
    assert disc_overlap(paved, (1.2, 1.7), 12.0) == pytest.approx(paved.net, rel=1e-12)


@pytest.mark.parametrize("at", [(5.0, 5.0), (5.0, 0.2), (9.5, 5.0), (5.0, 5.1), (2.0, 4.999999)])
def test_a_small_disc_anywhere_inside_a_large_circle_is_covered_whole(at: tuple[float, float]) -> None:
    # Where the disc lies between the chord and the arc of one half, the arc is seen the long way round.
    radius = min(0.19, 5 - math.dist(at, (5, 5)))
    assert disc_overlap(area(circle(10.0)), at, radius) == pytest.approx(math.pi * radius**2, rel=1e-9)


@pytest.mark.parametrize("at", [(-1.0, 5.0), (12.0, 5.0), (5.0, 10.5), (-0.3, 5.0)])
def test_a_disc_beside_the_area_overlaps_nothing(at: tuple[float, float]) -> None:
    assert disc_overlap(area(circle(10.0)), at, 0.3) == pytest.approx(0, abs=1e-12)


def test_a_disc_in_an_opening_overlaps_nothing() -> None:
    paved = area(rectangle(6, 5), [circle(2.0).at(2, 2)])
    assert disc_overlap(paved, (3.0, 3.0), 0.9) == pytest.approx(0, abs=1e-12)
    assert disc_overlap(paved, (3.0, 3.0), 1.5) == pytest.approx(math.pi * (1.5**2 - 1), rel=1e-9)


def test_paving_near_a_tree_is_cautioned_and_too_much_of_it_more_so() -> None:
    sheet = Sheet()
    # A quarter of the circle is paved: 25 % of its ground.
    found = root_protection(sheet, area(rectangle(9, 9)), Tree((0.25,), (0.0, 0.0)))
    assert found.share == pytest.approx(0.25)
    assert set(sheet.cautions) == {"roots", "roots_covered"}


def test_a_fifth_of_the_ground_may_be_paved() -> None:
    sheet = Sheet()
    tree = Tree((0.25,), (0.0, 0.0))
    wedge = [(0, 0), (9, 0), (9 * math.cos(0.4 * math.pi), 9 * math.sin(0.4 * math.pi))]
    found = root_protection(sheet, area(polygon(wedge, {})), tree)
    assert found.share == pytest.approx(0.2)
    assert set(sheet.cautions) == {"roots"}


def test_hard_surface_there_already_leaves_less_to_cover() -> None:
    sheet = Sheet()
    found = root_protection(sheet, area(rectangle(9, 9)), Tree((0.25,), (0.0, 0.0), surfaced=9 * math.pi / 2))
    assert found.share == pytest.approx(0.5)


def test_a_tree_out_of_reach_raises_no_caution() -> None:
    sheet = Sheet()
    root_protection(sheet, FAR, Tree((0.25,), (50.0, 0.0)))
    assert sheet.cautions == {}


def test_more_surfaced_than_there_is_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"No more than 28\.3 m2") as refused:
        root_protection(Sheet(), FAR, Tree((0.25,), (0.0, 0.0), surfaced=30.0))
    assert refused.value.place == ("surfaced",)
