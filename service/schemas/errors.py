"""What a request can be refused for, told apart by status.

    Refusal
    |-- Malformed     breaks the published schema: 400
    |-- Unworkable    fits the schema but can't be laid, built or meant: 422
    |-- Missing       the address names something that isn't there: 404

Each carries `errors`: pairs of an RFC 6901 pointer and a sentence.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from service.paving.errors import PavingError

#: What an unknown field is told. "_schema" may be such a field, or marshmallow's word for the whole object.
UNKNOWN = "There is no such field."


class Impossible(str):
    """A sentence about a value that fits the schema and still can't be: 422, not 400."""

    __slots__ = ()


class Refusal(Exception):
    """A request that isn't answered."""

    def __init__(self, errors: list[tuple[str, str]]) -> None:
        super().__init__("; ".join(f"{pointer}: {detail}" for pointer, detail in errors))
        self.errors = errors


class Malformed(Refusal):
    """The request breaks the published schema."""


class Unworkable(Refusal):
    """The request fits the published schema but can't be done."""


class Missing(Refusal):
    """The address names an entry that the list doesn't have."""


def pointer(place: tuple[str | int, ...]) -> str:
    """The RFC 6901 JSON pointer of a place."""
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in place)


def leaves(messages: Any, place: tuple[str | int, ...] = ()) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Every message of a nested marshmallow error with its place."""
    if isinstance(messages, Mapping):
        for step, inner in messages.items():
            whole = step == "_schema" and inner != [UNKNOWN]
            yield from leaves(inner, place if whole else (*place, step))
    elif isinstance(messages, list):
        for inner in messages:
            yield from leaves(inner, place)
    else:
        yield place, messages


def refusal(messages: Any) -> Refusal:
    """The refusal for a marshmallow error: malformed if any part of it is."""
    found = list(leaves(messages))
    errors = [(pointer(place), str(text)) for place, text in found]
    return Unworkable(errors) if all(isinstance(text, Impossible) for _, text in found) else Malformed(errors)


def unworkable(error: PavingError) -> Unworkable:
    """The refusal for what the trade refused."""
    return Unworkable([(pointer(error.place), error.detail)])


def as_asked(place: tuple[str | int, ...], given: Any) -> tuple[str | int, ...]:
    """A place of the trade as the request spells it: one slab may stand alone where the trade has a list."""
    asked: list[str | int] = []
    steps = list(place)
    while steps:
        step = steps.pop(0)
        if step == "slabs" and isinstance(given, dict) and "slabs" not in given and "slab" in given:
            step, steps = "slab", steps[1:]
        asked.append(step)
        given = given.get(step) if isinstance(given, dict) else None
    return tuple(asked)
