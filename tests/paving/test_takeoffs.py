"""Take-offs: what a whole job refuses that its parts alone would let pass."""

import copy

import pytest

from service.routes.takeoffs import DEMO


def asked(client, depth: str):
    job = copy.deepcopy(DEMO)
    job["jointing"]["depth"] = depth
    return client.post("/v1/takeoffs", json=job)


def test_a_joint_deeper_than_its_slab_is_refused(client) -> None:
    answer = asked(client, "51 mm")
    assert answer.status_code == 422
    assert answer.json["errors"] == [
        {"pointer": "/jointing/depth", "detail": "A joint is no deeper than the slab beside it: at most 50 mm here."}
    ]


@pytest.mark.parametrize("depth", ["50 mm", "10 mm"])
def test_a_joint_as_deep_as_its_slab_or_less_is_filled(client, depth) -> None:
    assert asked(client, depth).status_code == 200


def test_slabs_laid_edge_to_edge_leave_no_joint_to_fill(client) -> None:
    job = copy.deepcopy(DEMO)
    job["paving"]["joint"] = "0 mm"
    found = client.post("/v1/takeoffs", json=job).json
    assert found["layout"]["joint_area_m2"] == 0
    assert found["jointing"] is None
    assert "jointing" not in {line["section"] for line in found["bill"]}


def test_one_slab_alone_has_no_joint_to_fill(client) -> None:
    found = client.post(
        "/v1/takeoffs", json=DEMO | {"area": {"shape": "rectangle", "length": "600 mm", "width": "300 mm"}}
    )
    assert found.status_code == 200
    assert found.json["jointing"] is None


# A bare patio with stone under it, 6 m by 3 m.
BARE = {
    "area": {"shape": "rectangle", "length": "6 m", "width": "3 m"},
    "paving": DEMO["paving"],
    "build_up": {"sub_base": {"material": "type_1", "depth": "100 mm"}},
}


def taken(client, **more):
    answer = client.post("/v1/takeoffs", json=BARE | more)
    assert answer.status_code == 200, answer.text
    return answer.json


def test_stone_that_takes_up_the_fall_is_bought_as_deep_as_the_wedge_makes_it(client) -> None:
    """1 in 60 over 6 m is 100 mm: the stone is 100 mm deep where the water goes, 200 at the top, 150 on average."""
    stack = {**BARE["build_up"], "tapers": "sub_base"}
    found = taken(client, build_up=stack, fall={"gradient": "1 in 60", "towards": "right"})
    assert found["sub_base"]["mean_depth_mm"] == pytest.approx(150)
    assert found["sub_base"]["compacted_volume_m3"] == pytest.approx(6 * 3 * 0.15)


def test_ground_below_the_formation_is_filled_and_nothing_is_carted(client) -> None:
    """Slabs of 50 mm on 100 mm of stone: ground 250 mm below the finished level wants 100 mm of fill."""
    ground = {"surface": "level", "level": "-250 mm"}
    lines = [line for line in taken(client, ground=ground)["bill"] if line["section"] == "ground"]
    assert [(line["item"], line["unit"]) for line in lines] == [("fill", "m3")]
    assert lines[0]["gross"] == pytest.approx(6 * 3 * 0.1)


def test_a_kerb_set_on_a_foundation_that_is_there_takes_no_concrete(client) -> None:
    kerb = {"slab": {"length": "1 m", "width": "50 mm"}}
    without = {"bed_depth": "0 mm", "haunch_height": "0 mm"}
    bare, bedded = (
        [line["item"] for line in taken(client, edging=edging)["bill"] if line["section"] == "edging"]
        for edging in (kerb | {"haunch": without}, kerb)
    )
    assert bare == ["edging"]
    assert bedded[0] == "edging"
    assert "cement" in bedded


def test_a_strip_thinner_than_anything_laid_takes_no_slab_and_wastes_none(client) -> None:
    thread = {"shape": "polygon", "unit": "mm", "points": [[0, 0], [900000, 0], [900000, 0.4], [0, 0.4]]}
    found = taken(client, area=thread)
    assert (found["layout"]["slabs_to_buy"], found["layout"]["waste_percent"]) == (0, 0)
    assert "waste" not in {step["figure"] for step in found["workings"]}
