"""Every value of every request, put wrong in every usual way: 400 exactly where the published schema says no.

The judge of what the schema says is a JSON Schema validator from outside, not the service.
"""

import json

import jsonschema_rs
import pytest

ARABIC = str.maketrans("0123456789", "٠١٢٣٤٥٦٧٨٩")
WIDE = str.maketrans("0123456789", "０１２３４５６７８９")
ANYWHERE = [None, True, False, 7, 4.8, -1e308, 1e308, "", "7", "true", "x" * 5000, [], {}, [[]], {"": 0}, ["2 m"]]


def slips(value):
    """The ways a value is put wrong."""
    yield from ANYWHERE
    if isinstance(value, str):
        yield from (f"{value}\n", f"{value}\r\n", f" {value}", f"{value} ", f"{value}\0", f"\ufeff{value}", f"+{value}")
        yield from (
            value.translate(ARABIC),
            value.translate(WIDE),
            value.swapcase(),
            value * 2,
            [value],
            f"{value}\u2028",
        )
        yield from (f"={value}", f"<{value}>", f"{value};", value.replace(" ", "\u00a0"), value.replace(" ", "  "))
        yield from (value[:1] + "_" + value[1:], f"0{value}", f"0x{value}", f"1e{value}", f"'{value}'")
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield from (str(value), [value], -value - 1e9, value + 0.5, float(value), bool(value))


def judge(contract, schema):
    """A validator of one schema of the contract."""
    return jsonschema_rs.Draft202012Validator({**schema, "components": contract["components"]})


def pointers(answer):
    return [error["pointer"] for error in answer.get_json()["errors"]]


def test_a_value_put_wrong_is_pointed_at(client, contract, leaf):
    published, asked = judge(contract, leaf.asked.schema), leaf.asked
    refused = 0
    for slip in slips(leaf.value):
        body = asked.with_value(leaf.place, slip)
        answer = client.post(asked.operation.path, json=body)
        if published.is_valid(body):
            assert answer.status_code in (200, 422), (slip, answer.text)
            continue
        refused += 1
        assert answer.status_code == 400, (slip, answer.text)
        assert pointers(answer), slip
        for pointer in pointers(answer):
            # The elements of a pair are pointed at as the pair.
            assert pointer.startswith(leaf.pointer) or pointer == leaf.pointer.rpartition("/")[0], (slip, pointer)
    assert refused > len(ANYWHERE) // 2


def test_a_bare_number_for_a_quantity_is_told_the_right_form(client, leaf):
    if not (isinstance(leaf.value, str) and "pattern" in leaf.schema and " ?(?:" in leaf.schema["pattern"]):
        return
    for bare in (4.8, 480, "4.8", "480"):
        body = leaf.asked.with_value(leaf.place, bare)
        answer = client.post(leaf.asked.operation.path, json=body)
        assert answer.status_code == 400
        (error,) = answer.get_json()["errors"]
        assert error["pointer"] == leaf.pointer
        assert "needs its unit: write '" in error["detail"]


@pytest.mark.parametrize(
    "constant", ["NaN", "Infinity", "-Infinity", "1e999", "9" * 5000, "[" * 20_000, '"\\ud800"', '"\t"']
)
def test_what_is_not_json_is_refused_in_every_place(client, leaf, constant):
    marker = "a-place-for-what-is-not-json"
    raw = json.dumps(leaf.asked.with_value(leaf.place, marker)).replace(f'"{marker}"', constant)
    answer = client.post(leaf.asked.operation.path, data=raw, content_type="application/json")
    assert answer.status_code == 400
    assert pointers(answer) == [""]


def test_a_name_that_is_not_in_an_object_is_pointed_at(client, asked, walked):
    for place, _, value in walked(asked.schema, asked.body):
        if isinstance(value, dict):
            answer = client.post(asked.operation.path, json=asked.with_value((*place, "zz"), {"a": [None]}))
            assert answer.status_code == 400, answer.text
            assert pointers(answer) == ["".join(f"/{step}" for step in (*place, "zz"))]


def test_a_name_given_twice_is_pointed_at(client, asked, walked):
    for place, _, _ in walked(asked.schema, asked.body):
        if place and isinstance(place[-1], str):
            marker = "a-place-for-a-second"
            raw = json.dumps(asked.with_value((*place[:-1], marker), 0)).replace(f'"{marker}"', json.dumps(place[-1]))
            answer = client.post(asked.operation.path, data=raw, content_type="application/json")
            assert answer.status_code == 400, answer.text
            assert pointers(answer) == ["".join(f"/{step}" for step in place)]
            assert answer.get_json()["errors"][0]["detail"] == "Given more than once."


def test_a_name_left_out_is_missed_exactly_where_the_schema_wants_it(client, contract, asked, walked):
    published = judge(contract, asked.schema)
    for place, _, _ in walked(asked.schema, asked.body):
        if place and isinstance(place[-1], str):
            body = asked.without(place)
            answer = client.post(asked.operation.path, json=body)
            if published.is_valid(body):
                assert answer.status_code in (200, 422), (place, answer.text)
            else:
                assert answer.status_code == 400, (place, answer.text)
                assert pointers(answer) == ["".join(f"/{step}" for step in place)]


def test_what_is_shown_as_a_request_fits_its_own_schema(contract, asked):
    judge(contract, asked.schema).validate(asked.body)
