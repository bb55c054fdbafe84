"""What holds of every bill and of the order made from it, over jobs of many kinds and goods in many packs."""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as some

from service.catalogue import generic
from service.paving.jobs import Job
from service.paving.ordering.goods import Good, Goods, Pack
from service.paving.ordering.order_checks import CheckedLine, OrderCheck, Verdict, takeoff_check
from service.paving.ordering.order_lines import WrittenLine
from service.paving.ordering.terms import Prices, Rounding, Tax, TaxedBy, Terms
from service.paving.sheets import Sheet
from service.paving.slabs import Slab
from service.paving.takeoffs import TakeOff, takeoff
from service.schemas.takeoffs import TakeOffQuestion

FLAG, EDGE = Slab("flag", 0.6, 0.6, 0.038), Slab("edge", 0.9, 0.6, 0.038)
#: What is sold, and in which packs it may come.
SOLD: dict[str, tuple[Good, list[float]]] = {
    sku: (Good(sku, sku.capitalize(), item, unit, (), mass=mass, slabs=slabs, made_of="concrete", tax="A"), contents)
    for sku, item, unit, mass, slabs, contents in (
        ("STONE", "type_1", "t", None, (), [0.025, 0.5, 0.85, 1.0, 1.5]),
        ("SHARP", "sharp_sand", "t", None, (), [0.025, 0.04, 0.85, 1.0]),
        ("SOFT", "building_sand", "kg", None, (), [20.0, 25.0, 40.0, 850.0]),
        ("CEMENT", "cement", "kg", None, (), [10.0, 20.0, 25.0, 40.0]),
        ("GRAVEL", "aggregate_20mm", "t", None, (), [0.025, 0.85]),
        ("DRIED", "dried_sand", "kg", None, (), [15.0, 20.0, 25.0]),
        ("FLAG", "slab", "each", 32.0, (FLAG,), [1.0, 5.0, 12.0, 20.0, 48.0]),
        ("EDGE", "slab", "m2", 88.0, (EDGE,), [0.54, 5.4, 10.8]),
        ("KERB", "edging", "each", 20.0, (Slab("kerb", 0.915, 0.05, 0.15),), [1.0, 6.0, 15.0]),
    )
}
PRICES = some.decimals(Decimal("0.01"), Decimal(300), places=2)
EDGING = {"slab": {"length": "915 mm", "width": "50 mm"}, "height": "150 mm"}
BEDS = [
    {"method": "full_bed", "depth": "40 mm", "parts": "1:4"},
    {"method": "full_bed", "depth": "35 mm", "parts": "1:6", "consistence": "semi_dry"},
    {"method": "screeded", "material": "sharp_sand", "depth": "40 mm"},
    {"method": "screeded", "material": "dried_sand", "depth": "30 mm"},
]
JOINTS = [None, {"filler": "mortar", "parts": "1:4"}, {"filler": "mortar", "parts": "1:3"}, {"filler": "dried_sand"}]
BORDERS = [None, {"slab": "edge"}, {"slab": "flag"}]


def size(slab: Slab) -> dict[str, str]:
    sides = {"length": slab.length, "width": slab.width, "thickness": slab.thickness}
    return {"name": slab.name} | {name: f"{side * 1000:.0f} mm" for name, side in sides.items()}


@some.composite
def jobs(draw: some.DrawFn) -> Job:
    """Rectangles on sand or mortar, pointed or brushed in, with or without kerb, border and sub-base."""
    sides = some.integers(2600, 6000)
    asked: dict[str, Any] = {
        "area": {"shape": "rectangle", "length": f"{draw(sides)} mm", "width": f"{draw(sides)} mm"},
        "paving": {"slabs": [size(FLAG)], "pattern": "stack_bond", "joint": "10 mm"},
        "build_up": {"laying_course": draw(some.sampled_from(BEDS))},
        "allowances": {"slabs_percent": draw(some.integers(0, 12)), "jointing_percent": draw(some.integers(0, 12))},
    }
    if draw(some.booleans()):
        asked["build_up"]["sub_base"] = {"material": "type_1", "depth": "100 mm"}
    for name, choices in (("jointing", JOINTS), ("edging", [None, EDGING])):
        chosen = draw(some.sampled_from(choices))
        asked |= {name: chosen} if chosen else {}
    border = draw(some.sampled_from(BORDERS))
    if border:
        asked["border"] = {"slab": size(EDGE if border["slab"] == "edge" else FLAG), "joint": "10 mm"}
    question = TakeOffQuestion()
    made: Job = question.made(question.load(asked))["job"]
    return made


@some.composite
def good(draw: some.DrawFn, sku: str, priced: bool) -> Good:
    """A good in one to four packs; a small one may be sold in small numbers only, the last without limit."""
    sold, contents = SOLD[sku]
    chosen = draw(some.lists(some.sampled_from(contents), min_size=1, max_size=4, unique=True))
    packs = tuple(
        Pack(
            f"pack of {content:g}",
            content,
            f"{sku}-{k}",
            most=draw(some.sampled_from([None, None, 3, 8])) if k < len(chosen) - 1 else None,
            price=draw(PRICES) if priced else None,
            deposit=draw(some.none() | PRICES),
            per_pallet=draw(some.sampled_from([None, 1, 40])),
        )
        for k, content in enumerate(chosen)
    )
    return replace(sold, packs=packs)


@some.composite
def yards(draw: some.DrawFn) -> Goods:
    """A yard that sells all of it; prices for everything, or for some, or for nothing."""
    priced = draw(some.sampled_from([lambda k: True, lambda k: False, lambda k: k % 3 > 0]))
    terms = Terms(
        currency="EUR",
        prices=draw(some.sampled_from(Prices)),
        rounding=draw(some.sampled_from(Rounding)),
        tax_rounding=draw(some.sampled_from(Rounding)),
        taxed_by=draw(some.sampled_from(TaxedBy)),
        taxes={"A": Tax("A", "Tax", Decimal(20))},
    )
    return Goods([draw(good(sku, priced(k))) for k, sku in enumerate(SOLD)], terms)


