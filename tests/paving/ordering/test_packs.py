"""Covers, held against every possible choice of packs and against greedy buying."""

from dataclasses import dataclass, replace
from decimal import Decimal
from random import Random

import pytest

from service.paving.errors import OutOfRange
from service.paving.ordering.goods import Pack
from service.paving.ordering.packs import Cover, cover

Measures = tuple[Decimal, int, int]


@dataclass(frozen=True)
class Case:
    """A quantity in thousandths of the unit, and packs that hold whole thousandths."""

    need: int
    packs: tuple[Pack, ...]

    @property
    def priced(self) -> bool:
        return all(pack.price is not None for pack in self.packs)


def any_case(random: Random) -> Case:
    priced = random.random() < 0.5
    packs = []
    for _ in range(random.randint(1, 5)):
        content = random.choice([1, 2, 3, 5, 7, 10, 20, 25, 40, 50, 85, 100, random.randint(1, 120)])
        by_value = Decimal(content) * Decimal(random.choice(["0.45", "0.5", "0.55"]))
        price = random.choice([Decimal(random.randint(0, 3000)) / 100, by_value])
        packs.append(
            Pack(
                name=f"pack of {content}",
                content=content / 1000,
                sku="P",
                least=random.choice([0, 0, 0, 1, 2, 4, 7]),
                step=random.choice([1, 1, 1, 2, 5]),
                most=random.choice([None, None, 3, 10, 25]),
                price=price if priced else None,
            )
        )
    return Case(random.randint(1, 400), tuple(packs))


def any_case_of_ties(random: Random) -> Case:
    """Small packs at small prices: many choices cost the same, and hold the same."""
    packs = tuple(
        Pack(
            name=f"pack of {content}",
            content=content / 1000,
            sku="P",
            least=random.choice([0, 0, 0, 2, 3]),
            step=random.choice([1, 1, 2]),
            most=random.choice([None, None, 1, 2, 4]),
            price=Decimal(random.randint(1, 6)),
        )
        for content in (random.randint(1, 9) for _ in range(random.randint(2, 5)))
    )
    return Case(random.randint(1, 30), packs)


def sold_counts(pack: Pack, need: int) -> list[int]:
    """Counts a pack can be bought in, up to the first that is enough by itself."""
    counts, count = [0], pack.least or pack.step
    while pack.most is None or count <= pack.most:
        counts.append(count)
        if count * round(pack.content * 1000) >= need:
            break
        count += pack.step
    return counts


def best_of_all(case: Case) -> Measures | None:
    """Price, content and packs of the best of all choices: every reachable total, pack by pack."""
    reached: dict[int, tuple[Decimal, int]] = {0: (Decimal(0), 0)}
    for pack in case.packs:
        price, content = pack.price if case.priced and pack.price else Decimal(0), round(pack.content * 1000)
        following: dict[int, tuple[Decimal, int]] = {}
        for total, (paid, packs) in reached.items():
            for count in sold_counts(pack, case.need - total):
                here = total + count * content
                there = (paid + count * price, packs + count)
                following[here] = min(following.get(here, there), there)
        reached = following
    done = [(paid, total, packs) for total, (paid, packs) in reached.items() if total >= case.need]
    return min(done, default=None)


def measures(found: Cover, case: Case) -> Measures:
    price = found.price if case.priced and found.price is not None else Decimal(0)
    return price, round(found.bought * 1000), sum(bought.count for bought in found.packs)


def answer(case: Case) -> Measures | None:
    try:
        return measures(cover(case.need / 1000, case.packs), case)
    except OutOfRange:
        return None


def greedy_price(need: int, packs: tuple[Pack, ...]) -> Decimal:
    """Price of taking as many of the best value as fit, then the next, and one more of the last."""
    price, left = Decimal(0), need
    by_value = sorted(packs, key=lambda pack: (pack.price or 0) / Decimal(str(pack.content)))
    for pack in by_value:
        count = left // round(pack.content * 1000)
        price += count * (pack.price or 0)
        left -= count * round(pack.content * 1000)
    return price + ((by_value[-1].price or 0) if left > 0 else 0)


def test_two_thousand_covers_equal_the_best_of_all_choices() -> None:
    random = Random(20)
    for _ in range(2000):
        case = any_case(random)
        assert answer(case) == best_of_all(case), case


def test_of_two_thousand_covers_at_the_same_price_the_one_with_least_and_fewest_is_taken() -> None:
    random = Random(24)
    for _ in range(2000):
        case = any_case_of_ties(random)
        assert answer(case) == best_of_all(case), case


def test_a_larger_pack_of_poorer_value_may_make_for_fewer_packs_at_the_same_price() -> None:
    packs = (
        Pack("three", 0.003, "P", least=2, step=2, price=Decimal(2)),
        Pack("two", 0.002, "P", least=3, step=2, price=Decimal(1)),
        Pack("five", 0.005, "P", price=Decimal(3)),
        Pack("seven", 0.007, "P", step=2, most=2, price=Decimal(4)),
    )
    case = Case(28, packs)
    assert answer(case) == best_of_all(case) == (15, 28, 9)


def test_some_of_those_cases_can_be_covered_and_some_cannot() -> None:
    random = Random(20)
    answers = [answer(any_case(random)) for _ in range(300)]
    assert 20 < answers.count(None) < 280


