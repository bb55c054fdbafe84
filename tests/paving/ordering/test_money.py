"""Orders in money: hand-worked cases, published rules of rounding, and totals that are sums."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.paving.errors import UnknownName
from service.paving.ordering.goods import Good, Pack
from service.paving.ordering.money import OrderPrice, order_price, rounded, tax_amount
from service.paving.ordering.packs import PackCount
from service.paving.ordering.terms import Prices, Rounding, Tax, TaxedBy, Terms

STANDARD, REDUCED = Tax("S", "Standard rate", Decimal(20)), Tax("R", "Reduced rate", Decimal(5))
TAXES = {"S": STANDARD, "R": REDUCED}


def line(price: str | None, count: int = 1, tax: str = "S", deposit: str | None = None) -> tuple[Good, list[PackCount]]:
    pack = Pack(
        "bag",
        1.0,
        "B",
        price=None if price is None else Decimal(price),
        deposit=None if deposit is None else Decimal(deposit),
    )
    return Good("G", "Good", "sharp_sand", "t", (pack,), tax=tax), [PackCount(pack, count)]


def terms(**changes: object) -> Terms:
    return Terms(currency="GBP", taxes=TAXES, **changes)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("amount", "rule", "expected"),
    [
        # HM Revenue & Customs, VATREC12010, read: lines to the nearer 1p, the tax of an invoice down to a whole penny;
        # both from VAT Notice 700, 17.5, whose own figure of 86.76p is from memory
        ("0.8676", Rounding.HALF_UP, "0.87"),
        ("0.8676", Rounding.DOWN, "0.86"),
        # IEEE 754-2008, 4.3: ties to even, and ties away from zero
        ("0.125", Rounding.HALF_EVEN, "0.12"),
        ("0.135", Rounding.HALF_EVEN, "0.14"),
        ("0.125", Rounding.HALF_UP, "0.13"),
        # arithmetic
        ("0.1201", Rounding.UP, "0.13"),
        ("0.12", Rounding.UP, "0.12"),
        ("7", Rounding.HALF_UP, "7.00"),
    ],
)
def test_an_amount_is_rounded_by_the_rule_stated(amount: str, rule: Rounding, expected: str) -> None:
    assert str(rounded(Decimal(amount), 2, rule)) == expected


def test_a_tenth_of_a_penny_is_kept_where_amounts_have_three_places() -> None:
    """VAT Notice 700, 17.5.1 (HM Revenue & Customs), from memory: 86.76p to the nearest 0.1p is 86.8p."""
    assert str(rounded(Decimal("0.8676"), 3, Rounding.HALF_UP)) == "0.868"


def test_tax_rounded_down_line_by_line_takes_more_off_than_the_guidance_lets() -> None:
    """HM Revenue & Customs, VATREC12010, read: the tax payable on an invoice may be rounded down, its lines may not.

    Three lines of 0.99 at 20 %: 0.594, down to 0.59 on the invoice; line by line 3 x 0.19 = 0.57 is 2p too little.
    """
    down = [
        order_price([line("0.99")] * 3, terms(taxed_by=by, tax_rounding=Rounding.DOWN)).tax
        for by in (TaxedBy.ORDER, TaxedBy.LINE)
    ]
    assert down == [Decimal("0.59"), Decimal("0.57")]


def test_a_currency_without_small_coin_is_rounded_to_whole_amounts() -> None:
    assert str(rounded(Decimal("1234.5"), 0, Rounding.HALF_UP)) == "1235"


@pytest.mark.parametrize(
    ("tax", "fraction"),
    # VAT fractions of HM Revenue & Customs, from memory: a sixth at 20 %, a twenty-first at 5 %
    [(STANDARD, Fraction(1, 6)), (REDUCED, Fraction(1, 21))],
)
@pytest.mark.parametrize("pence", [1, 2, 3, 21, 100, 126, 9_999, 123_456_789])
def test_tax_in_a_price_is_its_published_fraction(tax: Tax, fraction: Fraction, pence: int) -> None:
    exact = pence * fraction
    nearest = exact.numerator * 2 // exact.denominator + 1 >> 1
    assert tax_amount(Decimal(pence) / 100, tax, terms(prices=Prices.WITH_TAX)) * 100 == nearest


def test_tax_on_the_whole_order_is_rounded_once() -> None:
    """Three lines of 0.99 at 20 %: 0.198 each, 0.594 in all; by hand 0.59 on the order, 3 x 0.20 by line."""
    lines = [line("0.99"), line("0.99"), line("0.99")]
    by_order = order_price(lines, terms(taxed_by=TaxedBy.ORDER))
    by_line = order_price(lines, terms(taxed_by=TaxedBy.LINE))
    assert (by_order.net, by_order.tax, by_order.total) == (Decimal("2.97"), Decimal("0.59"), Decimal("3.56"))
    assert (by_line.net, by_line.tax, by_line.total) == (Decimal("2.97"), Decimal("0.60"), Decimal("3.57"))
    assert by_order.lines[0].tax is None
    assert by_line.lines[0].tax == Decimal("0.20")


def test_an_order_at_two_rates_worked_by_hand() -> None:
    """4 crates at 118.35 and 7 bags at 5.49 at 20 %, 3 bulk bags at 61.25 at 5 %, tax rounded down.

    473.40 + 38.43 = 511.83, tax 102.366; 183.75, tax 9.1875; deposits 4 x 12.00.
    """
    lines = [line("118.35", 4, deposit="12.00"), line("61.25", 3, tax="R"), line("5.49", 7)]
    price = order_price(lines, terms(tax_rounding=Rounding.DOWN))
    assert [each.amount for each in price.lines] == [Decimal("473.40"), Decimal("183.75"), Decimal("38.43")]
    assert [(each.tax.code, each.net, each.amount) for each in price.taxes] == [
        ("S", Decimal("511.83"), Decimal("102.36")),
        ("R", Decimal("183.75"), Decimal("9.18")),
    ]
    assert (price.net, price.tax, price.deposits) == (Decimal("695.58"), Decimal("111.54"), Decimal("48.00"))
    assert price.total == Decimal("855.12")


def test_an_order_with_tax_in_its_prices_worked_by_hand() -> None:
    """2 at 59.99 with 20 % in it: 119.98, a sixth of it 19.99667; net 99.98."""
    price = order_price([line("59.99", 2)], terms(prices=Prices.WITH_TAX))
    assert (price.net, price.tax, price.total) == (Decimal("99.98"), Decimal("20.00"), Decimal("119.98"))
    assert price.taxes[0].net == Decimal("99.98")


def test_a_price_with_more_places_is_rounded_on_the_line_not_on_the_piece() -> None:
    """173 blocks at 0.345: 59.685, not 173 x 0.35."""
    assert order_price([line("0.345", 173)], terms()).lines[0].amount == Decimal("59.69")


def test_goods_without_tax_are_not_taxed() -> None:
    price = order_price([line("10.00", tax="")], terms(taxed_by=TaxedBy.LINE))
    assert (price.taxes, price.tax, price.total) == ((), Decimal(0), Decimal("10.00"))
    assert price.lines[0].tax == 0


def test_one_unknown_price_leaves_the_total_unknown() -> None:
    price = order_price([line("10.00", deposit="1"), line(None)], terms(taxed_by=TaxedBy.LINE))
    assert (price.net, price.tax, price.total, price.taxes) == (None, None, None, ())
    assert price.deposits == 1
    assert [each.amount for each in price.lines] == [Decimal("10.00"), None]
    assert price.lines[1].tax is None


def test_an_unknown_tax_is_refused_with_the_nearest() -> None:
    with pytest.raises(UnknownName, match="S"):
        order_price([line("10", tax="X")], terms())


def test_an_empty_order_costs_nothing() -> None:
    assert order_price([], terms()) == OrderPrice((), (), Decimal(0), Decimal(0), Decimal(0), Decimal(0))


PRICES = st.decimals(min_value="0.01", max_value="99999", places=3)
LINES = st.lists(
    st.builds(
        lambda price, count, tax, deposit: line(str(price), count, tax, str(deposit)),
        PRICES,
        st.integers(1, 5000),
        st.sampled_from(["S", "R", ""]),
        PRICES,
    ),
    max_size=12,
)
TERMS = st.builds(
    lambda prices, rule, tax_rule, by, places: terms(
        prices=prices, rounding=rule, tax_rounding=tax_rule, taxed_by=by, places=places
    ),
    st.sampled_from(Prices),
    st.sampled_from(Rounding),
    st.sampled_from(Rounding),
    st.sampled_from(TaxedBy),
    st.integers(0, 3),
)


@given(LINES, TERMS)
def test_every_total_is_the_sum_of_what_is_printed_above_it(
    lines: list[tuple[Good, list[PackCount]]], by: Terms
) -> None:
    price = order_price(lines, by)
    amounts = sum((each.amount for each in price.lines if each.amount is not None), Decimal(0))
    assert price.net is not None
    assert price.tax is not None
    assert price.total is not None
    assert price.tax == sum((each.amount for each in price.taxes), Decimal(0))
    assert price.total == price.net + price.tax + price.deposits
    assert amounts == (price.net + price.tax if by.prices is Prices.WITH_TAX else price.net)
    if by.taxed_by is TaxedBy.LINE:
        assert price.tax == sum((each.tax for each in price.lines if each.tax is not None), Decimal(0))
    for amount in (price.net, price.tax, price.total, price.deposits):
        assert amount == round(amount, by.places)


@given(LINES)
def test_tax_by_line_and_by_order_differ_by_less_than_half_a_penny_a_line(
    lines: list[tuple[Good, list[PackCount]]],
) -> None:
    by_line, by_order = (order_price(lines, terms(taxed_by=by)).tax for by in (TaxedBy.LINE, TaxedBy.ORDER))
    assert by_line is not None
    assert by_order is not None
    assert abs(by_line - by_order) <= Decimal("0.005") * (len(lines) + 2)


@given(PRICES, st.integers(1, 5000))
def test_a_line_agrees_with_exact_fractions(price: Decimal, count: int) -> None:
    exact = Fraction(price) * count
    amount = order_price([line(str(price), count)], terms()).lines[0].amount
    assert amount is not None
    assert abs(Fraction(amount) - exact) <= Fraction(1, 200)
    assert amount == (price * count).quantize(Decimal("0.01"), ROUND_HALF_UP)
