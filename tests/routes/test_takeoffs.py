"""Take-offs as a whole."""

from tests.benchmarks.jobs import whole_job

#: The stage in which what stands in a section of the bill is used.
USED_IN = {
    "ground": "dig",
    "membrane": "membrane",
    "sub_base": "sub_base",
    "edging": "edging",
    "laying_course": "lay",
    "border": "lay",
    "paving": "lay",
    "jointing": "point",
}


def test_bill_and_programme_go_in_one_order_of_work(client):
    found = client.post("/v1/takeoffs", json=whole_job()).get_json()
    stages = [stage["name"] for stage in found["programme"]["stages"]]
    sections = list(dict.fromkeys(line["section"] for line in found["bill"]))
    assert set(sections) == set(USED_IN)
    used = [stages.index(USED_IN[section]) for section in sections]
    assert used == sorted(used)
