"""The README's request is answered as the README says."""

import json
import re
from pathlib import Path

import pytest

README = (Path(__file__).parents[2] / "README.md").read_text("utf-8")


@pytest.fixture(scope="module")
def answer(client):
    body = re.search(r"/v1/takeoffs .*? -d '(\{.*?\})'$", README, re.S | re.M)[1]
    response = client.post("/v1/takeoffs", json=json.loads(body))
    assert response.status_code == 200
    return response.get_json()


def _cells(line):
    packs = " and ".join(f"{pack['count']} x {pack['pack']}" for pack in line["packs"])
    if line["bought_with"]:
        packs = f"with line {line['bought_with']}"
    unit = "" if line["unit"] == "each" else f" {line['unit']}"
    return line["section"], line["name"], f"{line['net']:.4g}{unit}", f"{line['gross']:.4g}{unit}", packs


def test_its_table_is_the_bill(answer):
    table = re.search(r"^\| section .*?\n\|[-|]+\n((?:\|.*\n)+)", README, re.M)[1]
    shown = [tuple(cell.strip() for cell in row.strip("|").split("|")) for row in table.splitlines()]
    assert shown == [_cells(line) for line in answer["bill"]]


def test_its_counts_are_the_layouts(answer):
    layout = answer["layout"]
    shown = re.search(r"(\d+) whole slabs and (\d+) cut, offcuts used again: (\d+) to buy", README)
    assert [int(count) for count in shown.groups()] == [layout[f"slabs_{part}"] for part in ("whole", "cut", "to_buy")]


def test_its_table_of_addresses_is_the_services(contract):
    shown = set(re.findall(r"`(/v1/[a-z-]+)`", README.partition("## What it answers")[2].partition("## Who")[0]))
    assert shown == {path for path in contract["paths"] if re.fullmatch("/v1/[a-z-]+", path)}


def test_the_job_the_commands_the_request_and_the_answer_are_in_the_first_forty_lines():
    top = "\n".join(README.splitlines()[:40])
    for part in ("sh .ci/serve", "sh .ci/test", "curl", "`bill`"):
        assert part in top


def test_every_address_it_shows_is_answered(client):
    addresses = re.findall(r"http://127\.0\.0\.1:8000(/[^\s'\"`|)]*\?[^\s'\"`|)]*)", README)
    assert addresses
    for address in addresses:
        assert client.get(address).status_code == 200, address
