"""/openapi.json: the contract, made from the resources themselves."""

from functools import cache
from typing import Any

import orjson
from flask import Blueprint, Response

from service import __version__
from service.routes.listings import LISTINGS, Listing
from service.routes.lookups import LOOKUPS, Lookup
from service.routes.problems import MEDIA_TYPE
from service.routes.resources import RESOURCES, Resource
from service.schemas.contract import Parts, field_document
from service.schemas.tables import csv_text, figure_text, xml_text

contract = Blueprint("contract", __name__)

_DESCRIPTION = """\
What to dig, mix, buy and lay for an area of paving.

A physical quantity in a request is text with its unit: "4.8 m", "450 mm", "15 ft 9 in", "2.1 t/m3", "1 in 60", "2 %".
In an answer it is a number whose key ends in its unit. Every answer repeats the request as understood and shows the
assumptions, cautions and workings behind its figures. 400: the request breaks this contract. 422: it fits, but can't be
laid or built as asked. A quantity is an estimate until the site is measured; local codes and licensed practice decide.
"""

_PROBLEMS = {
    "400": "The request breaks this contract.",
    "404": "There is nothing at this address.",
    "406": "The address doesn't answer in a media type that is accepted.",
    "413": "The body is too long.",
    "414": "The address is too long.",
    "415": "The body isn't declared as JSON.",
    "422": "The request fits this contract, but it can't be laid or built as asked.",
    "431": "The headers are too long, or too many.",
    "500": "The service failed.",
}
_PLAIN = ("400", "406", "414", "431", "500")
_BY_QUERY, _BY_BODY = (*_PLAIN, "422"), (*_PLAIN, "413", "415", "422")


@cache
def document() -> dict[str, Any]:
    """The whole contract as an OpenAPI 3.1 document."""
    parts = Parts(
        "Paving Quantities",
        __version__,
        info={"description": _DESCRIPTION, "license": {"name": "MIT", "identifier": "MIT"}},
    )
    for status, text in _PROBLEMS.items():
        content = {MEDIA_TYPE: {"schema": {"$ref": "#/components/schemas/Problem"}}}
        parts.spec.components.response(f"Problem{status}", {"description": text, "content": content})
    for each in RESOURCES:
        _describe(parts, each)
    for listing in LISTINGS:
        _describe_listing(parts, listing)
    for lookup in LOOKUPS:
        _describe_lookup(parts, lookup)
    written: dict[str, Any] = parts.spec.to_dict()
    written["security"] = []
    return written


@contract.get("/openapi.json")
def openapi() -> Response:
    """The contract as JSON."""
    return Response(orjson.dumps(document()), mimetype="application/json")


def _describe(parts: Parts, resource: Resource) -> None:
    """Write down every address of a resource."""
    noun, example = resource.noun, resource.example_answer()
    parts.spec.tag({"name": noun, "description": resource.texts[0]})
    for name, parameter in resource.query.parameters.items():
        parts.spec.components.parameter(f"{noun}.{name}", "query", parameter.document())
    question = parts.question(resource.question)
    answer = parts.answer(resource.answer, question)
    body = {"application/json": {"schema": question, "example": resource.example}}
    contents = {
        "get": ("", "application/json", {"schema": answer, "example": example}),
        "csv": (".csv", "text/csv", _text(csv_text(example, resource.answer.table))),
        "xml": (".xml", "application/xml", _text(xml_text(noun, example))),
        "svg": (".svg", "image/svg+xml", _text(resource.example_drawing())),
        "figure": ("/{figure}", "text/plain", _text(_first_figure(resource, example))),
    }
    for kind, (ending, media, content) in contents.items():
        if (kind == "svg" and not resource.drawing) or (kind == "figure" and not resource.answer.singles):
            continue
        operations = {"get": _get(resource, kind, media, content)}
        if kind in ("get", "svg"):
            operations["post"] = _post(resource, kind, body, _responses(media, content, _BY_BODY))
        parts.spec.path(f"/v1/{noun}{ending}", operations=operations)


