"""Answers over HTTP: JSON, tables, XML, single figures, and how they are kept."""

import csv
import io
import json
from urllib.parse import urlencode
from xml.etree import ElementTree

import pytest


def row(body, path=()):
    """A request as a row of names and texts; lists of objects can't be said and are left out."""
    pairs = {}
    for name, value in body.items():
        place = (*path, name)
        if isinstance(value, dict):
            pairs |= row(value, place)
        elif name == "slabs" and len(value) == 1:
            pairs |= row(value[0], (*path, "slab"))
        elif name == "points":
            pairs[".".join(place)] = " ".join(f"{x},{y}" for x, y in value)
        elif not isinstance(value, list):
            pairs[".".join(place)] = value if isinstance(value, str) else json.dumps(value)
    return pairs


@pytest.fixture(scope="session")
def query(resource):
    """The resource's example as a query."""
    return urlencode(row(resource.example))


@pytest.fixture(scope="session")
def answer(client, resource, query):
    """The answer to it."""
    answered = client.get(f"/v1/{resource.noun}?{query}")
    assert answered.status_code == 200, answered.text
    return answered


def test_an_answer_may_be_kept_and_asked_for_again(client, resource, query, answer):
    assert answer.headers["Cache-Control"] == "public, max-age=3600"
    again = client.get(f"/v1/{resource.noun}?{query}", headers={"If-None-Match": answer.headers["ETag"]})
    assert again.status_code == 304
    assert again.data == b""
    assert again.headers["ETag"] == answer.headers["ETag"]
    assert again.headers["Cache-Control"] == answer.headers["Cache-Control"]


def test_another_answer_is_sent_whole(client, resource, query, answer):
    again = client.get(f"/v1/{resource.noun}?{query}", headers={"If-None-Match": '"another"'})
    assert again.status_code == 200
    assert again.data == answer.data


def test_every_form_of_an_answer_has_its_own_etag(client, resource, query, answer):
    tags = {client.get(f"/v1/{resource.noun}{form}?{query}").headers["ETag"] for form in ("", ".csv", ".xml")}
    assert len(tags) == 3


def test_a_posted_answer_is_not_kept(client, asked):
    answer = client.post(asked.operation.path, json=asked.body)
    assert answer.status_code == 200
    assert answer.headers["Cache-Control"] == "no-store"
    assert "ETag" not in answer.headers


def test_head_says_what_get_would(client, resource, query, answer):
    for form in ("", ".csv", ".xml", f"/{resource.answer.singles[0]}" if resource.answer.singles else ""):
        address = f"/v1/{resource.noun}{form}?{query}"
        got, head = client.get(address), client.head(address)
        assert head.status_code == 200
        assert head.data == b""
        names = ("Content-Type", "Content-Length", "ETag", "Cache-Control")
        assert [head.headers[name] for name in names] == [got.headers[name] for name in names]


def test_options_names_the_methods_and_nothing_else(client, operation):
    path = operation.address
    answer = client.options(path)
    assert answer.status_code == 204
    assert answer.data == b""
    assert operation.method.upper() in answer.headers["Allow"].split(", ")
    assert "OPTIONS" in answer.headers["Allow"].split(", ")


def test_a_method_an_address_does_not_take_is_refused(client, operation):
    path = operation.address
    allowed = client.options(path).headers["Allow"]
    for method in ("PUT", "PATCH", "DELETE", "TRACE", "QUERY"):
        answer = client.open(path, method=method)
        assert answer.status_code == 405
        assert sorted(answer.headers["Allow"].split(", ")) == sorted(allowed.split(", "))
        assert answer.content_type == "application/problem+json"


def test_a_media_type_an_address_does_not_have_is_refused(client, operation):
    path = operation.address
    answer = client.open(path, method=operation.method.upper(), headers={"Accept": "image/png"})
    assert answer.status_code == 406
    assert answer.content_type == "application/problem+json"


