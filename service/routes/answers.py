"""What every answer has in common: its media type, and how long it may be kept."""

from flask import Response, current_app, request
from werkzeug.exceptions import NotAcceptable


def accepts(mimetype: str) -> None:
    """Refuse to answer in a media type that isn't accepted.

    Raises
    ------
    NotAcceptable
        If the request's Accept leaves it out.
    """
    if (
        request.environ.get("HTTP_ACCEPT", "*/*") not in ("", "*/*", mimetype)
        and not request.accept_mimetypes[mimetype]
    ):
        raise NotAcceptable


def as_json(answer: bytes) -> Response:
    """An answer of JSON."""
    return unkept(Response(answer, content_type="application/json"))


def unkept(response: Response) -> Response:
    """An answer not to be kept unless it becomes a GET's."""
    response.headers["Cache-Control"] = "no-store"
    return response


def kept(response: Response) -> Response:
    """A GET's answer: may be kept, and asked for again by its ETag."""
    response.headers["Cache-Control"] = f"public, max-age={current_app.config['CACHE_SECONDS']}"
    response.add_etag()
    response.make_conditional(request)
    return response
