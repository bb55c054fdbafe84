"""Listings: nouns that are only read.

GET /v1/<noun>             JSON, filtered by a query where the list takes one
GET /v1/<noun>.csv .xml    the same as a table, and as XML
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import orjson
from flask import Blueprint, Response, request
from marshmallow import ValidationError

from service.routes.answers import accepts, as_json, kept
from service.schemas.answers import Answer
from service.schemas.errors import Malformed, pointer
from service.schemas.queries import Query, unexpressed
from service.schemas.requests import Request
from service.schemas.tables import csv_text, xml_text

Source = Callable[..., Any]


@dataclass
class Listing:
    """One list of the service.

    Parameters
    ----------
    noun : str
        Plural, as in the address.
    answer : Answer
        What it answers.
    source : callable
        Gives the list; takes what the question asks.
    question : Request or None
        What may be asked in a query.
    """

    noun: str
    answer: Answer
    source: Source
    question: Request | None = None

    @cached_property
    def query(self) -> Query | None:
        """The query it takes."""
        return Query(self.question) if self.question else None

    @property
    def texts(self) -> tuple[str, str]:
        """Summary and description for the contract, from the docstring of the source."""
        summary = " ".join((self.source.__doc__ or "").split())
        return summary, summary

    def shown(self, asked: list[tuple[str, str]]) -> dict[str, Any]:
        """The list as it leaves, by the names and texts of a query."""
        if self.question is None or self.query is None:
            return self.answer.shown(self.source())
        try:
            read = self.question.load(self.query.nested(asked))
        except ValidationError as error:
            raise unexpressed(error.messages) from None
        return self.answer.shown(self.source(**self.question.made(read)))

    def _asked(self) -> list[tuple[str, str]]:
        if self.question is None:
            unasked()
        return list(request.args.items(multi=True))

    def get(self) -> Response:
        """Answer with JSON."""
        accepts("application/json")
        return kept(as_json(orjson.dumps(self.shown(self._asked()))))

    def csv(self) -> Response:
        """Answer with a table."""
        accepts("text/csv")
        return kept(Response(csv_text(self.shown(self._asked()), self.answer.table), mimetype="text/csv"))

    def xml(self) -> Response:
        """Answer with XML."""
        accepts("application/xml")
        return kept(Response(xml_text(self.noun, self.shown(self._asked())), mimetype="application/xml"))


#: Every listing, in the order of the contract.
LISTINGS: list[Listing] = []


def listing(noun: str, answer: Answer, question: Request | None = None) -> Callable[[Source], Source]:
    """Make a listing of its source."""

    def made(source: Source) -> Source:
        LISTINGS.append(Listing(noun, answer, source, question))
        return source

    return made


def add_addresses(blueprint: Blueprint) -> None:
    """Give a blueprint the addresses of every listing."""
    for each in LISTINGS:
        blueprint.add_url_rule(f"/{each.noun}", f"{each.noun}-get", each.get)
        blueprint.add_url_rule(f"/{each.noun}.csv", f"{each.noun}-csv", each.csv)
        blueprint.add_url_rule(f"/{each.noun}.xml", f"{each.noun}-xml", each.xml)


def unasked() -> None:
    """Refuse a query where none is taken.

    Raises
    ------
    Malformed
        If there is one.
    """
    if request.args:
        raise Malformed([(pointer(tuple(name.split("."))), "This address takes no query.") for name in request.args])
