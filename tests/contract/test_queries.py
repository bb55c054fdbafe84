"""Queries say the same as bodies: same answer, same strictness."""

import json
from urllib.parse import urlencode

import jsonschema_rs
import pytest

ARABIC = str.maketrans("0123456789", "٠١٢٣٤٥٦٧٨٩")


def row(body, path=()):
    """A request as a row of names and texts, and whether that says all of it."""
    pairs, whole = {}, True
    for name, value in body.items():
        place = (*path, name)
        if isinstance(value, dict):
            inner, all_of_it = row(value, place)
            pairs, whole = pairs | inner, whole and all_of_it
        elif name == "points":
            pairs[".".join(place)] = " ".join(f"{x},{y}" for x, y in value)
        elif isinstance(value, list):
            whole = False
        else:
            pairs[".".join(place)] = value if isinstance(value, str) else json.dumps(value)
    return pairs, whole


def got(client, path, pairs):
    return client.get(f"{path}?{urlencode(pairs)}")


def single_sized(body):
    """The request with its one slab under `slab`, as a query has it."""
    if isinstance(body, dict):
        body = {name: single_sized(value) for name, value in body.items()}
        if len(body.get("slabs", [])) == 1:
            body["slab"] = body.pop("slabs")[0]
    return body


def test_a_query_is_answered_as_the_same_body_is(client, asked):
    body = single_sized(asked.body)
    pairs, whole = row(body)
    if not whole:
        body = {name: value for name, value in body.items() if row({name: value})[1]}
        pairs, _ = row(body)
    by_body = client.post(asked.operation.path, json=body)
    by_query = got(client, asked.operation.path, pairs)
    if by_body.status_code == 400:  # what was left out is wanted
        assert by_query.status_code in (400, 422)
    else:
        assert by_query.status_code == by_body.status_code, by_query.text
        assert by_query.get_json() == by_body.get_json()


def test_a_resource_that_takes_a_query_answers_one(client, resource):
    """At least one query for each, so that the comparison above compares answers and not refusals."""
    answered = []
    for body in (resource.example,):
        pairs, whole = row(single_sized(body))
        if not whole:
            pairs, _ = row({name: value for name, value in body.items() if row({name: value})[1]})
            for name in [n for n in body if isinstance(body[n], dict)]:
                inner = {k: v for k, v in single_sized(body[name]).items() if not isinstance(v, list)}
                pairs |= row({name: inner})[0]
        answered.append(got(client, f"/v1/{resource.noun}", pairs).status_code)
    assert 200 in answered


SLIPS = [
    "",
    " ",
    "\n",
    "\0",
    "null",
    "[]",
    "{}",
    "7",
    "4.8",
    "NaN",
    "Infinity",
    "1e999",
    "true",
    "True",
    "on",
    "=1+1",
    "\ufffd",
]


def test_a_text_put_wrong_in_a_query_is_pointed_at(client, operation):
    if operation.method != "get" or "example" not in operation.document["responses"]["200"]["content"].get(
        "application/json", {}
    ):
        return
    given = operation.document["responses"]["200"]["content"]["application/json"]["example"].get("given")
    if given is None:
        return
    pairs, _ = row({k: v for k, v in single_sized(given).items() if not isinstance(v, list)})
    pairs = {name: text for name, text in pairs.items() if name in operation.parameters}
    for name, text in pairs.items():
        schema = operation.parameters[name]
        published = [jsonschema_rs.Draft202012Validator(s) for s in schema.get("anyOf", [schema])]
        kinds = {s.get("type") for s in schema.get("anyOf", [schema])}
        for slip in (*SLIPS, f"{text}\n", f" {text}", f"+{text}", text.translate(ARABIC), f"{text}_0", f"'{text}'"):
            answer = got(client, operation.path, pairs | {name: slip})
            fits = any(p.is_valid(v) for p in published for v in _meant(slip, kinds))
            assert answer.status_code in ((200, 422) if fits else (400,)), (name, slip, answer.text)
            if not fits:
                assert [e["pointer"] for e in answer.get_json()["errors"]] == ["/" + name.replace(".", "/")]


def _meant(text, kinds):
    """The JSON values a query's text may stand for."""
    yield text
    if kinds & {"number", "integer", "boolean"}:
        try:
            value = json.loads(text, parse_constant=lambda _: None)
        except ValueError:
            return
        if isinstance(value, bool | int | float) and text == text.strip():
            yield value


def test_a_name_given_twice_in_a_query_is_pointed_at(client, operation):
    if operation.method != "get":
        return
    path = operation.address
    for name in operation.parameters:
        answer = client.get(f"{path}?{urlencode([(name, '1'), (name, '1')])}")
        assert answer.status_code == 400
        assert "Given more than once." in [
            e["detail"] for e in answer.get_json()["errors"] if e["pointer"] == "/" + name.replace(".", "/")
        ]


@pytest.mark.parametrize("name", ["zz", "a.b", "_schema", "constructor", "__proto__", "%00", "ü", "a/b", "~"])
def test_an_unknown_name_in_a_query_is_pointed_at(client, operation, name):
    if operation.method != "get":
        return
    path = operation.address
    answer = got(client, path, {name: "1"})
    pointer = "/" + name.replace("~", "~0").replace("/", "~1").replace(".", "/")
    assert answer.status_code == 400
    assert pointer in [e["pointer"] for e in answer.get_json()["errors"]]