@pytest.mark.parametrize(
    "accept", ["*/*", "", "application/json", "application/*;q=0.5, text/html", "text/html, */*;q=0.1"]
)
def test_an_acceptable_media_type_is_answered(client, resource, query, accept):
    assert client.get(f"/v1/{resource.noun}?{query}", headers={"Accept": accept}).status_code == 200


def test_a_table_is_rfc_4180(client, resource, query, answer):
    table = client.get(f"/v1/{resource.noun}.csv?{query}")
    assert table.status_code == 200
    assert table.content_type == "text/csv; charset=utf-8"
    text = table.get_data(as_text=True)
    assert text.endswith("\r\n")
    assert text.count("\n") == text.count("\r\n")
    assert not text.startswith("\ufeff")
    head, *rows = csv.reader(io.StringIO(text, newline=""), strict=True)
    assert rows
    assert len(set(head)) == len(head)
    assert all(len(row) == len(head) for row in rows)
    body = answer.get_json()
    expected = body[resource.answer.table] if resource.answer.table else [body]
    assert len(rows) == len(expected)
    for cells, figures in zip(rows, expected, strict=True):
        for name, cell in zip(head, cells, strict=True):
            _same(cell, figures[name])


def _same(text, value):
    """A cell's or an element's text against the JSON value; numbers without an exponent."""
    if isinstance(value, bool):
        assert text.lower() == str(value).lower()
    elif isinstance(value, int | float):
        assert float(text) == value
        assert "e" not in text.lower()
    elif isinstance(value, list):
        assert text == "; ".join(f"{bought['count']} x {bought['pack']}" for bought in value)
    else:
        assert text.removeprefix("'") == (value or "")


def test_xml_is_the_whole_answer_without_a_namespace(client, resource, query, answer):
    xml = client.get(f"/v1/{resource.noun}.xml?{query}")
    assert xml.status_code == 200
    assert xml.content_type == "application/xml; charset=utf-8"
    text = xml.get_data(as_text=True)
    assert "xmlns" not in text
    assert not text.endswith("\n")
    root = ElementTree.fromstring(text)
    assert root.tag == resource.noun
    _same_tree(root, answer.get_json())


def _same_tree(element, value):
    if isinstance(value, dict):
        assert [inner.tag for inner in element] == list(value)
        for inner, name in zip(element, value, strict=True):
            _same_tree(inner, value[name])
    elif isinstance(value, list):
        assert {inner.tag for inner in element} <= {"entry"}
        for inner, each in zip(element, value, strict=True):
            _same_tree(inner, each)
    else:
        _same(element.text or "", value)


def test_a_figure_is_one_number_and_nothing_else(client, resource, query, answer):
    for figure in resource.answer.singles:
        one = client.get(f"/v1/{resource.noun}/{figure}?{query}")
        assert one.status_code == 200
        assert one.content_type == "text/plain; charset=utf-8"
        text = one.get_data(as_text=True)
        assert text == text.strip()
        _same(text, answer.get_json().get(figure))
        assert "ETag" in one.headers


def test_an_answer_is_never_sniffed_or_split(client, asked):
    answer = client.post(asked.operation.path, json=asked.body)
    (media,) = asked.operation.document["responses"]["200"]["content"]
    assert answer.mimetype == media
    assert int(answer.headers["Content-Length"]) == len(answer.data)


def test_a_list_is_answered_in_every_form(client, operation):
    if operation.method == "get" and "{figure}" not in operation.path and not operation.parameters:
        answer = client.get(operation.address)
        assert answer.status_code == 200
        assert answer.headers["Cache-Control"] == "public, max-age=3600"
        assert client.get(operation.address, headers={"If-None-Match": answer.headers["ETag"]}).status_code == 304


def test_health_is_answered(client):
    for address in ("/health/live", "/health/ready"):
        assert client.get(address).status_code == 200
        assert client.head(address).status_code == 200