def billed(taken: TakeOff) -> list[WrittenLine]:
    """An order of what the bill says."""
    packs = [bought for line in taken.bill for bought in line.packs]
    return [
        WrittenLine(number, sku=bought.pack.sku, quantity=str(bought.count)) for number, bought in enumerate(packs, 1)
    ]


def with_one(order: list[WrittenLine], more: int) -> Iterator[tuple[str, list[WrittenLine]]]:
    """The order with a pack more or less of each of its lines in turn, and the stock number of the pack."""
    for k, line in enumerate(order):
        count = int(line.quantity) + more
        changed = [replace(line, quantity=str(count))] if count else []
        yield line.sku, [*order[:k], *changed, *order[k + 1 :]]


def against(taken: TakeOff, order: list[WrittenLine], goods: Goods) -> OrderCheck:
    check = takeoff_check(Sheet(), taken, order, goods)
    assert not check.unread
    return check


def line_of(check: OrderCheck, pack: str, goods: Goods) -> CheckedLine:
    (found,) = [line for line in check.lines if line.sku == goods.pack(pack)[0].sku]
    return found


@given(jobs(), yards())
def test_ordering_what_the_bill_says_is_enough(job: Job, goods: Goods) -> None:
    taken = takeoff(Sheet(), job, goods)
    check = against(taken, billed(taken), goods)
    assert check.verdict is Verdict.enough
    assert {line.verdict for line in check.lines} == {Verdict.enough}
    assert all(not line.mend for line in check.lines)


@settings(max_examples=60)
@given(jobs(), yards())
def test_any_pack_less_than_the_bill_says_is_short_and_its_mending_is_enough(job: Job, goods: Goods) -> None:
    taken = takeoff(Sheet(), job, goods)
    for pack, order in with_one(billed(taken), -1):
        check = against(taken, order, goods)
        found = line_of(check, pack, goods)
        left = any(goods.pack(line.sku)[0].sku == found.sku for line in order)
        assert check.verdict is Verdict.short
        assert found.verdict is (Verdict.short if left else Verdict.missing)
        assert [line.sku for line in check.lines if line.mend] == [found.sku]
        mended = [WrittenLine(0, sku=bought.pack.sku, quantity=str(bought.count)) for bought in found.mend]
        again = line_of(against(taken, [*order, *mended], goods), pack, goods)
        assert again.verdict in (Verdict.enough, Verdict.over)


@settings(max_examples=30)
@given(jobs(), yards())
def test_any_pack_more_than_the_bill_says_is_over(job: Job, goods: Goods) -> None:
    taken = takeoff(Sheet(), job, goods)
    for pack, order in with_one(billed(taken), 1):
        check = against(taken, order, goods)
        assert check.verdict is Verdict.over
        assert line_of(check, pack, goods).verdict is Verdict.over


@given(jobs(), yards())
def test_each_good_stands_once_with_its_packs_and_every_sum_is_that_of_the_lines(job: Job, goods: Goods) -> None:
    taken = takeoff(Sheet(), job, goods)
    for sku in {line.sku for line in taken.bill}:
        own = [line for line in taken.bill if line.sku == sku]
        first, *others = own
        held = sum(bought.count * bought.pack.content for bought in first.packs)
        assert abs(held - sum(line.gross for line in own) - (first.surplus or 0.0)) < 1e-6
        assert first.bought_with is None
        for line in others:
            assert (line.bought_with, line.packs, line.surplus) == (first.line, (), 0.0)
            assert (line.mass, line.pallets) == (0.0, 0.0)
            assert line.price == (None if first.price is None else 0)
    assert abs(taken.mass - sum(line.mass for line in taken.bill)) < 1e-6
    assert len([line for line in taken.bill if line.packs]) == len({line.sku for line in taken.bill})


@given(jobs(), yards())
def test_a_bill_costs_what_its_lines_cost_to_the_last_place(job: Job, goods: Goods) -> None:
    taken = takeoff(Sheet(), job, goods)
    prices = [line.price for line in taken.bill]
    if any(price is None for price in prices):
        assert (taken.price, taken.cost) == (None, None)
        return
    cost, known = taken.cost, [price for price in prices if price is not None]
    assert cost is not None
    assert cost.net is not None
    assert cost.tax is not None
    assert cost.total is not None
    assert taken.price == sum(known)
    assert [line.amount for line in cost.lines] == known
    assert taken.price == (cost.net if goods.terms.prices is Prices.BEFORE_TAX else cost.net + cost.tax)
    assert cost.tax == sum(tax.amount for tax in cost.taxes)
    assert cost.total == cost.net + cost.tax + cost.deposits


def test_those_jobs_share_cement_between_bed_pointing_and_kerb() -> None:
    """Else what is said of lines that share a good would be said of none."""
    question = TakeOffQuestion()
    asked = {
        "area": {"shape": "rectangle", "length": "6 m", "width": "3 m"},
        "paving": {"slabs": [size(FLAG)], "pattern": "stack_bond", "joint": "10 mm"},
        "build_up": {"laying_course": BEDS[0]},
        "jointing": JOINTS[1],
        "edging": EDGING,
    }
    taken = takeoff(Sheet(), question.made(question.load(asked))["job"], generic())
    cement = [line for line in taken.bill if line.item == "cement"]
    assert [line.section for line in cement] == ["edging", "laying_course", "jointing"]
    assert [line.bought_with for line in cement] == [None, cement[0].line, cement[0].line]
