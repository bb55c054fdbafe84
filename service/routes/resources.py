"""Resources: one noun, its addresses, and the way through: load, call, dump.

POST /v1/<noun>            JSON in, JSON out
GET  /v1/<noun>            the same as a query
GET  /v1/<noun>.csv .xml   the same answer as a table, and as XML
GET  /v1/<noun>/<figure>   one number as text
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import orjson
from flask import Blueprint, Response, current_app, request
from marshmallow import ValidationError
from werkzeug.exceptions import NotFound

from service.paving.errors import PavingError
from service.paving.sheets import Sheet
from service.routes.answers import accepts, as_json, kept, unkept
from service.routes.bodies import parsed, raw_body
from service.routes.kept_answers import KeptAnswers
from service.schemas.answers import Answer
from service.schemas.errors import Malformed, as_asked, pointer, refusal
from service.schemas.nested import OneOf
from service.schemas.queries import Query, unexpressed
from service.schemas.requests import Request
from service.schemas.tables import csv_text, figure_text, xml_text

Sum = Callable[..., Any]


@dataclass
class Resource:
    """One noun of the service.

    Parameters
    ----------
    noun : str
        Plural, as in the address.
    question : Request or OneOf
        What it is asked.
    answer : Answer
        What it answers.
    sum : callable
        The trade's sum: takes a sheet and what the question is made into.
    example : dict
        A request for the contract to show, as JSON.
    drawing : callable or None
        Makes the SVG of a result, where there is one.
    """

    noun: str
    question: Request | OneOf
    answer: Answer
    sum: Sum
    example: dict[str, Any]
    drawing: Callable[[Any], str] | None = None

    @cached_property
    def query(self) -> Query:
        return Query(self.question)

    @property
    def texts(self) -> tuple[str, str]:
        """Summary and description for the contract, from the sum's docstring."""
        summary, _, description = (self.sum.__doc__ or "").strip().partition("\n\n")
        return " ".join(summary.split()), " ".join(description.split())

    def example_answer(self) -> dict[str, Any]:
        """What the example is answered with, but for the workings, which would swell the contract."""
        answer: dict[str, Any] = orjson.loads(self._text(self._asked(self.example, refusal)))
        return {key: value for key, value in answer.items() if key != "workings"}

    def example_drawing(self) -> str:
        """What the example is drawn as."""
        return self.drawing(self._worked(self._asked(self.example, refusal))[1]) if self.drawing else ""

    def post(self) -> Response:
        """Answer a JSON body."""
        accepts("application/json")
        return as_json(self._posted())

    def get(self) -> Response:
        """Answer a query."""
        accepts("application/json")
        return kept(as_json(self._queried()))

    def csv(self) -> Response:
        """Answer a query with a table."""
        accepts("text/csv")
        return kept(Response(csv_text(orjson.loads(self._queried()), self.answer.table), mimetype="text/csv"))

    def xml(self) -> Response:
        """Answer a query with XML."""
        accepts("application/xml")
        return kept(Response(xml_text(self.noun, orjson.loads(self._queried())), mimetype="application/xml"))

    def svg(self) -> Response:
        """Answer a query with a drawing."""
        accepts("image/svg+xml")
        return kept(self._drawn(self._read_query()))

    def post_svg(self) -> Response:
        """Answer a JSON body with a drawing."""
        accepts("image/svg+xml")
        return self._drawn(self._read_body(_raw()))

    def figure(self, figure: str) -> Response:
        """Answer a query with one number and nothing else, as a spreadsheet's web function wants it."""
        accepts("text/plain")
        number = orjson.loads(self._queried()).get(figure)  # none where the answer leaves it out
        return kept(Response(figure_text(number), mimetype="text/plain"))

    def _posted(self) -> bytes:
        raw = _raw()
        return self._kept("body", raw, lambda: self._read_body(raw))

    def _queried(self) -> bytes:
        return self._kept("query", request.query_string, self._read_query)

    def _kept(self, way: str, asked: bytes, read: Callable[[], Any]) -> bytes:
        answers: KeptAnswers = current_app.config["KEPT_ANSWERS"]
        return answers.answer((self.noun, way, asked), lambda: self._text(read()))

    def _read_body(self, raw: bytes) -> Any:
        return self._asked(parsed(raw), refusal)

    def _read_query(self) -> Any:
        return self._asked(self.query.nested(list(request.args.items(multi=True))), unexpressed)

    def _asked(self, value: Any, refused: Callable[[Any], Exception]) -> Any:
        try:
            return self.question.deserialize(value) if isinstance(self.question, OneOf) else self.question.load(value)
        except ValidationError as error:
            raise refused(error.messages) from None

    def _drawn(self, data: Any) -> Response:
        if self.drawing is None:
            raise NotFound
        return unkept(Response(self.drawing(self._worked(data)[1]), mimetype="image/svg+xml"))

    def _text(self, data: Any) -> bytes:
        """The answer's JSON, which its table, its XML and its single figures are read from."""
        return orjson.dumps(self.answer.answer(*self._worked(data)))

    def _worked(self, data: Any) -> tuple[dict[str, Any], Any, Sheet]:
        """The request as understood, the trade's result, and the sheet it was written out on."""
        sheet, given = Sheet(), self.question.shown(data)
        try:
            asked = self.question.made(data)
            asked.pop("workings", None)
            return given, self.sum(sheet, **asked), sheet
        except PavingError as error:
            error.place = as_asked(error.place, given)
            raise


def _raw() -> bytes:
    if request.query_string:
        wrong = "A POST takes its fields in the body."
        raise Malformed([(pointer(tuple(name.split("."))), wrong) for name in request.args])
    return raw_body()


#: Every resource, in the order of the contract.
RESOURCES: list[Resource] = []


def resource(
    noun: str,
    question: Request | OneOf,
    answer: Answer,
    example: dict[str, Any],
    drawing: Callable[[Any], str] | None = None,
) -> Callable[[Sum], Sum]:
    """Make a resource of a sum."""

    def made(sum: Sum) -> Sum:
        RESOURCES.append(Resource(noun, question, answer, sum, example, drawing))
        return sum

    return made


def blueprint() -> Blueprint:
    """The addresses of every resource."""
    v1 = Blueprint("v1", __name__, url_prefix="/v1")
    for each in RESOURCES:
        _add_addresses(v1, each)
    return v1


def _add_addresses(blueprint: Blueprint, resource: Resource) -> None:
    address, noun = f"/{resource.noun}", resource.noun
    blueprint.add_url_rule(address, f"{noun}-post", resource.post, methods=["POST"])
    blueprint.add_url_rule(address, f"{noun}-get", resource.get, methods=["GET"])
    blueprint.add_url_rule(f"{address}.csv", f"{noun}-csv", resource.csv)
    blueprint.add_url_rule(f"{address}.xml", f"{noun}-xml", resource.xml)
    if resource.drawing:
        blueprint.add_url_rule(f"{address}.svg", f"{noun}-svg", resource.svg)
        blueprint.add_url_rule(f"{address}.svg", f"{noun}-svg-post", resource.post_svg, methods=["POST"])
    figures = ",".join(resource.answer.singles)
    if figures:
        blueprint.add_url_rule(f"{address}/<any({figures}):figure>", f"{noun}-figure", resource.figure)
