"""Look-ups: one entry of a listing by its name.

GET /v1/<noun>/<name>      JSON
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import orjson
from flask import Blueprint, Response

from service.paving.errors import UnknownName
from service.routes.answers import accepts, as_json, kept
from service.routes.listings import unasked
from service.schemas.answers import Answer
from service.schemas.errors import Missing
from service.schemas.fields import Text

Source = Callable[[str], Any]

#: How much of a name that isn't there is said again.
_REPEATED = 60


@dataclass
class Lookup:
    """Entries of one listing.

    Parameters
    ----------
    noun : str
        The listing's.
    name : str
        What an entry is looked up by.
    field : Text
        How such a name is written; its example is looked up for the contract.
    answer : Answer
        What is answered.
    source : callable
        Gives the entry.
    """

    noun: str
    name: str
    field: Text
    answer: Answer
    source: Source

    @property
    def text(self) -> str:
        """What it is, for the contract, from the docstring of the source."""
        return " ".join((self.source.__doc__ or "").split())

    def shown(self, name: str) -> dict[str, Any]:
        """The entry as it leaves."""
        return self.answer.shown(self.source(name))

    def get(self, **given: str) -> Response:
        """Answer with JSON."""
        accepts("application/json")
        unasked()
        name = given[self.name][:_REPEATED]
        try:
            return kept(as_json(orjson.dumps(self.shown(name))))
        except UnknownName as error:
            raise Missing([(f"/{self.name}", error.detail)]) from None


#: Every look-up, in the order of the contract.
LOOKUPS: list[Lookup] = []


def lookup(noun: str, field: Text, answer: Answer) -> Callable[[Source], Source]:
    """Make a look-up of its source; the source's parameter names what is looked up by."""

    def made(source: Source) -> Source:
        name = next(name for name in source.__annotations__ if name != "return")
        LOOKUPS.append(Lookup(noun, name, field, answer, source))
        return source

    return made


def add_addresses(blueprint: Blueprint) -> None:
    """Give a blueprint the address of every look-up."""
    for each in LOOKUPS:
        # Any text may be a name, a stroke in it too.
        blueprint.add_url_rule(f"/{each.noun}/<path:{each.name}>", f"{each.noun}-entry", each.get)
