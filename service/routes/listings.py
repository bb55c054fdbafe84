"""Listings: nouns that are only read.

GET /v1/<noun>             JSON
GET /v1/<noun>.csv .xml    the same as a table, and as XML
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from flask import Blueprint, Response, request

from service.routes.answers import accepts, as_json, kept
from service.schemas.answers import Answer
from service.schemas.errors import Malformed, pointer
from service.schemas.tables import csv_text, xml_text

Source = Callable[[], Any]


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
        Gives the list.
    """

    noun: str
    answer: Answer
    source: Source

    @property
    def texts(self) -> tuple[str, str]:
        """Summary and description for the contract, from the docstring of the source."""
        summary = " ".join((self.source.__doc__ or "").split())
        return summary, summary

    def shown(self) -> dict[str, Any]:
        """The list as it leaves."""
        return self.answer.shown(self.source())

    def get(self) -> Response:
        """Answer with JSON."""
        accepts("application/json")
        _unasked()
        return kept(as_json(self.shown()))

    def csv(self) -> Response:
        """Answer with a table."""
        accepts("text/csv")
        _unasked()
        return kept(Response(csv_text(self.shown(), self.answer.table), mimetype="text/csv"))

    def xml(self) -> Response:
        """Answer with XML."""
        accepts("application/xml")
        _unasked()
        return kept(Response(xml_text(self.noun, self.shown()), mimetype="application/xml"))


#: Every listing, in the order of the contract.
LISTINGS: list[Listing] = []


def listing(noun: str, answer: Answer) -> Callable[[Source], Source]:
    """Make a listing of its source."""

    def made(source: Source) -> Source:
        LISTINGS.append(Listing(noun, answer, source))
        return source

    return made


def add_addresses(blueprint: Blueprint) -> None:
    """Give a blueprint the addresses of every listing."""
    for each in LISTINGS:
        blueprint.add_url_rule(f"/{each.noun}", f"{each.noun}-get", each.get)
        blueprint.add_url_rule(f"/{each.noun}.csv", f"{each.noun}-csv", each.csv)
        blueprint.add_url_rule(f"/{each.noun}.xml", f"{each.noun}-xml", each.xml)


def _unasked() -> None:
    if request.args:
        raise Malformed([(pointer(tuple(name.split("."))), "This list takes no query.") for name in request.args])
