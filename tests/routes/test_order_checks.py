"""Orders over HTTP: empty, huge, doubled and faulty ones, and goods that a request brings along."""

import copy
import csv
import io
import math

import pytest

from service.routes.takeoffs import DEMO

FLAG = {
    "sku": "FLAG",
    "name": "Flag 600 x 300 x 50",
    "item": "slab",
    "unit": "each",
    "slab": {"length": "600 mm", "width": "300 mm", "thickness": "50 mm"},
    "tax_percent": 20,
    "packs": [
        {"name": "single", "sku": "FLAG-1", "content": 1, "price": "3.05", "per_pallet": 48},
        {"name": "crate", "sku": "FLAG-C", "content": 48, "price": "129.99", "deposit": "12.00", "per_pallet": 1},
    ],
}
PRICED = {
    "type_1": ("t", 0.85, "41.37"),
    "cement": ("kg", 25, "5.95"),
    "sharp_sand": ("t", 0.85, "43.21"),
    "building_sand": ("t", 0.025, "2.89"),
}
#: Everything the demo job needs, priced.
YARD = [
    FLAG,
    *(
        {
            "sku": item.upper(),
            "name": item.replace("_", " "),
            "item": item,
            "unit": unit,
            "tax_percent": 5.5,
            "packs": [{"name": "bag", "content": content, "price": price, "per_pallet": 1}],
        }
        for item, (unit, content, price) in PRICED.items()
    ),
]


def sent(client, **body):
    return client.post("/v1/order-checks", json={"takeoff": DEMO, "workings": False} | body)


def errors(answer, status):
    assert answer.status_code == status, answer.text
    return {error["pointer"]: error["detail"] for error in answer.get_json()["errors"]}


def test_a_take_off_with_goods_of_its_own_is_priced_to_the_last_penny(client):
    taken = client.post("/v1/takeoffs", json=DEMO | {"goods": YARD}).get_json()
    # 197 flags: 4 crates and 5 single ones, 519.96 + 15.25; no better by hand (5 crates are 649.95).
    # 9 bags of stone, 24 of cement for bed and joints, 3 of sharp sand, 4 of building sand, as the demo's bill has them.
    prices = ["372.33", "142.80", "129.63", "535.21", "0.00", "11.56"]
    assert [line["price"] for line in taken["bill"]] == prices
    assert taken["price"] == "1191.53"
    # 20 % of 535.21 is 107.042; 5.5 % of 656.32 is 36.0976.
    assert taken["cost"] == {
        "net": "1191.53",
        "taxes": [
            {"code": "5.5 %", "name": "Tax at 5.5 %", "percent": "5.5", "net": "656.32", "amount": "36.10"},
            {"code": "20 %", "name": "Tax at 20 %", "percent": "20.0", "net": "535.21", "amount": "107.04"},
        ],
        "tax": "143.14",
        "deposits": "48.00",
        "total": "1382.67",
    }


def test_a_take_off_says_how_it_is_carried(client):
    taken = client.post("/v1/takeoffs", json=DEMO).get_json()
    carried = taken["carriage"]
    # 9 + 3 bulk bags and 4 crates fill a place each; 24 + 4 small bags of 25 kg and 5 flags share one.
    assert [line["pallets"] for line in taken["bill"]] == pytest.approx([9, 24 / 40, 3, 4 + 5 / 48, 0, 4 / 40])
    assert carried["pallets"] == 17
    assert carried["mass_t"] == pytest.approx(taken["mass_t"])
    assert carried["left_over"] == []
    loads = [(load["times"], load["mass_kg"], load["pallets"]) for load in carried["deliveries"]]
    assert sum(times * pallets for times, _, pallets in loads) == 17
    assert sum(times * mass for times, mass, _ in loads) == pytest.approx(1000 * carried["mass_t"])
    assert all(pallets <= 10 and mass <= 9000 for _, mass, pallets in loads)


