"""The examples in openapi/examples: each is sent and its answer compared to the last digit.

A file is named after its operation, with a word behind it where there are several. It holds

    operation   the operation's id
    checked     how the answer's main figures were checked by hand
    request     {method, path, query, body}; query and body where there are any
    answer      {status, media_type, body}; the body as JSON, or as text
"""

import json
from pathlib import Path

import pytest

EXAMPLES = sorted((Path(__file__).parents[2] / "openapi" / "examples").glob("*.json"))


def _read(path):
    return json.loads(path.read_text("utf-8"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_is_answered_as_it_says(client, path):
    example = _read(path)
    request, expected = example["request"], example["answer"]
    answer = client.open(
        request["path"], method=request["method"], query_string=request.get("query"), json=request.get("body")
    )
    assert answer.status_code == expected["status"], answer.text
    assert answer.headers["Content-Type"] == expected["media_type"]
    assert (answer.get_json() if answer.is_json else answer.get_data(as_text=True)) == expected["body"]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_says_how_it_was_checked(path):
    example = _read(path)
    assert list(example) == ["operation", "checked", "request", "answer"]
    assert path.stem.startswith(example["operation"])
    assert len(example["checked"]) > 15


def test_an_operation_has_an_example(operation):
    mine = [_read(path) for path in EXAMPLES if _read(path)["operation"] == operation.id]
    assert [example for example in mine if example["answer"]["status"] == 200], f"openapi/examples/{operation.id}.json"
    address = operation.path.partition("{")[0]
    for example in mine:
        assert example["request"]["path"].startswith(address)
        assert example["request"]["method"].lower() == operation.method
