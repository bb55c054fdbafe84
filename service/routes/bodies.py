"""JSON bodies: read strictly, or refused."""

import json
import re
from typing import Any

import orjson
from flask import current_app, request
from werkzeug.exceptions import RequestEntityTooLarge, UnsupportedMediaType

from service.schemas.errors import Malformed, pointer

#: A JSON string followed by a colon: a key. Only run on text that has parsed as JSON.
_KEY = re.compile(rb'"[^"\\]*(?:\\.[^"\\]*)*"(?=\s*(:)?)')

#: A colon that a key may stand before with a gap.
_SPACED = re.compile(rb"\s:")

#: Far below Python's own limit on calls within calls, far above the deepest request.
_DEEPEST = 64


def raw_body() -> bytes:
    """The request's body as it was sent.

    Raises
    ------
    UnsupportedMediaType
        If it isn't declared as JSON.
    RequestEntityTooLarge
        If it is longer than the service takes, however it was sent.
    """
    declared = request.environ.get("CONTENT_TYPE")
    if declared != "application/json" and request.mimetype != "application/json":
        raise UnsupportedMediaType
    raw = request.get_data(cache=False)
    # A chunked body is cut at the limit without a word; one that reaches it can't be trusted to be whole.
    if request.content_length is None and len(raw) >= current_app.config["MAX_CONTENT_LENGTH"]:
        raise RequestEntityTooLarge
    return raw


def parsed(raw: bytes) -> Any:
    """The JSON value of a body.

    Raises
    ------
    Malformed
        If it isn't JSON, is nested deeper than any request, or an object names a field twice.
    """
    try:
        value = orjson.loads(raw)
    except orjson.JSONDecodeError as error:
        raise Malformed([("", f"Not JSON: {error}.")]) from error
    keys = _keys(value)
    # As many colons behind quotes as keys, and none anywhere else behind a key: no key can have been written twice.
    if (raw.count(b'":') != keys or _SPACED.search(raw)) and sum(1 for found in _KEY.finditer(raw) if found[1]) != keys:
        raise Malformed(_repeated(raw))
    return value


def _keys(value: Any) -> int:
    """How many keys there are in all, counted from the outside in."""
    count, level = 0, [value]
    for _ in range(_DEEPEST + 1):
        inner: list[Any] = []
        for each in level:
            if type(each) is dict:
                count += len(each)
                inner += each.values()
            elif type(each) is list:
                inner += each
        if not inner:
            return count
        level = inner
    raise Malformed([("", f"Nested more than {_DEEPEST} deep; no request of this service is.")])


class _Pairs(list[tuple[str, Any]]):
    """An object as the pairs it was written in."""


def _repeated(raw: bytes) -> list[tuple[str, str]]:
    """Where a field is named twice, found by the slow parser that keeps every pair."""
    errors: list[tuple[str, str]] = []
    waiting: list[tuple[tuple[str | int, ...], Any]] = [((), json.loads(raw, object_pairs_hook=_Pairs))]
    while waiting:
        place, value = waiting.pop()
        if isinstance(value, _Pairs):
            names = [name for name, _ in value]
            errors += [
                (pointer((*place, n)), "Given more than once.") for n in dict.fromkeys(names) if names.count(n) > 1
            ]
            waiting += [((*place, name), inner) for name, inner in value]
        elif isinstance(value, list):
            waiting += [((*place, k), inner) for k, inner in enumerate(value)]
    return errors
