"""Published values of the ground, worked together: earth that changes its volume, and a patio from peg to bill.

Earth: US Army, Earthmoving Operations, FM 5-434, soil conversion factors (from memory; sand in place to loose
and to compacted were read in the US Navy's Engineering Aid, table 10-1), products worked here. The patio takes one
value from each of several works, named at each test; where a hand calculation joins them it stands in the test.
"""

import math
from typing import Any

import pytest


def answered(client: Any, noun: str, body: dict[str, Any]) -> Any:
    response = client.post(f"/v1/{noun}", json=body)
    assert response.status_code == 200, response.get_data(as_text=True)
    return response.json


def cut_to_fill(client: Any, soil: str, width: str) -> Any:
    """A dig on ground that falls by 1 in 20: 40 m of cut, 2 m deep at its end, make 20 m of fill, 1 m high at its end."""
    return answered(
        client,
        "excavations",
        {
            "area": {"shape": "rectangle", "length": "60 m", "width": width},
            "depth": "2 m",
            "soil": soil,
            "fill_from": "dig",
            "ground": {"surface": "plane", "fall": {"gradient": "1 in 20", "towards": "right"}},
        },
    )


@pytest.mark.parametrize(
    ("soil", "width", "compacted", "loose"),
    [
        pytest.param("sand", "5 m", 50, 58.5, id="SOIL-27, 50 m3 compacted are 58.5 m3 loose"),
        pytest.param("common_earth", "2 m", 20, 27.8, id="SOIL-28, 20 m3 compacted are 27.8 m3 loose"),
        pytest.param("clay", "2.52 m", 25.2, 40, id="SOIL-30, 40 m3 loose are 25.2 m3 compacted"),
    ],
)
def test_fill_takes_as_much_loose_earth_as_the_army_says(client, soil, width, compacted, loose):
    site = cut_to_fill(client, soil, width)
    assert site["fill_from_dig_m3"] == pytest.approx(compacted)
    assert site["volume_loose_m3"] - site["carted_loose_m3"] == pytest.approx(loose, rel=0.005)


def test_cuts_are_measured_in_place_fills_compacted_and_haulage_loose(client):
    """SOIL-52: US Navy, Equipment Operator, NAVEDTRA 14080, page 4-5 (public domain, read)."""
    site = cut_to_fill(client, "common_earth", "2 m")
    assert (site["volume_in_place_m3"], site["fill_m3"]) == (pytest.approx(80), pytest.approx(20))
    # The fill takes 20 / 0.90 = 22.2 m3 out of the ground; the other 57.8 m3 are hauled as 72.2 m3.
    assert site["carted_in_place_m3"] == pytest.approx(57.78, abs=0.005)
    assert site["carted_loose_m3"] == pytest.approx(72.22, abs=0.005)
    # Twelve skips of 6.12 m3; the volume in place would have filled ten.
    assert site["skips"][3]["count"] == 12


@pytest.fixture(scope="module")
def patio(client):
    """5 x 4 m against a house on the left, falling away from it; the ground lies 60 mm above the damp-proof course."""
    return answered(
        client,
        "takeoffs",
        {
            "area": {"shape": "rectangle", "length": "5 m", "width": "4 m"},
            "fall": {"gradient": "1 in 40", "towards": "right"},
            "datum": "-150 mm",
            "ground": {"surface": "plane", "level": "60 mm", "fall": {"gradient": "1 in 40", "towards": "right"}},
            "dig": {"damp_proof_course": {"level": "0 mm", "wall": "left"}},
            "paving": {
                "slabs": [{"length": "600 mm", "width": "600 mm", "thickness": "38 mm"}],
                "pattern": "stack_bond",
                "joint": "10 mm",
            },
            "build_up": {
                "sub_base": {"material": "type_1", "depth": "150 mm"},
                "laying_course": {"method": "full_bed", "depth": "52 mm"},
            },
            "drainage": {"country": "england", "position": "front"},
            "trees": [{"at": {"x": "5 m", "y": "2 m"}, "stem": "100 mm"}],
            "workings": False,
        },
    )


def codes(answer):
    return {caution["code"] for caution in answer["cautions"]}


def test_the_patio_falls_125_mm_from_150_mm_below_the_damp_proof_course(patio):
    """GEOM-18: 5.0 m at 1 in 40. BASE-46: 150 mm by Approved Document C (2004), 5.5, from memory."""
    levels = patio["levels"]
    assert levels["fall_mm"] == pytest.approx(125)
    assert (levels["highest_mm"], levels["lowest_mm"]) == (pytest.approx(-150), pytest.approx(-275))
    assert not {"near_dpc", "fall_to_wall", "steep_fall", "flat_fall", "flat_fall_for_blocks"} & codes(patio)


def test_nine_cubic_metres_of_earth_take_two_skips(patio):
    """PACK-19: 9 m3 in place x 1.25 / 6.12 is 1.84. The dig: 38 + 52 + 150 mm, and 210 mm from ground to paving."""
    dig = patio["excavation"]
    assert dig["dig_depth_mean_mm"] == pytest.approx(450)
    assert dig["volume_in_place_m3"] == pytest.approx(9)
    assert dig["skips"][3] == {"capacity_yd3": 8, "capacity_m3": pytest.approx(6.12, abs=0.005), "count": 2}


def test_its_sub_base_weighs_6_3_tonnes_in_one_lift(patio):
    """BASE-59: 20 x 0.150 x 2.1 t/m3 (common practice). BASE-02: up to 225 mm at once by NHBC 10.2.6 (2021), read."""
    assert patio["sub_base"]["mass_t"] == pytest.approx(6.3)
    assert patio["sub_base"]["lifts"] == 1


def test_its_bed_is_thicker_than_mortar_is_laid(patio):
    """BASE-45: 25 to 50 mm by BS 7533-4, from memory; 52 mm are asked."""
    assert "bed_depth" in codes(patio)


def test_its_slabs_weigh_32_kg_and_are_too_heavy_for_one(patio):
    """SAFE-18: 25 kg by HSE INDG143, from memory. 0.6 x 0.6 x 0.038 m of concrete at 2300 to 2450 kg/m3."""
    (slabs,) = [line for line in patio["bill"] if line["item"] == "slab"]
    assert 31.4 < slabs["mass_kg"] / slabs["gross"] < 33.6
    assert "lifting" in codes(patio)


def test_it_sheds_0_28_litres_a_second_over_its_low_edge_and_needs_an_application(patio):
    """DRAIN-08: 0.014 l/s on a square metre, Approved Document H3, read. DRAIN-03: more than 5 m2 to the road, read."""
    assert patio["drainage"]["flow_l_s"] == pytest.approx(20 * 0.014)
    assert patio["drainage"]["channel_length_m"] == pytest.approx(4)
    assert patio["drainage"]["planning"] == "application"


def test_it_covers_half_the_roots_of_a_tree_on_its_edge(patio):
    """TREE-01: 1.2 m for a stem of 100 mm, BS 5837:2012, from memory. TREE-12: a fifth at most, from memory."""
    (tree,) = patio["trees"]
    assert tree["radius_m"] == pytest.approx(1.2)
    assert tree["overlap_m2"] == pytest.approx(math.pi * 1.2**2 / 2)
    assert {"roots", "roots_covered"} <= codes(patio)
