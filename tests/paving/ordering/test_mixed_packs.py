"""Slabs of several sizes that a merchant sells in packs of all of them, worked by hand."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from service.catalogue import read
from service.paving.bills import BillLine, bill
from service.paving.ordering.goods import Good, Goods, Pack
from service.paving.ordering.order_checks import Verdict, takeoff_check
from service.paving.ordering.order_lines import WrittenLine
from service.paving.ordering.purchases import Want
from service.paving.reference import default
from service.paving.sheets import Sheet
from service.paving.slabs import Slab
from service.paving.takeoffs import takeoff
from service.schemas.takeoffs import TakeOffQuestion

YARD = read(Path(__file__).parent / "yard")
#: 10 of 900 x 600, 10 of 600 x 600 and 20 of 600 x 300 mm: 5.4 + 3.6 + 3.6 = 12.6 m2 at 420.00.
MIX = YARD.good("MIX")
FIVE = default("takeoffs", "slabs_allowance").given(0.05)


def want(name: str, length: float, width: float, number: int, made_of: str = "sandstone") -> Want:
    slab = Slab(name, length, width, 0.022, made_of=made_of)
    face = length * width
    measures = {"each": float(number), "m2": number * face}
    return Want("paving", "slab", name, number * face * 0.022 * 2450, measures, FIVE, slab)  # type: ignore[arg-type]


def billed(goods: Goods, *wants: Want) -> tuple[BillLine, ...]:
    return bill(Sheet(), wants, goods)


THREE = want("large", 0.9, 0.6, 23), want("middle", 0.6, 0.6, 20), want("small", 0.3, 0.6, 41)


def test_the_size_that_runs_out_first_decides_how_many_packs() -> None:
    """With 5 %: 25 of 10 a pack, 21 of 10, 44 of 20: 2.5, 2.1 and 2.2 packs, so 31.5 m2, and three crates."""
    lines = billed(YARD, *THREE)
    assert [line.sku for line in lines] == ["MIX"] * 3
    assert [line.unit for line in lines] == ["m2"] * 3
    assert [line.net for line in lines] == pytest.approx([23 * 0.54, 20 * 0.36, 41 * 0.18])
    assert [line.gross for line in lines] == pytest.approx([25 * 0.54, 25 * 0.36, 50 * 0.18])
    assert [(bought.count, bought.pack.name) for bought in lines[0].packs] == [(3, "crate")]
    assert lines[0].surplus == pytest.approx(37.8 - 31.5)
    assert [line.price for line in lines] == [Decimal("1260.00"), Decimal("0.00"), Decimal("0.00")]
    assert [line.bought_with for line in lines] == [None, 1, 1]
    assert [line.mass for line in lines] == pytest.approx([37.8 * 0.022 * 2450, 0, 0])


def test_the_workings_show_the_mix_and_each_sizes_share_of_it() -> None:
    sheet = Sheet()
    bill(sheet, THREE, YARD)
    worked = {step.figure: step.value for step in sheet.steps}
    assert worked["bill.1.mix"] == worked["bill.3.mix"] == pytest.approx(31.5)
    assert worked["bill.2.gross"] == pytest.approx(9.0)
    assert worked["bill.1.bought_for"] == pytest.approx(31.5)


@pytest.mark.parametrize(
    "wants",
    [
        THREE[:2],
        (*THREE, want("strip", 0.9, 0.3, 4)),
        (THREE[0], THREE[1], want("small", 0.3, 0.5, 41)),
        (THREE[0], THREE[1], want("small", 0.3, 0.6, 41, "slate")),
        (THREE[0],),
    ],
    ids=["a size less", "a size more", "another size", "another stone", "one size alone"],
)
def test_a_pack_of_other_sizes_is_not_bought(wants: tuple[Want, ...]) -> None:
    assert {line.sku for line in billed(YARD, *wants)} == {None}


def test_sizes_that_are_each_sold_by_themselves_are_bought_by_themselves() -> None:
    single = Good("S", "Slab", "slab", "each", (Pack("one", 1, "S-1"),), mass=20.0, made_of="sandstone")
    singles = [replace(single, sku=w.name, slabs=(w.slab,), packs=(Pack("one", 1, w.name),)) for w in THREE if w.slab]
    assert [line.sku for line in billed(Goods([MIX, *singles], YARD.terms), *THREE)] == ["large", "middle", "small"]
    # With one of them missing it is the mix for all, not the mix beside the others.
    assert [line.sku for line in billed(Goods([*singles[:2], MIX], YARD.terms), *THREE)] == ["MIX"] * 3


def test_packs_that_can_not_hold_it_are_not_bought() -> None:
    few = replace(MIX, packs=(replace(MIX.packs[0], most=2),))
    assert {line.sku for line in billed(Goods([few], YARD.terms), *THREE)} == {None}


def test_an_order_of_the_bills_crates_is_enough_and_a_crate_less_is_short() -> None:
    asked = {
        "area": {"shape": "rectangle", "length": "6 m", "width": "5.1 m"},
        "paving": {
            "slabs": [
                {"name": w.name, "length": f"{w.slab.length} m", "width": f"{w.slab.width} m", "thickness": "22 mm",
                 "made_of": "sandstone", "share": share}
                for w, share in zip(THREE, (42, 29, 29), strict=True) if w.slab
            ],
            "pattern": "coursed_random",
            "joint": "0 mm",
        },
    }  # fmt: skip
    question = TakeOffQuestion()
    taken = takeoff(Sheet(), question.made(question.load(asked))["job"], YARD)
    assert [line.sku for line in taken.bill] == ["MIX"] * 3
    (bought,) = taken.bill[0].packs
    assert 3 <= bought.count <= 5
    for count, verdict in ((bought.count, Verdict.enough), (bought.count - 1, Verdict.short)):
        check = takeoff_check(Sheet(), taken, [WrittenLine(1, sku="MIX", quantity=str(count), unit="crate")], YARD)
        assert [line.verdict for line in check.lines] == [verdict]
        assert [(more.count, more.pack.name) for more in check.lines[0].mend] == [(1, "crate")] * (verdict == "short")
