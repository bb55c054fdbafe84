"""Order checks: by hand as data, and what holds of every order."""

import math
import tomllib
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from service.catalogue import read
from service.paving.jobs import Job
from service.paving.ordering.goods import Good, Goods, Pack
from service.paving.ordering.order_checks import OrderCheck, Verdict, order_check
from service.paving.ordering.order_lines import WrittenLine, read_lines
from service.paving.sheets import Sheet
from service.paving.takeoffs import takeoff
from service.schemas.pasted_orders import pasted_lines
from service.schemas.takeoffs import TakeOffQuestion

HERE = Path(__file__).parent
TABLE = tomllib.loads((HERE / "order_checks.toml").read_text("utf-8"))
YARD = read(HERE / "yard")
HEADINGS = "sku,description,quantity,unit"


def job(**changes: Any) -> Job:
    """The job of the table, with some of it changed."""
    asked: dict[str, Any] = {
        "area": {"shape": "rectangle", "length": "6 m", "width": "3 m"},
        "paving": {
            "slabs": [{"name": "flag", "length": "600 mm", "width": "600 mm", "thickness": "38 mm"}],
            "pattern": "stack_bond",
            "joint": "0 mm",
        },
        "build_up": {
            "sub_base": {"material": "type_1", "depth": "100 mm"},
            "laying_course": {"method": "screeded", "material": "sharp_sand", "depth": "40 mm"},
        },
        "allowances": {"slabs_percent": 4, "sub_base_percent": 0, "laying_course_percent": 0},
    }
    question = TakeOffQuestion()
    made: Job = question.made(question.load(asked | changes))["job"]
    return made


#: Mortar for bed and joints: cement is wanted twice. 10 mm joints.
MORTARED = job(
    paving={
        "slabs": [{"name": "flag", "length": "600 mm", "width": "600 mm", "thickness": "38 mm"}],
        "pattern": "stack_bond",
        "joint": "10 mm",
    },
    build_up={"laying_course": {"method": "full_bed", "depth": "40 mm", "parts": "1:4"}},
    jointing={"filler": "mortar", "parts": "1:4"},
)


def checked(text: str, work: Job | None = None, goods: Goods = YARD) -> OrderCheck:
    return order_check(Sheet(), work or job(), pasted_lines(text), goods)


def verdicts(check: OrderCheck) -> dict[str, str]:
    return {line.sku or line.item: line.verdict.value for line in check.lines}


def table(case: dict[str, Any]) -> str:
    """The pasted order of a case."""
    if "table" in case:
        return str(case["table"])
    beside = [line for good in case.get("beside", "").split() for line in TABLE["bill"][good]]
    return "\n".join([HEADINGS, *case.get("order", "").strip().splitlines(), *beside])


@pytest.mark.parametrize("case", TABLE["check"], ids=lambda case: case["name"])
def test_an_order_worked_by_hand_is_judged_as_by_hand(case: dict[str, Any]) -> None:
    check = checked(table(case))
    by_sku = {line.sku: line for line in check.lines}
    assert verdicts(check) == case["lines"]
    assert check.verdict.value == case["verdict"]
    for sku, (amount, unit) in case.get("by", {}).items():
        assert (by_sku[sku].by, by_sku[sku].unit) == (pytest.approx(amount, abs=1e-6), unit)
    for sku, (packs, price) in case.get("mend", {}).items():
        said = sorted(f"{bought.count} {bought.pack.sku}" for bought in by_sku[sku].mend)
        assert (", ".join(said), by_sku[sku].mend_price) == (packs, Decimal(price))
    for sku, part in case.get("because", {}).items():
        assert part in by_sku[sku].because
    unread = {str(line.number): line.because for line in check.unread}
    assert unread.keys() == case.get("unread", {}).keys()
    for number, part in case.get("unread", {}).items():
        assert part in unread[number]


def test_more_than_sixty_orders_are_worked_by_hand() -> None:
    names = [case["name"] for case in TABLE["check"]]
    assert len(set(names)) == len(names) > 60


