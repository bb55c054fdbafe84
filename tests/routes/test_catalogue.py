"""The catalogue over HTTP: found by item, by words, page by page and by stock number."""

from urllib.parse import quote

import pytest

from service.catalogue import generic


def listed(client, **query):
    answer = client.get("/v1/catalogue", query_string=query)
    assert answer.status_code == 200, answer.text
    return answer.get_json()


def test_every_good_stands_on_one_page_in_the_catalogues_order(client):
    first = listed(client)
    pages = [listed(client, page=page)["goods"] for page in range(1, first["pages"] + 1)]
    assert [good["sku"] for page in pages for good in page] == [good.sku for good in generic()]
    assert first["count"] == len(generic())
    assert listed(client, page=first["pages"] + 1)["goods"] == []


def test_an_item_leaves_its_goods_alone(client):
    found = listed(client, item="edging", per_page=500)
    assert {good["item"] for good in found["goods"]} == {"edging"}
    assert found["count"] == len(found["goods"]) == sum(good.item == "edging" for good in generic())


def test_words_are_found_whatever_their_order_and_size(client):
    assert [good["sku"] for good in listed(client, text="SAND sharp")["goods"]] == ["SH", "SH-L"]
    assert [good["sku"] for good in listed(client, text="sh-l")["goods"]] == ["SH-L"]
    assert listed(client, text="pebbledash") | {"goods": []} == listed(client, text="pebbledash")
    assert (listed(client, text="pebbledash")["count"], listed(client, text="pebbledash")["pages"]) == (0, 1)


@pytest.mark.parametrize(("name", "text"), [("page", "0"), ("per_page", "501"), ("page", "x"), ("text", "=1")])
def test_what_no_page_can_be_is_refused(client, name, text):
    answer = client.get("/v1/catalogue", query_string={name: text})
    assert answer.status_code == 400
    assert [error["pointer"] for error in answer.get_json()["errors"]] == [f"/{name}"]


def test_every_good_and_pack_is_found_by_its_stock_number(client):
    for good in generic():
        for sku in (good.sku, *(pack.sku for pack in good.packs)):
            answer = client.get(f"/v1/catalogue/{quote(sku)}")
            assert answer.status_code == 200
            assert answer.get_json()["sku"] == good.sku
            assert [pack["sku"] for pack in answer.get_json()["packs"]] == [pack.sku for pack in good.packs]


@pytest.mark.parametrize("sku", ["T1-BX", "t1", "x" * 500, "a/b", "%00", "%E2%80%AE"])
def test_an_unknown_stock_number_is_nothing_with_the_nearest_named(client, sku):
    answer = client.get(f"/v1/catalogue/{sku}")
    assert answer.status_code == 404
    assert answer.content_type == "application/problem+json"
    (error,) = answer.get_json()["errors"]
    assert error["pointer"] == "/sku"
    assert "the nearest " in error["detail"] or "; there are " in error["detail"]
    assert len(error["detail"]) < 400
