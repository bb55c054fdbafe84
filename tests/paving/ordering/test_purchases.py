"""Purchases: which good is bought for lines that want one thing, and when it is bought in one go."""

import pytest

from service.paving.ordering.goods import Good, Goods, Pack
from service.paving.ordering.purchases import Want, purchases
from service.paving.reference import default
from service.paving.slabs import Slab

NONE, TENTH = (default("takeoffs", "slabs_allowance").given(share) for share in (0.0, 0.1))


def want(item: str, measures: dict[str, float], allowance: float = 0.0, slab: Slab | None = None) -> Want:
    more = TENTH if allowance else NONE
    return Want("part", item, item, 0.0, measures, more, slab)  # type: ignore[arg-type]


def good(sku: str, item: str, unit: str, *packs: Pack, slab: Slab | None = None, made_of: str = "") -> Good:
    return Good(sku, sku, item, unit, packs, slabs=(slab,) if slab else (), made_of=made_of)  # type: ignore[arg-type]


def bought(wants: list[Want], *goods: Good) -> list[tuple[str, int, int] | None]:
    """Stock number, line it is bought with and number of packs, for each want."""
    found = purchases(wants, Goods(goods))
    shown = [found.get(k) for k in range(1, len(wants) + 1)]
    return [one and (one.good.sku, one.first, sum(each.count for each in one.cover.packs)) for one in shown]


def bag(sku: str, content: float, most: int | None = None) -> Pack:
    return Pack(f"bag of {content:g}", content, sku, most=most)


def test_lines_of_one_good_are_bought_with_the_first_of_them() -> None:
    """110 and 20 kg, the first with a tenth on top: 141 kg, six bags of 25; alone 5 and 1."""
    wants = [want("cement", {"kg": 110.0}, 0.1), want("gravel", {"t": 1.0}), want("cement", {"kg": 20.0})]
    cement, gravel = good("C", "cement", "kg", bag("C", 25)), good("G", "gravel", "t", bag("G", 0.5))
    assert bought(wants, cement, gravel) == [("C", 1, 6), ("G", 2, 2), ("C", 1, 6)]


def test_the_sum_of_the_lines_decides_between_bags_and_the_loose_load() -> None:
    wants = [want("cement", {"kg": 150.0}), want("cement", {"kg": 60.0})]
    bags, loose = good("B", "cement", "kg", bag("B", 25, most=8)), good("L", "cement", "kg", Pack("load", 1000, "L"))
    assert bought(wants[:1], bags, loose) == [("B", 1, 6)]
    assert bought(wants, bags, loose) == [("L", 1, 1), ("L", 1, 1)]
    assert bought(wants, bags) == [None, None]


def test_lines_that_are_not_measured_alike_are_bought_in_a_unit_of_both_or_each_by_itself() -> None:
    """Sand of the bed is known by its volume, sand of the joints by its mass alone."""
    wants = [want("dried_sand", {"t": 1.2, "m3": 0.8}), want("dried_sand", {"kg": 30.0, "t": 0.03})]
    by_volume, by_mass = good("V", "dried_sand", "m3", bag("V", 0.5)), good("M", "dried_sand", "t", bag("M", 0.025))
    assert bought(wants, by_volume, by_mass) == [("M", 1, 50), ("M", 1, 50)]
    assert bought(wants, by_volume) == [("V", 1, 2), None]


@pytest.mark.parametrize("first", ["sandstone", "concrete"])
def test_slabs_of_one_size_are_one_good_whatever_each_is_called(first: str) -> None:
    """What is said to be of concrete may be of anything: nothing was said."""
    border, field = (
        Slab(name, 0.6, 0.3, 0.022, made_of=made_of) for name, made_of in (("a", first), ("b", "sandstone"))
    )
    stone = good("S", "slab", "each", bag("S", 10), slab=Slab("s", 0.3, 0.6, 0.022), made_of="sandstone")
    wants = [want("slab", {"each": float(number)}, slab=slab) for number, slab in ((9, border), (4, field))]
    assert bought(wants, stone) == [("S", 1, 2), ("S", 1, 2)]


def test_a_slab_of_another_size_or_stone_is_not_bought() -> None:
    wants = [want("slab", {"each": 5.0}, slab=Slab("a", 0.6, 0.3, 0.022, made_of="slate"))]
    stone = good("S", "slab", "each", bag("S", 10), slab=Slab("s", 0.6, 0.3, 0.022), made_of="sandstone")
    thick = good("T", "slab", "each", bag("T", 10), slab=Slab("s", 0.6, 0.3, 0.03), made_of="slate")
    assert bought(wants, stone, thick) == [None]


def test_only_rolls_of_the_size_laid_are_bought() -> None:
    rolls = Pack("wide", 50.0, "W", length=25.0, width=2.0), Pack("narrow", 14.0, "N", length=14.0, width=1.0)
    laid = Want("membrane", "membrane", "Membrane", 0.0, {"m2": 28.0}, NONE, roll=(14.0, 1.0))
    (only,) = purchases([laid], Goods([good("F", "membrane", "m2", *rolls)])).values()
    assert [(one.count, one.pack.sku) for one in only.cover.packs] == [(2, "N")]
