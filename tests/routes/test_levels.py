"""/v1/levels: what is asked wrong is pointed at, and every way out says the same."""

import csv
import io

import pytest

ASKED = {
    "area": {"shape": "rectangle", "length": "4 m", "width": "3 m"},
    "fall": {"gradient": "1 in 60", "towards": "right"},
    "build_up": {"slab_thickness": "40 mm", "laying_course": "40 mm", "sub_base": "150 mm"},
}
QUERY = {
    "area.shape": "rectangle",
    "area.length": "4 m",
    "area.width": "3 m",
    "fall.gradient": "1 in 60",
    "fall.towards": "right",
    "build_up.slab_thickness": "40 mm",
    "build_up.laying_course": "40 mm",
    "build_up.sub_base": "150 mm",
}


@pytest.mark.parametrize(
    ("change", "status", "pointer"),
    [
        ({"fall": {"gradient": "1 in 60"}}, 422, "/fall/towards"),
        ({"fall": {"towards": "right"}}, 422, "/fall/gradient"),
        ({"fall": {}}, 422, "/fall/gradient"),
        ({"fall": {"gradient": "2 %", "towards": "top", "gradient_x": "1 %"}}, 422, "/fall/gradient_x"),
        ({"fall": {"gradient": "2 %", "towards": "top", "gradient_y": "1 %"}}, 422, "/fall/gradient_y"),
        ({"fall": {"gradient": "1 in 0", "towards": "top"}}, 422, "/fall/gradient"),
        ({"fall": {"gradient": "-1 in 60", "towards": "top"}}, 400, "/fall/gradient"),
        ({"fall": {"gradient": "1 in 60", "towards": "uphill"}}, 400, "/fall/towards"),
        ({"fall": {"gradient": "1 in 60", "towards": 90}}, 400, "/fall/towards"),
        ({"fall": {"gradient": 0.02, "towards": "top"}}, 400, "/fall/gradient"),
        ({"datum": {"at": {"x": "1 m"}}}, 400, "/datum/at/y"),
        ({"datum": -150}, 400, "/datum"),
        ({"damp_proof_course": {"level": "0 mm", "wall": "north"}}, 400, "/damp_proof_course/wall"),
        ({"damp_proof_course": {"level": "0 mm", "wall": "side 5"}}, 422, "/damp_proof_course/wall"),
        ({"damp_proof_course": {"wall": "top"}}, 400, "/damp_proof_course/level"),
        ({"peg_spacing": "100 mm", "area": {"shape": "circle", "diameter": "90 m"}}, 422, "/peg_spacing"),
        ({"area": "12 m2"}, 400, "/area"),
        ({"build_up": {"slab_thickness": "40 mm", "laying_course": "40 mm"}}, 400, "/build_up/sub_base"),
    ],
)
def test_what_is_asked_wrong_is_pointed_at(client, change, status, pointer):
    answer = client.post("/v1/levels", json={**ASKED, **change})
    assert answer.status_code == status, answer.text
    (error,) = answer.get_json()["errors"]
    assert error["pointer"] == pointer
    assert len(error["detail"]) > 10


def test_a_direction_can_be_a_side_or_its_angle(client):
    by_side = client.post("/v1/levels", json=ASKED).get_json()
    by_angle = client.post("/v1/levels", json={**ASKED, "fall": {"gradient": "1 in 60", "towards": "0 deg"}}).get_json()
    by_parts = client.post("/v1/levels", json={**ASKED, "fall": {"gradient_x": "1 in 60"}}).get_json()
    assert by_side["pegs"] == by_angle["pegs"] == by_parts["pegs"]
    assert by_angle["given"]["fall"] == {"gradient": "1 in 60", "towards": "0 deg"}


def test_a_fall_that_rises_along_a_side_is_repeated_with_its_sign(client):
    fall = {"gradient_x": "1 in 60", "gradient_y": "-1 in 70"}
    answer = client.post("/v1/levels", json={**ASKED, "fall": fall}).get_json()
    assert answer["given"]["fall"] == fall
    assert (answer["lowest_x_m"], answer["lowest_y_m"]) == (4.0, 0.0)


def test_a_datum_can_be_no_more_than_a_level(client):
    short = client.post("/v1/levels", json={**ASKED, "datum": "-150 mm"}).get_json()
    long = client.post("/v1/levels", json={**ASKED, "datum": {"finished": "-150 mm"}}).get_json()
    assert short["pegs"] == long["pegs"]
    assert short["highest_mm"] == -150.0


@pytest.mark.parametrize("wall", ["left", "side 4"])
def test_a_wall_is_a_side_of_the_plan_or_of_the_outline(client, wall):
    asked = {**ASKED, "datum": "-100 mm", "damp_proof_course": {"level": "0 mm", "wall": wall}}
    answer = client.post("/v1/levels", json=asked).get_json()
    assert "near_dpc" in {caution["code"] for caution in answer["cautions"]}
    assert answer["given"]["damp_proof_course"]["wall"] == wall


def test_every_way_out_says_the_same(client):
    answer = client.post("/v1/levels", json=ASKED).get_json()
    assert client.get("/v1/levels", query_string=QUERY).get_json() == answer
    rows = list(csv.DictReader(io.StringIO(client.get("/v1/levels.csv", query_string=QUERY).text)))
    assert [float(row["finished_mm"]) for row in rows] == [peg["finished_mm"] for peg in answer["pegs"]]
    assert float(client.get("/v1/levels/fall_mm", query_string=QUERY).text) == pytest.approx(4000 / 60)
    assert client.get("/v1/levels.svg", query_string=QUERY).mimetype == "image/svg+xml"


def test_the_levels_of_a_patio_by_hand(client):
    """4 m falling 1 in 60 from 150 mm below the sill: -150 at the left, -216.7 at the right; 230 mm to formation."""
    answer = client.post("/v1/levels", json={**ASKED, "datum": "-150 mm"}).get_json()
    left, right = (next(p for p in answer["pegs"] if (p["x_m"], p["y_m"]) == (x, 0.0)) for x in (0.0, 4.0))
    assert [left[f"{name}_mm"] for name in ("finished", "bed", "sub_base", "formation")] == [-150, -190, -230, -380]
    assert right["finished_mm"] == pytest.approx(-216.667, abs=0.001)
    assert right["formation_mm"] == pytest.approx(-446.667, abs=0.001)
