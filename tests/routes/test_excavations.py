"""/v1/excavations: what is asked wrong is pointed at, and every way out says the same."""

import pytest

SHAPE = {"shape": "rectangle", "length": "6 m", "width": "4 m"}
ASKED = {"area": SHAPE, "depth": "230 mm"}
BUILD_UP = {"slab_thickness": "40 mm", "laying_course": "40 mm", "sub_base": "150 mm"}


def spots(*triples, unit="m"):
    return {"ground": {"surface": "spot_levels", "unit": unit, "spots": [list(triple) for triple in triples]}}


@pytest.mark.parametrize(
    ("change", "status", "pointer"),
    [
        ({"build_up": BUILD_UP}, 422, "/depth"),
        ({"depth": "6 m"}, 422, "/depth"),
        ({"depth": 230}, 400, "/depth"),
        ({"soil": "loam"}, 400, "/soil"),
        ({"bulking": 0.9}, 400, "/bulking"),
        ({"strip": {"depth": "40 mm"}}, 400, "/strip/what"),
        ({"ground": {"surface": "bumpy"}}, 400, "/ground/surface"),
        ({"ground": {"surface": "plane"}}, 400, "/ground/fall"),
        ({"ground": {"surface": "plane", "fall": {}}}, 422, "/ground/fall/gradient"),
        ({"ground": {"surface": "level", "level": "300 mm", "spots": []}}, 400, "/ground/spots"),
        (spots((0, 0, 0), (6, 0, 0)), 400, "/ground/spots"),
        (spots((0, 0, 0), (6, 0), (6, 4, 0)), 400, "/ground/spots/1"),
        (spots((0, 0, 0), (6, 0, 0), (6, 4, "0")), 400, "/ground/spots/2"),
        (spots((0, 0, 0), (3, 0, 0), (6, 0, 0)), 422, "/ground/spots"),
        (spots((0, 0, 0), (6, 0, 0), (6, 4, 0)), 422, "/ground/spots"),
        (spots((0, 0, 0), (6, 0, 0), (6, 4, 0), (0, 4, 0), (6, 0, 0.1)), 422, "/ground/spots/4"),
        (spots((0, 0, 0), (6000, 0, 0), (6000, 4000, 0)), 422, "/ground/spots/1"),
        ({"area": "24 m2", "over_dig": "150 mm"}, 422, "/over_dig"),
        ({"area": "24 m2", "fall": {"gradient": "2 %", "towards": "top"}}, 422, "/fall"),
        ({"area": "24 m2", **spots((0, 0, 0), (6, 0, 0), (6, 4, 0))}, 422, "/ground"),
    ],
)
def test_what_is_asked_wrong_is_pointed_at(client, change, status, pointer):
    answer = client.post("/v1/excavations", json={**ASKED, **change})
    assert answer.status_code == status, answer.text
    (error,) = answer.get_json()["errors"]
    assert error["pointer"] == pointer
    assert len(error["detail"]) > 10


def test_neither_depth_nor_build_up_is_pointed_at(client):
    answer = client.post("/v1/excavations", json={"area": SHAPE})
    assert (answer.status_code, answer.get_json()["errors"][0]["pointer"]) == (422, "/depth")


def test_a_depth_and_the_build_up_it_is_made_of_dig_the_same(client):
    by_depth = client.post("/v1/excavations", json=ASKED).get_json()
    by_layers = client.post("/v1/excavations", json={"area": SHAPE, "build_up": BUILD_UP}).get_json()
    assert by_depth["volume_in_place_m3"] == by_layers["volume_in_place_m3"] == pytest.approx(24 * 0.23)


def test_a_dig_in_clay_by_hand(client):
    """6.3 m x 4.3 m x 0.23 m = 6.2307 m3; swells by 1.43 to 8.9099 m3, two skips of 8 cubic yards (6.116 m3)."""
    answer = client.post("/v1/excavations", json={**ASKED, "soil": "clay", "over_dig": "150 mm"}).get_json()
    assert answer["dig_area_m2"] == pytest.approx(27.09)
    assert answer["volume_in_place_m3"] == pytest.approx(6.2307)
    assert answer["volume_loose_m3"] == pytest.approx(8.9099, abs=1e-4)
    assert {skip["capacity_yd3"]: skip["count"] for skip in answer["skips"]} == {2: 6, 4: 3, 6: 2, 8: 2}


def test_spot_levels_can_stand_in_a_query(client):
    asked = {**ASKED, **spots((0, 0, 0.1), (6, 0, 0), (6, 4, 0.05), (0, 4, 0.2), (3, 2, 0.3))}
    query = {
        "area.shape": "rectangle",
        "area.length": "6 m",
        "area.width": "4 m",
        "depth": "230 mm",
        "ground.surface": "spot_levels",
        "ground.unit": "m",
        "ground.spots": "0,0,0.1 6,0,0 6,4,0.05 0,4,0.2 3,2,0.3",
    }
    by_body, by_query = client.post("/v1/excavations", json=asked), client.get("/v1/excavations", query_string=query)
    assert by_body.status_code == by_query.status_code == 200
    assert by_body.get_json() == by_query.get_json()
    figure = client.get("/v1/excavations/volume_in_place_m3", query_string=query)
    assert float(figure.text) == pytest.approx(by_body.get_json()["volume_in_place_m3"])
    malformed = client.get("/v1/excavations", query_string={**query, "ground.spots": "0,0 6,0 6,4"})
    assert malformed.status_code == 400


def test_the_unit_of_spots_is_theirs_alone(client):
    metres = spots((0, 0, 0.1), (6, 0, 0), (6, 4, 0.05), (0, 4, 0.2))
    millimetres = spots((0, 0, 100), (6000, 0, 0), (6000, 4000, 50), (0, 4000, 200), unit="mm")
    answers = [client.post("/v1/excavations", json={**ASKED, **each}).get_json() for each in (metres, millimetres)]
    assert answers[0]["volume_in_place_m3"] == answers[1]["volume_in_place_m3"]


def test_a_fall_of_the_ground_needs_no_point(client):
    ground = {"surface": "plane", "level": "100 mm", "fall": {"gradient": "1 in 50", "towards": "right"}}
    answer = client.post("/v1/excavations", json={**ASKED, "ground": ground}).get_json()
    assert answer["volume_in_place_m3"] == pytest.approx(24 * (0.23 + 0.1 - 0.06))
    there = {**ground, "at": {"x": "6 m", "y": "0 m"}}
    moved = client.post("/v1/excavations", json={**ASKED, "ground": there}).get_json()
    assert moved["volume_in_place_m3"] == pytest.approx(24 * (0.23 + 0.1 + 0.06))


def test_what_is_known_better_is_repeated_as_given(client):
    own = {"bulking": 1.3, "density": "1.85 t/m3", "tipper_payload": "7 t", "strip": {"what": "topsoil"}}
    answer = client.post("/v1/excavations", json={**ASKED, **own}).get_json()
    assert answer["given"]["bulking"] == 1.3
    assert answer["volume_loose_m3"] == pytest.approx(answer["volume_in_place_m3"] * 1.3)
    assert answer["mass_t"] == pytest.approx(answer["volume_in_place_m3"] * 1.85)
    assert answer["strip"]["depth_mm"] == 150.0
    given = {entry["name"] for entry in answer["assumptions"] if entry["basis"] == "given"}
    assert given == {"common_earth loose to in place", "common_earth density in place", "tipper_payload"}
