"""The contract itself: valid OpenAPI, complete, and the one that is committed."""

import json
import re
import warnings
from pathlib import Path

import pytest
import yaml
from openapi_spec_validator import OpenAPIV31SpecValidator

from service.__main__ import main
from service.schemas.quantities import DIMENSIONS

COMMITTED = Path(__file__).parents[2] / "openapi" / "openapi.yaml"


def test_the_contract_is_valid_openapi(contract):
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        OpenAPIV31SpecValidator(contract).validate()


def test_the_committed_contract_is_what_the_command_prints(capsys):
    assert main(["contract"]) == 0
    assert capsys.readouterr().out == COMMITTED.read_text("utf-8")


def test_the_command_writes_what_it_prints(tmp_path, capsys):
    assert main(["contract", str(tmp_path / "openapi.yaml")]) == 0
    assert main(["contract"]) == 0
    assert (tmp_path / "openapi.yaml").read_text("utf-8") == capsys.readouterr().out


def test_the_contract_is_served_as_it_is_committed(client):
    served = client.get("/openapi.json")
    assert served.status_code == 200
    assert served.content_type == "application/json"
    assert served.get_json() == yaml.safe_load(COMMITTED.read_text("utf-8"))


def test_an_operation_says_what_it_is(operation):
    document = operation.document
    assert re.fullmatch(r"[a-z]+_[a-z_]+", operation.id)
    assert document["summary"].endswith(".")
    assert len(document["description"]) > 20
    assert len(document["tags"]) == 1


def test_operations_are_told_apart(contract):
    operations = [operation for methods in contract["paths"].values() for operation in methods.values()]
    ids = [operation["operationId"] for operation in operations]
    assert len(set(ids)) == len(ids)
    assert {tag["name"] for tag in contract["tags"]} == {operation["tags"][0] for operation in operations}
    assert all(tag["description"] for tag in contract["tags"])


def test_an_operation_shows_an_example(operation):
    (media,) = operation.document["responses"]["200"]["content"].values()
    if operation.method == "post":
        assert operation.document["requestBody"]["content"]["application/json"]["example"]
    assert "example" in media


def test_an_operation_names_each_problem_it_can_give(operation):
    wanted = {
        "post": {"400", "406", "413", "414", "415", "422", "431", "500"},
        "get": {"400", "406", "414", "431", "500"},
    }
    statuses = set(operation.document["responses"])
    assert wanted[operation.method] | {"200"} <= statuses
    if "{figure}" in operation.path:
        assert "404" in statuses
    if operation.parameters:
        assert "422" in statuses


def test_a_problem_is_described_as_one(contract, operation):
    for status, response in operation.document["responses"].items():
        if status != "200":
            name = response["$ref"].rpartition("/")[2]
            assert name == f"Problem{status}"
            described = contract["components"]["responses"][name]
            assert list(described["content"]) == ["application/problem+json"]
            assert described["description"].endswith(".")


def test_every_pattern_is_anchored_and_means_the_same_in_every_dialect(contract):
    patterns = _patterns(contract)
    assert len(patterns) > 5
    for pattern in patterns:
        assert pattern.startswith("^")
        assert pattern.endswith("$")
        # Either there is one branch between the anchors, or a group holds them all.
        inside, group = pattern, re.compile(r"\((?:\?:)?[^()]*\)")
        while group.search(inside):
            inside = group.sub("", inside)
        assert "|" not in inside, pattern
        assert not re.search(r"\\[dwsbDWSB]|\(\?[=!<P]", pattern), pattern


def test_the_patterns_of_quantities_are_those_of_the_grammar(contract):
    with_a_unit = {pattern for pattern in _patterns(contract) if " ?(?:" in pattern}
    assert with_a_unit <= {f"^{dimension.pattern}$" for dimension in DIMENSIONS}
    assert len(with_a_unit) > 3


def _patterns(contract):
    return {schema["pattern"] for schema in _schemas(contract) if isinstance(schema.get("pattern"), str)}


def test_no_component_is_unused(contract):
    text = json.dumps(contract)
    for kind, components in contract["components"].items():
        for name in components:
            assert f'"#/components/{kind}/{name}"' in text, name


@pytest.mark.parametrize("word", ["default", "minimum"])
def test_a_schema_says_nothing_generators_stumble_over(contract, word):
    for schema in _schemas(contract):
        if word == "default":
            assert not isinstance(schema.get("default"), dict | list)
        else:
            assert not {"minimum", "exclusiveMinimum"} <= set(schema)
        assert "prefixItems" not in schema
        assert schema.get("items", True) is not False


def _schemas(node):
    if isinstance(node, dict):
        yield node
        for name, inner in node.items():
            if name not in ("example", "examples", "default"):
                yield from _schemas(inner)
    elif isinstance(node, list):
        for inner in node:
            yield from _schemas(inner)
