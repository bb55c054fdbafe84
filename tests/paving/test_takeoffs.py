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
