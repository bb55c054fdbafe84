"""What gunicorn itself refuses, before the service sees it, is answered like the service's own errors."""

import json
import urllib.error
import urllib.request
from collections.abc import Iterator

import pytest

from tests.container.servers import Server, served

MOST = 20_000


@pytest.fixture(scope="module")
def server() -> Iterator[Server]:
    with served(WEB_CONCURRENCY="1", PAVING_QUANTITIES_MOST_BODY_BYTES=str(MOST)) as running:
        yield running


def _request(line: str, *headers: str, body: bytes = b"") -> bytes:
    return "\r\n".join((line, "Host: here", *headers, "", "")).encode() + body


def _post(*headers: str, body: bytes) -> bytes:
    return _request("POST /v1/areas HTTP/1.1", "Content-Type: application/json", *headers, body=body)


def _chunked(body: bytes) -> bytes:
    return b"".join(b"%x\r\n%s\r\n" % (len(part), part) for part in (body, b""))


def _problem(reply: bytes) -> tuple[int, dict[str, object]]:
    """The last status line of a reply, and its problem document."""
    reply = reply.removeprefix(b"HTTP/1.1 100 Continue\r\n\r\n")
    head, _, body = reply.partition(b"\r\n\r\n")
    status_line, *headers = head.decode("ascii").lower().split("\r\n")
    assert "content-type: application/problem+json" in headers
    assert f"content-length: {len(body)}" in headers
    assert "cache-control: no-store" in headers
    return int(status_line.split()[1]), json.loads(body)


CASES = {
    "a request line longer than gunicorn takes": (414, _request(f"GET /v1/areas?x={'a' * 9000} HTTP/1.1")),
    "a header longer than gunicorn takes": (431, _request("GET /v1/areas HTTP/1.1", f"X-Long: {'a' * 9000}")),
    "more headers than gunicorn takes": (431, _request("GET /v1/areas HTTP/1.1", *(f"X-{n}: 1" for n in range(150)))),
    "a method that isn't a token": (400, _request("G<T /v1/areas HTTP/1.1")),
    "a request line of one word": (400, _request("GET")),
    "a version that isn't HTTP's": (400, _request("GET /v1/areas HTTP/9.z")),
    "a header without a colon": (400, _request("GET /v1/areas HTTP/1.1", "nonsense")),
    "two lengths": (400, _post("Content-Length: 2", "Content-Length: 3", body=b"{}")),
    "a length and chunks at once": (
        400,
        _post("Content-Length: 2", "Transfer-Encoding: chunked", body=_chunked(b"{}")),
    ),
    "an unknown transfer coding": (501, _post("Transfer-Encoding: sealed", body=b"{}")),
    "an expectation that can't be met": (417, _post("Expect: miracles", "Content-Length: 2", body=b"{}")),
    "a body over the limit": (413, _post(f"Content-Length: {MOST + 1}", body=b" " * (MOST + 1))),
    "chunks over the limit": (413, _post("Transfer-Encoding: chunked", body=_chunked(b" " * (MOST + 1)))),
    "chunks that aren't": (400, _post("Transfer-Encoding: chunked", body=b"zz\r\n{}\r\n0\r\n\r\n")),
    "a body that stops short": (400, _post("Content-Length: 10", body=b"{}")),
}


@pytest.mark.parametrize(("expected", "sent"), CASES.values(), ids=CASES)
def test_it_is_a_problem_with_its_exact_status(server: Server, expected: int, sent: bytes) -> None:
    status, document = _problem(server.reply(sent))
    assert (status, document["status"]) == (expected, expected)
    assert list(document) == ["type", "title", "status", "detail", "errors"]
    assert document["type"] == "about:blank"
    assert document["title"]
    assert document["detail"]


def test_a_refusal_does_not_repeat_what_the_client_sent(server: Server) -> None:
    assert b"marker" not in server.reply(_request("GET /v1/areas HTTP/1.1", "marker without a colon"))


def test_its_problems_have_the_fields_of_the_services_own(server: Server) -> None:
    with pytest.raises(urllib.error.HTTPError) as caught:
        urllib.request.urlopen(f"{server.address}/v1/nothing-here")
    with caught.value as refused:
        own = json.loads(refused.read())
    _, document = _problem(server.reply(_request("GET")))
    assert list(own) == list(document)


def test_an_address_just_under_the_limit_reaches_the_service(server: Server) -> None:
    status, document = _problem(server.reply(_request(f"GET /v1/areas?x={'a' * 8000} HTTP/1.1")))
    assert status == 400
    assert document["errors"]


def test_a_client_may_send_a_second_request_on_the_same_line(server: Server) -> None:
    twice = _request("GET /health/live HTTP/1.1") + _request("GET /health/live HTTP/1.1", "Connection: close")
    assert server.reply(twice).count(b"HTTP/1.1 200 OK") == 2


def test_what_follows_a_broken_body_is_not_taken_for_a_request(server: Server) -> None:
    hidden = _request("GET /health/live HTTP/1.1")
    reply = server.reply(_post("Transfer-Encoding: chunked", body=b"zz\r\n" + hidden))
    assert b"200 OK" not in reply
    assert reply.count(b"HTTP/1.1") == 1