def test_what_to_buy_stands_in_one_cell_of_a_table(client):
    query = {
        "area.shape": "rectangle",
        "area.length": "6.09 m",
        "area.width": "3.09 m",
        "paving.slab.name": "flag",
        "paving.slab.length": "600 mm",
        "paving.slab.width": "300 mm",
        "paving.slab.thickness": "50 mm",
        "paving.pattern": "stack_bond",
        "paving.joint": "10 mm",
        "build_up.laying_course.method": "full_bed",
        "build_up.laying_course.depth": "40 mm",
        "build_up.laying_course.parts": "1:4",
        "jointing.filler": "mortar",
        "jointing.parts": "1:4",
        "allowances.slabs_percent": "5",
    }
    text = client.get("/v1/takeoffs.csv", query_string=query).text
    rows = {(row["section"], row["item"]): row for row in csv.DictReader(io.StringIO(text))}
    # Ten slabs and nine joints either way: 100 slabs, 105 with 5 %, two crates of 48 and nine.
    assert rows["paving", "slab"]["packs"] == "9 x single slab; 2 x crate of 48"
    bed, joints = rows["laying_course", "cement"], rows["jointing", "cement"]
    bags = math.ceil((float(bed["gross"]) + float(joints["gross"])) / 25)
    assert (bed["packs"], joints["packs"], joints["bought_with"]) == (f"{bags} x 25 kg bag", "", bed["line"])


def test_the_job_of_a_finished_take_off_is_checked_as_it_was_asked(client):
    taken = client.post("/v1/takeoffs", json=DEMO).get_json()
    again, asked = (
        sent(client, takeoff=job, order_csv="sku,qty\nCE-25,24").get_json() for job in (taken["given"], DEMO)
    )
    assert again["lines"] == asked["lines"]
    assert again["reach"] == asked["reach"]


def test_goods_of_a_request_take_the_place_of_the_catalogues(client):
    own = copy.deepcopy(FLAG) | {"sku": "CF-600-300-50", "name": "Flag of our own"}
    taken = client.post("/v1/takeoffs", json=DEMO | {"goods": [own]}).get_json()
    (line,) = [line for line in taken["bill"] if line["item"] == "slab"]
    assert (line["sku"], line["name"]) == ("CF-600-300-50", "Flag of our own")


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"item": "slabs"}, "/takeoff/goods/0/item"),
        ({"unit": "t"}, "/takeoff/goods/0/unit"),
        ({"slab": None}, "/takeoff/goods/0/slab"),
        ({"substitutes": ["NONE"]}, "/takeoff/goods/0/substitutes/0"),
        ({"packs": [FLAG["packs"][0] | {"content": 1.5}]}, "/takeoff/goods/0/packs/0/content"),
        ({"packs": [FLAG["packs"][0] | {"most": 2, "least": 3}]}, "/takeoff/goods/0/packs/0/most"),
        ({"packs": [FLAG["packs"][0], FLAG["packs"][0]]}, "/takeoff/goods/0/packs"),
        ({"packs": [FLAG["packs"][0] | {"price": "0.00"}]}, "/takeoff/goods/0/packs/0/price"),
    ],
)
def test_goods_that_cannot_be_sold_are_pointed_at(client, change, pointer):
    good = {name: value for name, value in (FLAG | change).items() if value is not None}
    answer = sent(client, takeoff=DEMO | {"goods": [good]}, order=[{"sku": "FLAG", "quantity": 1}])
    assert list(errors(answer, 422)) == [pointer]


def test_two_goods_with_one_number_are_pointed_at(client):
    answer = sent(client, takeoff=DEMO | {"goods": [FLAG, FLAG]}, order=[{"sku": "FLAG", "quantity": 1}])
    assert list(errors(answer, 422)) == ["/takeoff/goods/1/sku"]


def test_more_goods_than_a_request_may_bring_are_refused(client):
    goods = [FLAG | {"sku": f"FLAG{k}"} for k in range(101)]
    assert list(errors(client.post("/v1/takeoffs", json=DEMO | {"goods": goods}), 400)) == ["/goods"]