def _first_figure(resource: Resource, example: dict[str, Any]) -> str:
    figures = resource.answer.singles
    return figure_text(example[figures[0]]) if figures else ""


def _get(resource: Resource, kind: str, media: str, content: dict[str, Any]) -> dict[str, Any]:
    # apispec writes a reference for the name of a component.
    parameters: list[Any] = [f"{resource.noun}.{name}" for name in resource.query.parameters]
    problems: tuple[str, ...] = _BY_QUERY
    if kind == "figure":
        schema = {"type": "string", "enum": resource.answer.singles}
        parameters.insert(0, {"name": "figure", "in": "path", "required": True, "schema": schema})
        problems = (*_BY_QUERY, "404")
    return {
        **_heading(resource, kind, kind),
        "parameters": parameters,
        "responses": _responses(media, content, problems),
    }


def _post(resource: Resource, kind: str, body: dict[str, Any], responses: dict[str, Any]) -> dict[str, Any]:
    name = "post" if kind == "get" else f"post_{kind}"
    return {
        **_heading(resource, kind, name),
        "requestBody": {"required": True, "content": body},
        "responses": responses,
    }


def _heading(resource: Resource, kind: str, name: str) -> dict[str, Any]:
    summary, description = resource.texts
    return {
        "tags": [resource.noun],
        "description": description or summary,
        "operationId": f"{name}_{resource.noun.replace('-', '_')}",
        "summary": f"{summary} {_AS[kind]}".strip(),
    }


def _describe_listing(parts: Parts, listing: Listing) -> None:
    noun = listing.noun
    summary, description = listing.texts
    parts.spec.tag({"name": noun, "description": summary})
    shown = listing.shown([])
    named = listing.query.parameters if listing.query else {}
    for name, parameter in named.items():
        parts.spec.components.parameter(f"{noun}.{name}", "query", parameter.document())
    asked = {"parameters": [f"{noun}.{name}" for name in named]} if named else {}
    json = {"schema": parts.answer(listing.answer, None), "example": shown}
    for kind, ending, media, content in (
        ("get", "", "application/json", json),
        ("csv", ".csv", "text/csv", _text(csv_text(shown, listing.answer.table))),
        ("xml", ".xml", "application/xml", _text(xml_text(noun, shown))),
    ):
        operation = {
            "tags": [noun],
            "description": description,
            "operationId": f"{kind}_{noun}",
            "summary": f"{summary} {_AS[kind]}".strip(),
            **asked,
            "responses": _responses(media, content, _BY_QUERY if named else _PLAIN),
        }
        parts.spec.path(f"/v1/{noun}{ending}", operations={"get": operation})


def _describe_lookup(parts: Parts, lookup: Lookup) -> None:
    example, schema = lookup.field.example, field_document(lookup.field, lambda _: {})
    about = schema.pop("description")
    content = {"schema": parts.answer(lookup.answer, None), "example": lookup.shown(example)}
    named = {"name": lookup.name, "in": "path", "required": True, "description": about, "schema": schema}
    operation = {
        "tags": [lookup.noun],
        "description": lookup.text,
        "operationId": f"entry_{lookup.noun}",
        "summary": lookup.text,
        "parameters": [named | {"example": example}],
        "responses": _responses("application/json", content, (*_PLAIN, "404")),
    }
    parts.spec.path(f"/v1/{lookup.noun}/{{{lookup.name}}}", operations={"get": operation})


_AS = {
    "get": "",
    "csv": "As a table (RFC 4180).",
    "xml": "As XML without a namespace.",
    "svg": "As a drawing.",
    "figure": "One figure as plain text.",
}


def _text(example: str) -> dict[str, Any]:
    return {"schema": {"type": "string"}, "example": example}


def _responses(media: str, content: dict[str, Any], problems: tuple[str, ...]) -> dict[str, Any]:
    answered = {"description": "The answer.", "content": {media: content}}
    refused = {status: {"$ref": f"#/components/responses/Problem{status}"} for status in sorted(problems)}
    return {"200": answered, **refused}
