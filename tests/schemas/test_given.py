"""What was understood: `given` asked again gives the same answer, and a unit is only a way of writing."""

import json
import re
from collections import Counter
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.schemas.quantities import DIMENSIONS

#: Units in which a decimal stays a decimal: each the power of ten it is of the first.
DECIMAL = {
    "length": {"mm": 0, "cm": 1, "m": 3},
    "position": {"mm": 0, "cm": 1, "m": 3},
    "volume": {"ml": 0, "l": 3, "m3": 6},
    "mass": {"g": 0, "kg": 3, "t": 6},
    "density": {"kg/m3": 0, "t/m3": 3, "kg/l": 3},
}
_SIMPLE = re.compile(r"(-?)([0-9]+)(?:\.([0-9]+))? ?(.+)", re.ASCII)


def dimension_of(schema):
    """The dimension of a quantity's schema; None for any other."""
    fits = [d for d in DIMENSIONS if schema.get("pattern") == f"^{d.pattern}$"]
    return fits[0] if fits else None


def moved(text, by):
    """A decimal with its point moved."""
    sign, whole, part, _ = _SIMPLE.fullmatch(text).groups(default="")
    digits, at = whole + part, len(whole) + by
    digits = digits.rjust(len(digits) - min(at, 0), "0").ljust(max(at, 0), "0")
    at = max(at, 0)
    left, right = digits[:at].lstrip("0") or "0", digits[at:].rstrip("0")
    return sign + left + ("." + right if right else "")


def in_other_units(draw, dimension, text):
    """The same quantity in another decimal unit, exactly."""
    found = _SIMPLE.fullmatch(text)
    units = DECIMAL.get(dimension.name, {})
    if not found or found[4] not in units:
        return text
    unit = draw(st.sampled_from(sorted(units)))
    other = f"{moved(text, units[found[4]] - units[unit])} {unit}"
    return other if dimension.value(other) is not None else text


def nearby(draw, dimension, text):
    """Another quantity of about the same size, in any unit; no greater, so that what was inside stays inside."""
    value = dimension.value(text) * draw(st.floats(0.8, 1.0))
    unit = draw(st.sampled_from(list(dimension.units)))
    places = draw(st.integers(2, 6))
    other = f"{value / dimension.factors[unit]:.{places}f} {unit}"
    return other if dimension.value(other) is not None else text


def scaled(by):
    """All quantities made smaller alike: sizes that fit each other still do."""

    def rewrite(draw, dimension, text):
        found = _SIMPLE.fullmatch(text)
        if not found:
            return text
        sign, whole, part, unit = found.groups(default="")
        other = f"{sign}{Decimal(f'{whole}.{part or 0}') * by:f} {unit}"
        return other if dimension.value(other) is not None else text

    return rewrite


def rewritten(draw, asked, walked, rewrite):
    """The request with every quantity rewritten."""
    body = asked.body
    for place, schema, value in walked(asked.schema, asked.body):
        dimension = dimension_of(schema)
        if dimension:
            body = type(asked)(asked.operation, "", body).with_value(place, rewrite(draw, dimension, value))
    return body


def post(client, asked, body):
    return client.post(asked.operation.path, json=body)


def test_what_was_understood_is_understood_the_same(client, asked):
    answer = post(client, asked, asked.body)
    assert answer.status_code == 200, answer.text
    again = post(client, asked, answer.get_json()["given"])
    assert again.status_code == 200, again.text
    assert again.get_json() == answer.get_json()


def test_any_request_nearby_is_understood_the_same_again(client, asked, walked):
    seen = Counter()

    @settings(max_examples=25)
    @given(st.data())
    def hold(data):
        rewrite = data.draw(st.just(nearby) | st.integers(800, 1000).map(lambda k: scaled(Decimal(k) / 1000)))
        answer = post(client, asked, rewritten(data.draw, asked, walked, rewrite))
        assert answer.status_code in (200, 422), answer.text
        seen[answer.status_code] += 1
        if answer.status_code == 200:
            again = post(client, asked, answer.get_json()["given"])
            assert again.status_code == 200, again.text
            assert again.get_json() == answer.get_json()

    hold()
    assert seen[200] >= 5, seen


def test_a_unit_changes_no_figure(client, asked, walked):
    expected = post(client, asked, asked.body).get_json()

    @settings(max_examples=15)
    @given(st.data())
    def hold(data):
        answer = post(client, asked, rewritten(data.draw, asked, walked, in_other_units))
        assert answer.get_json() == expected

    hold()


def test_workings_left_out_change_no_figure(client, asked):
    answer = post(client, asked, asked.body | {"workings": True}).get_json()
    bare = post(client, asked, asked.body | {"workings": False}).get_json()
    assert answer.pop("workings") is not None
    assert "workings" not in bare
    assert answer.pop("given") | {"workings": False} == bare.pop("given")
    assert answer == bare


def test_the_same_request_gets_the_same_bytes(client, asked):
    assert post(client, asked, asked.body).data == post(client, asked, asked.body).data


def test_an_answer_fits_its_published_schema(client, contract, asked):
    import jsonschema_rs

    media = asked.operation.document["responses"]["200"]["content"]["application/json"]
    published = jsonschema_rs.Draft202012Validator({**media["schema"], "components": contract["components"]})
    published.validate(post(client, asked, asked.body).get_json())


def test_the_contract_shows_what_is_answered(client, asked):
    if asked.name.endswith("-in-the-contract"):
        media = asked.operation.document["responses"]["200"]["content"]["application/json"]
        answer = post(client, asked, asked.body).get_json()
        del answer["workings"]  # they would swell the contract
        assert json.loads(json.dumps(media["example"])) == answer


@pytest.mark.parametrize(("text", "by", "expected"), [
    ("4.8 m", 3, "4800"), ("4800 mm", -3, "4.8"), ("0.005 m", 3, "5"), ("5 mm", -3, "0.005"), ("12.5 m", 1, "125"),
    ("-0.3 m", 2, "-30"), ("0 m", 3, "0"), ("1234.5 mm", -3, "1.2345"),
])  # fmt: skip
def test_the_point_is_moved(text, by, expected):
    assert moved(text, by) == expected