def test_a_cover_is_never_dearer_than_greedy_buying() -> None:
    random, dearer = Random(21), 0
    for _ in range(2000):
        case = any_case(random)
        packs = tuple(
            replace(pack, least=0, step=1, most=None, price=Decimal(random.randint(50, 9000)) / 100)
            for pack in case.packs
        )
        found, greedy = cover(case.need / 1000, packs).price, greedy_price(case.need, packs)
        assert found is not None
        assert found <= greedy
        dearer += found < greedy
    assert dearer > 200


def test_what_is_bought_is_what_the_packs_hold() -> None:
    random = Random(22)
    for _ in range(300):
        case = any_case(random)
        if answer(case) is None:
            continue
        found = cover(case.need / 1000, case.packs)
        assert found.bought == pytest.approx(sum(b.count * b.pack.content for b in found.packs), abs=1e-9)
        assert found.surplus == pytest.approx(found.bought - case.need / 1000, abs=1e-9)
        for bought in found.packs:
            over = bought.count - (bought.pack.least or bought.pack.step)
            assert over >= 0
            assert over % bought.pack.step == 0
            assert bought.pack.most is None or bought.count <= bought.pack.most


def test_removing_one_pack_leaves_too_little() -> None:
    random = Random(23)
    for _ in range(300):
        case = any_case(random)
        packs = tuple(replace(pack, least=0, step=1, most=None) for pack in case.packs)
        found = cover(case.need / 1000, tuple(replace(p, price=p.price and p.price + 1) for p in packs))
        for bought in found.packs:
            assert found.bought - bought.pack.content < case.need / 1000 - 1e-9


def test_small_bags_top_up_bulk_bags_only_as_far_as_they_are_sold() -> None:
    packs = Pack("25 kg bag", 0.025, "S", most=8), Pack("bulk bag", 0.85, "B")
    assert [(b.count, b.pack.sku) for b in cover(1.74, packs).packs] == [(2, "S"), (2, "B")]
    assert [(b.count, b.pack.sku) for b in cover(2.00, packs).packs] == [(3, "B")]


def test_a_loose_load_has_its_least_order() -> None:
    loose = (Pack("half tonne", 0.5, "L", least=20),)
    assert cover(3.0, loose).bought == 10.0
    assert cover(10.2, loose).bought == 10.5


def test_a_pack_sold_by_the_layer_is_bought_in_whole_layers() -> None:
    assert cover(37, (Pack("block", 1, "B", step=15),)).bought == 45.0


def test_exactly_what_is_needed_leaves_no_surplus_in_spite_of_decimals() -> None:
    packs = (Pack("third", 0.1, "T"),)
    assert cover(0.1 + 0.1 + 0.1, packs).surplus == 0.0
    assert cover(0.7, packs).packs[0].count == 7


def test_nothing_needed_is_nothing_bought() -> None:
    assert cover(0.0, (Pack("bag", 25, "B"),)) == Cover((), 0.0, 0.0, Decimal(0))


def test_prices_decide_only_when_every_pack_has_one() -> None:
    dear = Pack("small", 1, "S", price=Decimal("9.99"))
    cheap = Pack("large", 10, "L", price=Decimal("1.00"))
    assert cover(1, (dear, cheap)).packs[0].pack is cheap
    unpriced = replace(cheap, price=None)
    assert cover(1, (dear, unpriced)).packs[0].pack is dear
    assert cover(1, (dear, unpriced)).price == Decimal("9.99")
    assert cover(11, (dear, unpriced)).price is None


def test_a_returnable_deposit_does_not_decide() -> None:
    crate = Pack("crate", 40, "C", price=Decimal(40), deposit=Decimal(100))
    single = Pack("one", 1, "O", price=Decimal("1.10"))
    assert cover(40, (single, crate)).packs[0].pack is crate


def test_prices_of_any_number_of_decimals_are_compared_exactly() -> None:
    a = Pack("a", 1, "A", price=Decimal("0.333"))
    b = Pack("b", 3, "B", price=Decimal("1"))
    assert cover(3, (a, b)).price == Decimal("0.999")
    assert cover(3, (replace(a, price=Decimal("1E+1")), b)).price == 1


@pytest.mark.parametrize("quantity", [-1.0, float("nan"), float("inf"), 2e7])
def test_a_quantity_that_cannot_be_ordered_is_refused(quantity: float) -> None:
    with pytest.raises(OutOfRange) as refusal:
        cover(quantity, (Pack("bag", 25, "B"),))
    assert refusal.value.place == ("quantity",)


def test_more_than_the_packs_may_hold_is_refused_with_what_they_hold() -> None:
    with pytest.raises(OutOfRange, match=r"hold 0\.2 at most, and 0\.3 is needed"):
        cover(0.3, (Pack("bag", 0.025, "B", most=8),))


def test_a_limit_below_the_least_order_means_never_sold() -> None:
    with pytest.raises(OutOfRange):
        cover(0.3, (Pack("bag", 0.025, "B", least=9, most=8),))


def test_a_good_without_packs_is_refused() -> None:
    with pytest.raises(OutOfRange, match="no pack"):
        cover(1.0, ())


def test_packs_without_a_common_measure_are_refused_not_searched_for_ever() -> None:
    odd = [0.317831, 1.131719, 2.714557, 3.141593, 5.772157, 7.389057]
    packs = tuple(Pack(str(content), content, "P") for content in odd)
    with pytest.raises(OutOfRange, match="common measure"):
        cover(4999.0, packs)