def test_cement_of_bed_and_joints_is_needed_together() -> None:
    bill = takeoff(Sheet(), MORTARED, YARD).bill
    cement = [line.gross for line in bill if line.item == "cement"]
    assert len(cement) == 2
    assert [math.ceil(kilograms / 25) for kilograms in (*cement, sum(cement))] == [12, 1, 12]
    found = {}
    for bags in (11, 12, 13, 14):
        (found[bags],) = [line for line in checked(f"sku,qty\nCEM,{bags}", MORTARED).lines if line.item == "cement"]
        assert found[bags].needed == pytest.approx(sum(cement) / 25)
    # Twelve do for both, and the bill says so; a thirteenth would be to round each line up by itself.
    assert [line.verdict.value for line in found.values()] == ["short", "enough", "over", "over"]
    assert [(bought.count, bought.pack.sku) for bought in found[11].mend] == [(1, "CEM")]


def test_what_the_catalogue_has_nothing_for_is_missing_and_can_be_ordered_by_its_name() -> None:
    missing = {line.item: line for line in checked("sku,qty\nCEM,13", MORTARED).lines}["building_sand"]
    assert (missing.verdict, missing.sku, missing.mend) == (Verdict.missing, None, ())
    ordered = {line.item: line for line in checked("item,qty,unit\nbuilding_sand,0.04,t", MORTARED).lines}
    assert ordered["building_sand"].verdict is Verdict.over
    bags = checked("item,qty,unit\nbuilding_sand,2,bags", MORTARED)
    assert "sells no packs of it" in bags.unread[0].because


def test_slabs_of_several_sizes_want_a_stock_number() -> None:
    bordered = job(
        border={"slab": {"name": "edge", "length": "900 mm", "width": "600 mm", "thickness": "38 mm"}, "joint": "0 mm"}
    )
    check = checked("item,qty,unit\nslab,60,each", bordered)
    (line,) = [line for line in check.lines if line.verdict is Verdict.cannot_compare]
    assert "Several are needed" in line.because
    assert "give the stock number" in line.because


def test_spoil_and_fill_are_nobodys_goods() -> None:
    dug = job(ground={"surface": "level", "level": "0 mm"}, datum="0 mm")
    assert "spoil" in [line.item for line in takeoff(Sheet(), dug, YARD).bill]
    assert [line.sku for line in checked("sku,qty\nSAND,2", dug).lines] == ["STONE", "SAND", "FLAG"]


def test_a_pack_sold_by_so_many_at_a_time_is_said_to_be() -> None:
    sold = Pack("half tonne", 0.5, "STONE-H", least=4, step=2, price=Decimal(14))
    goods = Goods([replace(YARD.good("STONE"), packs=(sold,)), YARD.good("SAND"), YARD.good("FLAG")], YARD.terms)
    notes = {count: checked(f"sku,qty\nSTONE-H,{count}", goods=goods).lines[0].because for count in (2, 8, 9)}
    assert notes == {
        2: "'half tonne' is sold from 4 on.",
        8: "",
        9: "'half tonne' is sold by 2 at a time, from 4 on.",
    }


def test_what_no_pack_can_mend_is_short_all_the_same() -> None:
    few = Pack("bag", 0.025, "STONE-25", most=8)
    loose = replace(YARD.good("STONE"), sku="STONE", packs=(Pack("bulk bag", 0.85, "STONE-BB", most=5),))
    other = replace(YARD.good("STONE"), sku="SMALL", packs=(few,))
    goods = Goods([loose, other, YARD.good("SAND"), YARD.good("FLAG")], YARD.terms)
    mended = checked("sku,qty\nSTONE-25,8", goods=goods).lines[0]
    assert [(bought.count, bought.pack.sku) for bought in mended.mend] == [(5, "STONE-BB")]
    only_bags = Goods([other, YARD.good("SAND"), YARD.good("FLAG")], YARD.terms)
    short = checked("item,qty,unit\ntype_1,0.2,t", goods=only_bags).lines[0]
    assert (short.verdict, short.mend, short.mend_price) == (Verdict.short, (), None)