def test_an_empty_order_is_refused(client):
    assert "1 to 10000" in errors(sent(client, order=[]), 400)["/order"]
    assert list(errors(sent(client, order_csv=""), 400)) == ["/order_csv"]
    for text in ("\n", " ", "sku,quantity", "sku,quantity\n,,\n"):
        assert "is empty" in errors(sent(client, order_csv=text), 422)["/order_csv"]


def test_an_order_is_given_one_way(client):
    for body in ({}, {"order": [{"sku": "CE", "quantity": 1}], "order_csv": "sku,quantity\nCE,1"}):
        assert list(errors(sent(client, **body), 422)) == ["/order"]


@pytest.mark.parametrize(
    ("heading", "part"),
    [
        ("CE-25,3", "doesn't name the columns"),
        ("sku,unit", "doesn't name the columns"),
        ("quantity,unit", "doesn't name the columns"),
        ("sku,qty,quantity", "'qty', 'quantity' may each be the quantity"),
        ('"sku,qty', "quotation mark"),
    ],
)
def test_headings_that_cannot_be_told_are_refused(client, heading, part):
    assert part in errors(sent(client, order_csv=f"{heading}\nCE-25,3"), 422)["/order_csv"]


def test_ten_thousand_lines_are_checked_and_each_is_answered_for(client):
    lines = [{"sku": ("CE-25", "NONE-7")[k % 2], "quantity": (1, "two", 1)[k % 3]} for k in range(10_000)]
    answer = sent(client, order=lines)
    assert answer.status_code == 200
    body = answer.get_json()
    read = [number for line in body["lines"] for number in line["order_lines"]]
    assert sorted(read + [line["line"] for line in body["unread"]]) == list(range(1, 10_001))
    assert "Must hold" in errors(sent(client, order=[*lines, lines[0]]), 400)["/order"]


def test_ten_thousand_pasted_lines_are_checked_and_one_more_is_not(client):
    pasted = "sku,qty\n" + "CE-25,1\n" * 10_000
    assert sent(client, order_csv=pasted).get_json()["lines"][1]["ordered"] == 10_000
    assert "10000 is the most" in errors(sent(client, order_csv=pasted + "CE-25,1\n"), 422)["/order_csv"]


def test_a_number_and_its_figures_are_the_same_quantity(client):
    by_number = sent(client, order=[{"sku": "CE-25", "quantity": 24}]).get_json()
    by_text = sent(client, order=[{"sku": "CE-25", "quantity": "24"}]).get_json()
    assert by_number["lines"] == by_text["lines"]
    assert by_number["given"]["order"] == [{"sku": "CE-25", "quantity": 24}]


@pytest.mark.parametrize(
    ("quantity", "part"), [(0, "orders none"), (-1, "below nothing"), (2.5, "whole"), (1e300, "plain number")]
)
def test_a_number_that_orders_nothing_is_named(client, quantity, part):
    body = sent(client, order=[{"sku": "CE-25", "quantity": quantity}]).get_json()
    (unread,) = body["unread"]
    assert unread["line"] == 1
    assert part in unread["because"]


def test_an_order_for_a_job_that_cannot_be_laid_is_refused_at_the_job(client):
    job = copy.deepcopy(DEMO)
    job["area"]["notch_length"] = "9 m"
    assert all(pointer.startswith("/takeoff/area") for pointer in errors(sent(client, takeoff=job, order_csv="a"), 422))


def test_the_bill_of_the_demo_is_enough_and_a_pack_less_is_short(client):
    bill = client.post("/v1/takeoffs", json=DEMO).get_json()["bill"]
    packs = [(pack["sku"], pack["count"]) for line in bill for pack in line["packs"]]
    order = [{"sku": sku, "quantity": count} for sku, count in packs]
    assert sent(client, order=order).get_json()["verdict"] == "enough"
    for k, (sku, count) in enumerate(packs):
        less = [*order[:k], {"sku": sku, "quantity": count - 1}, *order[k + 1 :]]
        assert sent(client, order=less).get_json()["verdict"] == "short", sku
