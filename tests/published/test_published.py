"""Published values, worked examples and theorems, as data in cases/*.toml.

Each case names what was published, by whom, and how it is known here: "read" (in front of whoever
wrote the case), "memory" (said so), "derived" (worked from a published value, the working in `name`
or `note`) or "common practice" (no source claimed). A case asks the service over HTTP (`post` or
`get`) for a `figure`, or one `over` another, or whether it raises a `caution` by its code or is
`refused` at a pointer; or it works one formula of the trade with units (`formula`, `inputs`,
`unit`), or looks up a default (`reference`). `expect` is as printed; `within` follows the printed precision: a number
in the unit of `expect`, or text such as "2 %". A `band` instead of `expect` is the span of sources
that disagree.
"""

import importlib
import tomllib
from pathlib import Path
from typing import Any

import pint
import pytest

from service.paving.reference import default, table

CASES = sorted(Path(__file__).parent.glob("cases/*.toml"))
KNOWN = {"read", "memory", "derived", "common practice"}
KEYS = {
    "id", "name", "source", "known", "note", "expect", "within", "band", "unit",
    "post", "get", "body", "figure", "over", "caution", "refused", "formula", "inputs", "reference",
}  # fmt: skip
REGISTRY = pint.UnitRegistry()
REGISTRY.define("skip_yard = yard ** 3")


def load(path: Path) -> list[dict[str, Any]]:
    """The cases of a file; one without a source, or with a word too many, does not load."""
    cases: list[dict[str, Any]] = tomllib.loads(path.read_text("utf-8"))["case"]
    for case in cases:
        unknown = set(case) - KEYS
        if unknown or case.get("known") not in KNOWN or (not case.get("source") and case["known"] != "common practice"):
            raise ValueError(f"{path.name}: {case.get('id')} lacks a source, or says {unknown}")
        if ("expect" in case) == ("band" in case):
            raise ValueError(f"{path.name}: {case['id']} needs either what is expected or a band")
    return cases


ALL = [case for path in CASES for case in load(path)]


@pytest.mark.parametrize("case", ALL, ids=[case["id"] for case in ALL])
def test_the_published_value_comes_out(case: dict[str, Any], client: Any) -> None:
    found = _found(case, client)
    if "band" in case:
        low, high = case["band"]
        assert low - 1e-9 <= found <= high + 1e-9, case["name"]
        return
    expected = case["expect"]
    if isinstance(expected, float | int) and not isinstance(expected, bool):
        assert found == pytest.approx(expected, abs=_within(case), rel=0), case["name"]
    else:
        assert found == expected, case["name"]


def test_every_case_has_a_name_of_its_own() -> None:
    ids = [case["id"] for case in ALL]
    assert len(set(ids)) == len(ids)


def test_a_case_without_a_source_does_not_load(tmp_path: Path) -> None:
    path = tmp_path / "bad.toml"
    path.write_text('[[case]]\nid = "X"\nname = "x"\nknown = "read"\nexpect = 1\n', "utf-8")
    with pytest.raises(ValueError, match="lacks a source"):
        load(path)


def _within(case: dict[str, Any]) -> float:
    within = case.get("within", 1e-9)
    if isinstance(within, str):
        return abs(case["expect"]) * float(within.removesuffix("%")) / 100
    return float(within)


def _found(case: dict[str, Any], client: Any) -> Any:
    if "formula" in case:
        return _worked(case)
    if "reference" in case:
        file, name = case["reference"].split(".")
        entry = default(file, name)
        return REGISTRY.Quantity(entry.value, _unit(entry.unit)).to(_unit(case["unit"])).magnitude
    return _asked(case, client)


def _worked(case: dict[str, Any]) -> float:
    module, name = case["formula"].split(":")
    formula = getattr(importlib.import_module(f"service.paving.{module}"), name)
    inputs = [_quantity(text) for text in case["inputs"]]
    found = REGISTRY.Quantity(formula(*inputs))
    return float(found.to(_unit(case.get("unit", "1"))).magnitude)


def _quantity(text: Any) -> Any:
    """A number, a quantity such as "3400 lb/yd3", or a list of them."""
    if isinstance(text, list):
        return tuple(_quantity(entry) for entry in text)
    if not isinstance(text, str):
        return text
    number, _, unit = text.partition(" ")
    return REGISTRY.Quantity(float(number), _unit(unit))


def _unit(text: str) -> str:
    """A unit as the trade writes it, in pint's spelling."""
    return "" if text == "1" else text.replace("2", "**2").replace("3", "**3").replace("%", "percent")


def _asked(case: dict[str, Any], client: Any) -> Any:
    response = client.post(case["post"], json=case["body"]) if "post" in case else client.get(case["get"])
    if "refused" in case:
        pointers = [error["pointer"] for error in response.json.get("errors", [])]
        assert pointers in ([], [case["refused"]]), response.get_data(as_text=True)
        return bool(pointers)
    assert response.status_code == 200, response.get_data(as_text=True)
    if "caution" in case:
        assert case["caution"] in table("cautions"), "no such caution"
        return case["caution"] in [caution["code"] for caution in response.json["cautions"]]
    figure = _figure(response.json, case["figure"])
    return figure / _figure(response.json, case["over"]) if "over" in case else figure


def _figure(answer: Any, path: str) -> Any:
    """What stands in an answer at a path such as "skips.0.count"."""
    for step in path.split("."):
        answer = answer[int(step)] if isinstance(answer, list) else answer[step]
    return answer