def test_a_good_whose_packs_cannot_be_weighed_is_compared_by_what_the_order_says() -> None:
    tub = Good("TUB", "Compound by the litre", "jointing_compound", "l", (Pack("tub", 10.0, "TUB"),))
    tin = Good("TIN", "Compound", "jointing_compound", "kg", (Pack("tin", 20.0, "TIN-20"),))
    goods = Goods([*YARD, tin, tub], YARD.terms)
    jointed = replace(MORTARED, jointing=job(jointing={"filler": "jointing_compound"}).jointing)
    needed = {line.item: line.gross for line in takeoff(Sheet(), jointed, goods).bill}["jointing_compound"]
    found = {line.item: line for line in checked(f"sku,qty,unit\nTUB,{needed + 50:.2f},kg", jointed, goods).lines}
    assert found["jointing_compound"].verdict is Verdict.over
    found = {line.item: line for line in checked("sku,qty,unit\nTUB,1,kg", jointed, goods).lines}
    assert found["jointing_compound"].verdict is Verdict.short
    assert [bought.pack.sku for bought in found["jointing_compound"].mend] == ["TIN-20"]
    found = {line.item: line for line in checked("sku,qty\nTUB,3", jointed, goods).lines}
    assert found["jointing_compound"].verdict is Verdict.cannot_compare
    assert "can't be turned" in found["jointing_compound"].because


def test_the_area_an_order_covers_is_that_of_the_line_that_runs_out_first() -> None:
    whole = checked("sku,qty,unit\nSTONE,3.78,t\nSAND,1.296,t\nFLAG,52,each")
    assert whole.reach.area == pytest.approx(18.0)
    part = checked("sku,qty,unit\nSTONE,3.78,t\nSAND,1.296,t\nFLAG,39,each")
    assert (part.reach.area, part.reach.share) == (pytest.approx(18.0 * 39 / 52), pytest.approx(0.75))
    assert (part.reach.runs_out_first, part.reach.sku) == ("Flag 600 x 600 x 38 grey", "FLAG")
    double = checked("sku,qty,unit\nSTONE,7.56,t\nSAND,2.592,t\nFLAG,104,each")
    assert double.reach.area == pytest.approx(36.0)
    nothing = checked("sku,qty,unit\nSTONE,3.78,t\nFLAG,52,each")
    assert (nothing.reach.area, nothing.reach.runs_out_first) == (0.0, "Sharp sand")
    unclear = checked('sku,qty,unit\nSTONE,3.78,t\nSAND,"1,3",t\nFLAG,52,each')
    assert (unclear.reach.area, unclear.reach.runs_out_first) == (None, None)


def test_the_tolerance_is_stated_among_the_assumptions() -> None:
    sheet = Sheet()
    order_check(sheet, job(), pasted_lines("sku,qty\nSAND,2"), YARD)
    assert sheet.assumptions["tolerance"].value == 1e-6


def test_what_mends_all_costs_what_its_lines_cost() -> None:
    check = checked("sku,qty\nPEA,1")
    prices = [line.mend_price for line in check.lines if line.mend_price is not None]
    assert check.mend_price == sum(prices) == Decimal("522.50")


# Orders nobody should send.


@pytest.mark.parametrize(
    "quantity", ["٣", "1e3", "0x5", "+5", "5-6", "5 x 2", "??", "½", "1.2.3", "five", "NaN", "∞", "1 000"]
)
def test_a_quantity_that_is_no_plain_number_is_named_and_not_guessed(quantity: str) -> None:
    read, unread = read_lines([WrittenLine(1, sku="SAND", quantity=quantity)], YARD)
    assert not read
    assert quantity in unread[0].because


def test_every_line_of_ten_thousand_is_read_or_named() -> None:
    lines = [
        WrittenLine(k, sku=("SAND", "NONE-7", "STONE-BB", "")[k % 4], quantity=("2", "1,5", "two")[k % 3])
        for k in range(1, 10_001)
    ]
    read, unread = read_lines(lines, YARD)
    assert sorted([line.number for line in read] + [line.number for line in unread]) == list(range(1, 10_001))
    assert all(len(line.because) > 15 for line in unread)


def test_stock_numbers_that_differ_in_their_letters_size_alone_are_not_mixed_up() -> None:
    goods = Goods(
        [
            Good("A-1", "Sand", "sharp_sand", "t", (Pack("bag", 0.85, "A-1"),)),
            Good("a-1", "Stone", "type_1", "t", (Pack("bag", 0.85, "a-1"),)),
        ]
    )
    for sku in ("A-1", "a-1"):
        ((line,), _) = read_lines([WrittenLine(1, sku=sku, quantity="1")], goods)
        assert line.good is not None
        assert line.good.sku == sku
