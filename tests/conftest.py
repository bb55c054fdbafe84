"""What the tests share: a client, and walks along the published contract.

A test that asks for `resource`, `operation`, `asked` or `leaf` runs once for each of them, so a new
resource is covered the moment it stands in the contract.
"""

import copy
import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

from service import create_app
from service.routes.contract import document
from service.routes.resources import RESOURCES
from service.settings import Settings

# The same examples on every machine and every run, however slow the machine.
settings.register_profile(
    "exact", derandomize=True, database=None, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("exact")

EXAMPLES = Path(__file__).parents[1] / "openapi" / "examples"
APP = create_app(Settings())
CONTRACT = document()

Place = tuple[str | int, ...]


@dataclass(frozen=True)
class Operation:
    """One operation of the contract."""

    id: str
    method: str
    path: str
    document: dict[str, Any]

    @property
    def noun(self) -> str:
        return self.document["tags"][0]

    @property
    def address(self) -> str:
        """An address that is answered: each part of the path that is left open is filled in."""
        address = self.path
        for parameter in self.document.get("parameters", []):
            if parameter.get("in") == "path":
                filled = parameter["example"] if "example" in parameter else parameter["schema"]["enum"][0]
                address = address.replace(f"{{{parameter['name']}}}", filled)
        return address

    @property
    def parameters(self) -> dict[str, dict[str, Any]]:
        """Schemas of the names of its query."""
        named = [resolved(parameter) for parameter in self.document.get("parameters", [])]
        return {p["name"]: p["schema"] for p in named if p["in"] == "query"}


@dataclass(frozen=True)
class Asked:
    """A whole request that is answered, with the operation that takes it."""

    operation: Operation
    name: str
    body: dict[str, Any]

    @property
    def schema(self) -> dict[str, Any]:
        return self.operation.document["requestBody"]["content"]["application/json"]["schema"]

    def with_value(self, place: Place, value: Any) -> dict[str, Any]:
        """The body with one value changed or added."""
        body = copy.deepcopy(self.body)
        inner: Any = body
        for step in place[:-1]:
            inner = inner[step]
        inner[place[-1]] = value
        return body

    def without(self, place: Place) -> dict[str, Any]:
        """The body with one name left out."""
        body = self.with_value(place, None)
        inner: Any = body
        for step in place[:-1]:
            inner = inner[step]
        del inner[place[-1]]
        return body


@dataclass(frozen=True)
class Leaf:
    """One value of a request, with its place and its schema."""

    asked: Asked
    place: Place
    schema: dict[str, Any]
    value: Any

    @property
    def pointer(self) -> str:
        return "".join(f"/{step}" for step in self.place)


def resolved(schema: dict[str, Any]) -> dict[str, Any]:
    """A schema with its reference followed."""
    if "$ref" not in schema:
        return schema
    found: Any = CONTRACT
    for step in schema["$ref"].removeprefix("#/").split("/"):
        found = found[step]
    return found


def branch(schema: dict[str, Any], value: Any) -> dict[str, Any]:
    """The branch of a union that a value belongs to."""
    schema = resolved(schema)
    branches = [resolved(b) for b in schema.get("oneOf", schema.get("anyOf", []))]
    if not branches:
        return schema
    if isinstance(value, dict):
        objects = [b for b in branches if b.get("type") == "object"]
        fits = [b for b in objects if all(value.get(k) in s["enum"] for k, s in _words(b).items())]
        return (fits or objects)[0]
    kinds = {str: "string", list: "array", bool: "boolean", int: "number", float: "number"}
    return next(b for b in branches if b.get("type") in (kinds[type(value)], "integer"))


def _words(schema: dict[str, Any]) -> dict[str, Any]:
    return {k: s for k, s in schema["properties"].items() if len(s.get("enum", [])) == 1 and k in schema["required"]}


def values(schema: dict[str, Any], value: Any, place: Place = ()) -> Iterator[tuple[Place, dict[str, Any], Any]]:
    """Every value in a request, objects and lists too, with its place and its schema."""
    schema = branch(schema, value)
    yield place, schema, value
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from values(schema["properties"][name], inner, (*place, name))
    elif isinstance(value, list):
        for k, inner in enumerate(value):
            yield from values(schema["items"], inner, (*place, k))


def _operations() -> list[Operation]:
    return [
        Operation(operation["operationId"], method, path, operation)
        for path, methods in CONTRACT["paths"].items()
        for method, operation in methods.items()
    ]


OPERATIONS = _operations()


def _asked() -> Iterator[Asked]:
    for operation in OPERATIONS:
        if operation.method == "post" and "application/json" in operation.document["responses"]["200"]["content"]:
            content = operation.document["requestBody"]["content"]["application/json"]
            yield Asked(operation, f"{operation.noun}-in-the-contract", content["example"])
    for path in sorted(EXAMPLES.glob("post_*.json")):
        example = json.loads(path.read_text("utf-8"))
        found = [o for o in OPERATIONS if o.id == example["operation"]]
        answered = (example["answer"]["status"], example["answer"]["media_type"])
        if found and answered == (200, "application/json"):
            yield Asked(found[0], path.stem, example["request"]["body"])


ASKED = list(_asked())


def _leaves() -> Iterator[Leaf]:
    seen = set()
    for asked in ASKED:
        for place, schema, value in values(asked.schema, asked.body):
            names = tuple(step for step in place if isinstance(step, str))
            key = (asked.operation.id, names, json.dumps(schema, sort_keys=True))
            if not isinstance(value, dict | list) and key not in seen:
                seen.add(key)
                yield Leaf(asked, place, schema, value)


LEAVES = list(_leaves())


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Run a test once for each resource, operation, request or leaf it asks for."""
    walks: dict[str, tuple[list[Any], Any]] = {
        "resource": (RESOURCES, lambda r: r.noun),
        "operation": (OPERATIONS, lambda o: o.id),
        "asked": (ASKED, lambda a: a.name),
        "leaf": (LEAVES, lambda leaf: f"{leaf.asked.operation.noun}:{leaf.pointer}"),
    }
    for name, (walk, label) in walks.items():
        if name in metafunc.fixturenames:
            metafunc.parametrize(name, walk, ids=label, scope="session")


@pytest.fixture(scope="session")
def app() -> Any:
    """The application."""
    return APP


@pytest.fixture(scope="session")
def client(app: Any) -> Any:
    """A client of the application."""
    return app.test_client()


@pytest.fixture(scope="session")
def contract() -> dict[str, Any]:
    """The published contract."""
    return CONTRACT


@pytest.fixture(scope="session")
def walked() -> Any:
    """The walk along a request and its schema."""
    return values
