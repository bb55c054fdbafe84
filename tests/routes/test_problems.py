"""Each kind of refusal has its status; what is our own fault is a 500 that tells nothing of the inside."""

import io
import logging

import pytest

from service import create_app
from service.paving.errors import BrokenIdentity, ImpossibleShape, OutOfRange, PavingError, UnknownName
from service.routes.resources import Resource
from service.schemas.answers import Answer
from service.schemas.errors import Malformed, Missing, Refusal, Unworkable
from service.schemas.fields import Number
from service.schemas.figures import Figure
from service.schemas.requests import Question
from service.settings import Settings


class Depth(Question):
    """A number that decides what goes wrong."""

    depth = Number(0, 10, default=1)


class Double(Answer):
    """Twice the number."""

    double_m = Figure("Twice the depth.")


def family(error):
    """An error and everything that descends from it."""
    return {error} | {each for child in error.__subclasses__() for each in family(child)}


def failing(error):
    """A client of an application with a resource whose sum raises an error."""

    def sum_that_fails(sheet, depth):
        """Fail."""
        raise error

    app = create_app(Settings())
    broken = Resource("broken", Depth(), Double(), sum_that_fails, {})
    app.add_url_rule("/v1/broken", "broken-post", broken.post, methods=["POST"])
    app.add_url_rule("/v1/broken", "broken-get", broken.get, methods=["GET"])
    return app.test_client()


@pytest.mark.parametrize("kind", [ImpossibleShape, OutOfRange, UnknownName])
def test_what_the_trade_refuses_is_422_with_its_place(kind):
    answer = failing(kind("Too deep.", "build_up", "layers", 0, "a/b~c")).post("/v1/broken", json={})
    assert answer.status_code == 422
    assert answer.get_json() == {
        "type": "about:blank",
        "title": "Unprocessable Content",
        "status": 422,
        "detail": "The request fits the contract, but it can't be laid or built as asked.",
        "errors": [{"pointer": "/build_up/layers/0/a~1b~0c", "detail": "Too deep."}],
    }


def test_every_error_of_the_trade_has_a_status():
    statuses = {
        kind: failing(kind("No.")).post("/v1/broken", json={}).status_code
        for kind in family(PavingError) - family(BrokenIdentity)
    }
    assert set(statuses.values()) == {422}


@pytest.mark.parametrize(("kind", "status"), [(Malformed, 400), (Unworkable, 422), (Missing, 404)])
def test_a_refusal_of_the_wire_has_its_status(kind, status):
    answer = failing(kind([("/depth", "Too deep."), ("", "Nothing fits.")])).post("/v1/broken", json={})
    assert answer.status_code == answer.get_json()["status"] == status
    assert [e["pointer"] for e in answer.get_json()["errors"]] == ["/depth", ""]


def test_every_refusal_of_the_wire_is_one_of_the_three():
    assert family(Refusal) == {Refusal, Malformed, Missing, Unworkable}


@pytest.mark.parametrize(
    "error", [BrokenIdentity("slabs + joints = 20.1 m2, area = 20 m2"), ZeroDivisionError("secret"), KeyError("x")]
)
@pytest.mark.parametrize("method", ["GET", "POST"])
def test_our_own_fault_is_500_and_says_nothing_of_the_inside(error, method, caplog):
    client = failing(error)
    with caplog.at_level(logging.ERROR):
        answer = client.get("/v1/broken") if method == "GET" else client.post("/v1/broken", json={})
    assert answer.status_code == 500
    assert answer.content_type == "application/problem+json"
    assert answer.headers["Cache-Control"] == "no-store"
    assert answer.get_json() == {
        "type": "about:blank",
        "title": "Internal Server Error",
        "status": 500,
        "detail": "The service failed; the fault is ours and has been logged.",
        "errors": [],
    }
    assert caplog.records[-1].exc_info[1] is error


def _sent_in_chunks(body):
    """A client's body of unknown length, as a server hands it over."""
    return {
        "wsgi.input": io.BytesIO(body),
        "wsgi.input_terminated": True,
        "HTTP_TRANSFER_ENCODING": "chunked",
        "CONTENT_LENGTH": "",
    }


def test_a_body_without_a_length_is_taken_below_the_limit_and_not_trusted_at_it():
    client = create_app(Settings(most_body_bytes=64)).test_client()
    for length, status in ((63, 200), (64, 413), (65, 413), (10_000, 413)):
        body = b'{"shape":"circle","diameter":"2 m"}'.ljust(length)
        answer = client.post("/v1/areas", content_type="application/json", environ_overrides=_sent_in_chunks(body))
        assert answer.status_code == status, length


@pytest.mark.parametrize(("length", "status"), [(64, 200), (65, 413), (10_000_000, 413)])
def test_a_body_over_the_limit_is_refused_by_its_length(length, status):
    client = create_app(Settings(most_body_bytes=64)).test_client()
    body = b'{"shape":"circle","diameter":"2 m"}'.ljust(length)
    answer = client.post("/v1/areas", data=body, content_type="application/json")
    assert answer.status_code == status
    assert answer.content_type == ("application/json" if status == 200 else "application/problem+json")
