"""The demo job held against a hand calculation.

The arithmetic here is its own: areas by strips, slabs laid one by one and judged by shapely,
the mortar by the absolute volumes of its parts. Nothing of the service's formulas is used.
What is taken as given: densities and contents as /v1/materials and the assumptions state them
(common practice, or the source named there), and the packs of the generic catalogue.
"""

import math

import pytest
import shapely
from shapely.affinity import translate

from service.routes.takeoffs import DEMO

# The shape, in metres: 7.2 x 3.6 below, 4.8 x 1.8 above, less a round pit 1.2 across.
NET = 7.2 * 3.6 + 4.8 * 1.8 - math.pi * 0.6**2
LENGTH, WIDTH, THICKNESS, JOINT = 0.600, 0.300, 0.050, 0.008


@pytest.fixture(scope="module")
def answer(client):
    response = client.post("/v1/takeoffs", json=DEMO)
    assert response.status_code == 200
    return response.json


@pytest.fixture(scope="module")
def laid():
    """Every slab laid by hand: course after course, each moved half a slab from the one below."""
    # Walked round by hand: the terrace, then the pit as many chords, each of a millimetre's rise at most.
    terrace = shapely.Polygon([(0, 0), (7.2, 0), (7.2, 3.6), (4.8, 3.6), (4.8, 5.4), (0, 5.4)])
    pit = shapely.Point(1.5 + 0.6, 2.1 + 0.6).buffer(0.6, quad_segs=256)
    area = terrace.difference(pit)
    slab = shapely.box(0, 0, LENGTH, WIDTH)
    whole, cut, paved = 0, 0, 0.0
    for course in range(-1, 19):
        start = (course % 2) * (LENGTH + JOINT) / 2
        for place in range(-2, 13):
            x, y = start + place * (LENGTH + JOINT), course * (WIDTH + JOINT)
            kept = translate(slab, x, y).intersection(area).area
            if kept > LENGTH * WIDTH - 1e-6:
                whole += 1
            elif kept > 1e-6:
                cut += 1
            paved += kept
    return {"whole": whole, "cut": cut, "paved": paved}


def mortar(volume: float) -> tuple[float, float]:
    """Cement [kg] and sand [t] of a 1:4 semi-dry mortar, part by part.

    One part of cement and four of dry sand weigh 1440 and 4 x 1600 kg to the cubic metre of a part;
    their grains fill 1440/3150 and 6400/2650 of a part; 13 % water and 8 % air fill the rest.
    """
    grains = 1440 / 3150 + 4 * 1600 / 2650
    mix_from_one_part = grains / 0.79
    parts = volume / mix_from_one_part
    return parts * 1440, parts * 6400 / 1000


def line(answer, section, item):
    (found,) = [row for row in answer["bill"] if (row["section"], row["item"]) == (section, item)]
    return found


def test_the_area_is_two_rectangles_less_a_circle(answer):
    assert answer["area"]["area_m2"] == pytest.approx(NET, rel=1e-9)


def test_the_sub_base_is_a_tenth_of_a_metre_at_2_1_tonnes(answer):
    found = line(answer, "sub_base", "type_1")
    assert found["net"] == pytest.approx(NET * 0.1 * 2.1, rel=1e-9)
    assert found["gross"] == pytest.approx(NET * 0.1 * 2.1 * 1.05, rel=1e-9)
    # 7.37 t is more than 8 bulk bags of 850 kg and 8 small bags of 25 kg (7.0 t): nine bulk bags.
    assert [(pack["pack"], pack["count"]) for pack in found["packs"]] == [("bulk bag", 9)]
    assert found["surplus"] == pytest.approx(9 * 0.85 - NET * 0.1 * 2.1 * 1.05, abs=1e-6)
    assert found["mass_kg"] == pytest.approx(7650)


def test_the_bed_takes_the_cement_and_sand_of_its_volume(answer):
    cement, sand = mortar(NET * 0.040)
    found = line(answer, "laying_course", "cement")
    assert found["net"] == pytest.approx(cement, rel=1e-9)
    assert line(answer, "laying_course", "sharp_sand")["net"] == pytest.approx(sand, rel=1e-9)


def test_the_slabs_are_those_laid_one_by_one(answer, laid):
    layout = answer["layout"]
    assert (layout["slabs_whole"], layout["slabs_cut"]) == (laid["whole"], laid["cut"])
    assert layout["paved_area_m2"] == pytest.approx(laid["paved"], abs=1e-4)


def test_the_slabs_bought_hold_every_piece_and_no_slab_is_bought_for_nothing(answer, laid):
    found = line(answer, "paving", "slab")
    by_area = math.ceil(laid["paved"] / (LENGTH * WIDTH) - 1e-9)
    assert by_area <= found["net"] <= laid["whole"] + laid["cut"]
    assert found["gross"] == math.ceil(found["net"] * 1.05)
    crates, single = divmod(int(found["gross"]), 48)
    assert {pack["pack"]: pack["count"] for pack in found["packs"]} == {"crate of 48": crates, "single slab": single}
    assert found["mass_kg"] == pytest.approx(found["gross"] * 0.6 * 0.3 * 0.05 * 2350)


def test_the_joints_take_what_the_slabs_leave(answer, laid):
    cement, sand = mortar((NET - laid["paved"]) * 0.040)
    assert line(answer, "jointing", "cement")["net"] == pytest.approx(cement, rel=1e-4)
    assert line(answer, "jointing", "building_sand")["net"] == pytest.approx(sand, rel=1e-4)


def test_the_cement_of_bed_and_joints_is_bought_in_one_go(answer, laid):
    bed, joints = line(answer, "laying_course", "cement"), line(answer, "jointing", "cement")
    cement = mortar(NET * 0.040)[0] * 1.05 + mortar((NET - laid["paved"]) * 0.040)[0] * 1.10
    bags = math.ceil(cement / 25)
    assert [pack["count"] for pack in bed["packs"]] == [bags]
    assert bed["surplus"] == pytest.approx(bags * 25 - cement, abs=0.01)
    assert (bed["mass_kg"], bed["bought_with"]) == (bags * 25, None)
    assert (joints["packs"], joints["surplus"], joints["mass_kg"]) == ([], 0, 0)
    assert joints["bought_with"] == bed["line"]


def test_the_job_weighs_what_its_lines_weigh(answer):
    assert answer["mass_t"] == pytest.approx(sum(row["mass_kg"] for row in answer["bill"]) / 1000)
    assert [row["section"] for row in answer["bill"]] == [
        "sub_base", "laying_course", "laying_course", "paving", "jointing", "jointing",
    ]  # fmt: skip
