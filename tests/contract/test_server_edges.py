"""The edge table once more, through a real server: whole, in chunks, and what only a server meets."""

import http.client
import json
import tomllib
from pathlib import Path

import pytest

from tests.container.servers import served
from tests.contract.test_edges import EDGES, _sent

SERVER_EDGES = tomllib.loads((Path(__file__).parent / "edges" / "server.toml").read_text("utf-8"))["edge"]


@pytest.fixture(scope="module")
def server():
    with served(WEB_CONCURRENCY="1") as running:
        yield running


def _answer(server, edge, body, chunked):
    line = http.client.HTTPConnection("127.0.0.1", server.port, timeout=10)
    line.putrequest(edge["method"], edge["path"].replace(" ", "%20"), skip_accept_encoding=True)
    for name, value in (("Accept", edge.get("accept")), ("Content-Type", edge.get("type"))):
        if value:
            line.putheader(name, value)
    if chunked:
        line.putheader("Transfer-Encoding", "chunked")
    elif body or edge["method"] == "POST":
        line.putheader("Content-Length", str(len(body)))
    line.endheaders([body] if chunked else body, encode_chunked=chunked)
    try:
        answer = line.getresponse()
        return answer, answer.read()
    finally:
        line.close()


@pytest.mark.parametrize("chunked", [False, True], ids=["whole", "in chunks"])
@pytest.mark.parametrize("edge", [parameter.values[0] for parameter in EDGES], ids=[p.id for p in EDGES])
def test_a_server_answers_an_edge_the_same(server, edge, chunked):
    body = _sent(edge)
    if chunked and not body:
        chunked = False
    answer, said = _answer(server, edge, body, chunked)
    assert answer.status == edge["status"]
    assert answer.headers["Content-Type"] == "application/problem+json"
    if edge["method"] != "HEAD":
        assert [error["pointer"] for error in json.loads(said)["errors"]] == edge["pointers"]


@pytest.mark.parametrize("edge", SERVER_EDGES, ids=lambda edge: edge["name"])
def test_what_only_a_server_meets_is_a_problem_too(server, edge):
    head = ("a" * edge.get("length", 0)).join(edge["send"]) + "\r\nHost: here\r\nConnection: close\r\n\r\n"
    size, times = edge.get("chunks", (0, 0))
    chunks = (b"%x\r\n%s\r\n" % (size, b" " * size)) * times + (b"0\r\n\r\n" if times else b"")
    reply = server.reply(head.encode("latin-1") + chunks)
    lines, _, said = reply.partition(b"\r\n\r\n")
    assert lines.split()[1].decode() == str(edge["status"]), reply[:300]
    assert b"content-type: application/problem+json" in lines.lower()
    assert [error["pointer"] for error in json.loads(said)["errors"]] == edge.get("pointers", [])
