"""The edge table: what a fuzzer may miss, written out, each with its exact status and pointers."""

import tomllib
from pathlib import Path

import pytest

TABLES = Path(__file__).parent / "edges"
USUAL = {
    "bodies": {"method": "POST", "path": "/v1/areas", "type": "application/json", "status": 400},
    "impossible": {"method": "POST", "path": "/v1/areas", "type": "application/json", "status": 422},
    "queries": {"method": "GET", "status": 400},
    "http": {"method": "GET", "pointers": []},
}


def _edges():
    for table, usual in USUAL.items():
        for edge in tomllib.loads((TABLES / f"{table}.toml").read_text("utf-8"))["edge"]:
            yield pytest.param({**usual, **edge}, id=f"{table}: {edge['name']}")


def _sent(edge):
    if "hex" in edge:
        return bytes.fromhex(edge["hex"])
    if "parts" in edge:
        return "".join(text * times for text, times in edge["parts"]).encode()
    return edge.get("body", "").encode()


EDGES = list(_edges())


@pytest.mark.parametrize("edge", EDGES)
def test_an_edge_answers_its_exact_status_as_a_problem(client, edge):
    headers = {"Accept": edge["accept"]} if "accept" in edge else {}
    answer = client.open(
        edge["path"], method=edge["method"], data=_sent(edge), content_type=edge.get("type"), headers=headers
    )
    assert answer.status_code == edge["status"], answer.text
    assert answer.headers["Content-Type"] == "application/problem+json"
    assert answer.headers["Cache-Control"] == "no-store"
    assert sorted(answer.headers.get("Allow", "").split(", ")) == sorted(edge.get("allow", "").split(", "))
    if edge["method"] == "HEAD":
        assert answer.data == b""
        return
    problem = answer.get_json()
    assert list(problem) == ["type", "title", "status", "detail", "errors"]
    assert problem["status"] == edge["status"]
    assert [error["pointer"] for error in problem["errors"]] == edge["pointers"]
    assert edge.get("says", "") in " ".join(error["detail"] for error in problem["errors"])
    assert all(len(error["detail"]) < 400 for error in problem["errors"])


def test_the_names_of_edges_tell_them_apart():
    names = [parameter.id for parameter in EDGES]
    assert len(set(names)) == len(names) > 200
