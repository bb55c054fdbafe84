"""Problems: the one place that knows status codes. RFC 9457 documents."""

from collections.abc import Iterable
from http import HTTPStatus

import orjson
from flask import Flask, Response, current_app
from werkzeug.exceptions import HTTPException

from service.paving.errors import BrokenIdentity, PavingError
from service.schemas.errors import Malformed, Missing, Refusal, Unworkable, unworkable

MEDIA_TYPE = "application/problem+json"

_STATUS: dict[type[Refusal], int] = {Malformed: 400, Unworkable: 422, Missing: 404}

#: By RFC 9110, whose names Python's own list has only of late.
_TITLES = {413: "Content Too Large", 414: "URI Too Long", 416: "Range Not Satisfiable", 422: "Unprocessable Content"}

_DETAIL = {
    400: "The request breaks the published contract.",
    404: "There is nothing at this address; /openapi.json lists what there is.",
    405: "This address does not take that method; Allow lists those it takes.",
    406: "This address answers in one media type only; see the contract.",
    413: "The body is too long.",
    415: "Send JSON with Content-Type: application/json.",
    422: "The request fits the contract, but it can't be laid or built as asked.",
    500: "The service failed; the fault is ours and has been logged.",
}


def problem(status: int, errors: Iterable[tuple[str, str]] = (), headers: Iterable[tuple[str, str]] = ()) -> Response:
    """An RFC 9457 problem document."""
    body = {
        "type": "about:blank",
        "title": _TITLES.get(status, HTTPStatus(status).phrase),
        "status": status,
        "detail": _DETAIL.get(status, HTTPStatus(status).description or HTTPStatus(status).phrase),
        "errors": [{"pointer": pointer, "detail": detail} for pointer, detail in errors],
    }
    response = Response(orjson.dumps(body), status, mimetype=MEDIA_TYPE)
    for name, value in headers:
        if name.lower() not in ("content-type", "content-length"):
            response.headers[name] = value
    response.headers["Cache-Control"] = "no-store"
    return response


def _refused(error: Refusal) -> Response:
    return problem(_STATUS[type(error)], error.errors)


def _http(error: HTTPException) -> Response:
    return problem(error.code or 500, headers=error.get_headers())


def _trade(error: PavingError) -> Response:
    if isinstance(error, BrokenIdentity):
        return _broken(error)
    return _refused(unworkable(error))


def _broken(error: Exception) -> Response:
    current_app.logger.error("A request failed.", exc_info=error)
    return problem(500)


def register(app: Flask) -> None:
    """Answer every error with a problem."""
    app.register_error_handler(Refusal, _refused)
    app.register_error_handler(PavingError, _trade)
    app.register_error_handler(HTTPException, _http)
    app.register_error_handler(Exception, _broken)
