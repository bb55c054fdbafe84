"""Answers kept between requests: to the byte what would be worked out again, in bounded room."""

import pytest

from service import create_app
from service.routes.kept_answers import KeptAnswers
from service.settings import Settings

QUERY = {"shape": "rectangle", "length": "4.8 m", "width": "3.6 m"}


def asked(number):
    return "areas", "body", b"%d" % number


@pytest.fixture(scope="module")
def forgetful():
    """A service that keeps no answers."""
    return create_app(Settings(kept_bytes=0)).test_client()


def test_an_answer_given_again_is_the_same_to_the_byte_as_one_worked_out(client, forgetful, resource):
    address = f"/v1/{resource.noun}"
    first, again, anew = (each.post(address, json=resource.example) for each in (client, client, forgetful))
    assert first.status_code == 200
    assert first.data == again.data == anew.data
    assert dict(first.headers) == dict(again.headers) == dict(anew.headers)


@pytest.mark.parametrize("form", ["", ".csv", ".xml", "/area_m2", "/perimeter_m"])
def test_every_form_of_a_kept_answer_is_as_one_worked_out(client, forgetful, form):
    answers = [each.get(f"/v1/areas{form}", query_string=QUERY) for each in (client, client, forgetful)]
    assert [answer.status_code for answer in answers] == [200] * 3
    assert len({answer.data for answer in answers}) == 1
    assert len({answer.headers["ETag"] for answer in answers}) == 1


def test_a_body_is_not_answered_for_the_same_bytes_as_a_query(client):
    body = b'{"shape":"rectangle","length":"4.8 m","width":"3.6 m"}'
    assert client.post("/v1/areas", data=body, content_type="application/json").status_code == 200
    assert client.get("/v1/areas", query_string=body.decode()).status_code == 400


def test_a_refusal_is_not_kept_in_place_of_an_answer(client):
    open_sided = {"shape": "triangle", "side_a": "1 m", "side_b": "1 m", "side_c": "9 m"}
    assert [client.post("/v1/areas", json=open_sided).status_code for _ in range(2)] == [422, 422]


def test_an_answer_is_worked_out_once_and_again_when_others_have_pushed_it_out():
    kept, worked = KeptAnswers(room=1000), []

    def answer(number):
        return kept.answer(asked(number), lambda: worked.append(number) or b"x" * 100)

    assert answer(0) == answer(0) == b"x" * 100
    assert worked == [0]
    for number in [1, 0, 2, 0, 3, 0, 4, 0, 5, 0, 6, 0, 7, 0, 8, 0, 9, 0]:
        answer(number)
    assert worked == list(range(10)), "the one asked for again and again has stayed"
    assert kept.taken <= 1000
    answer(1)
    assert worked[-1] == 1, "the one longest unasked went"


def test_an_answer_too_large_for_its_share_pushes_no_other_out():
    kept = KeptAnswers(room=1000)
    kept.answer(asked(0), lambda: b"small")
    assert len(kept.answer(asked(1), lambda: b"x" * 500)) == 500
    assert kept.answer(asked(0), lambda: b"worked out again") == b"small"
    assert kept.answer(asked(1), lambda: b"y") == b"y"


def test_without_room_nothing_is_kept():
    kept = KeptAnswers(room=0)
    assert kept.answer(asked(0), lambda: b"first") == b"first"
    assert kept.answer(asked(0), lambda: b"second") == b"second"
    assert kept.taken == 0


def test_an_answer_worked_out_twice_at_once_is_counted_once():
    kept = KeptAnswers(room=1000)
    kept.answer(asked(0), lambda: kept.answer(asked(0), lambda: b"x" * 50))
    assert kept.taken == 51
