"""Money: what an order costs, its tax and its deposits, in decimals and by stated rules.

    line      packs x prices, rounded once
    tax       on each line, or on each rate's sum of lines, rounded once
    total     lines + tax + deposits, or with tax in the prices lines + deposits

Nothing else is rounded, so every total is the sum of what is printed above it.
"""

import decimal
from collections.abc import Iterable, Sequence
from decimal import Decimal
from functools import cache
from typing import NamedTuple

from service.paving.errors import refuse_unknown
from service.paving.ordering.goods import Good
from service.paving.ordering.packs import PackCount, packs_price
from service.paving.ordering.terms import Prices, Rounding, Tax, TaxedBy, Terms

#: What each rule of rounding is called in the decimal module.
_RULES = {
    Rounding.HALF_UP: decimal.ROUND_HALF_UP,
    Rounding.HALF_EVEN: decimal.ROUND_HALF_EVEN,
    Rounding.DOWN: decimal.ROUND_DOWN,
    Rounding.UP: decimal.ROUND_UP,
}
#: More digits than any sum here has: only the stated rounding rounds.
_EXACT = decimal.Context(prec=80)
_NOTHING = Decimal(0)
_NO_TAX = Tax("", "", _NOTHING)
_WHOLE = Decimal(100)


class LinePrice(NamedTuple):
    """What one line costs.

    Parameters
    ----------
    amount : Decimal or None
        Price of its packs, rounded, before or with tax as the catalogue's prices are; None
        where a price isn't known.
    tax : Decimal or None
        Tax on it or in it; None when tax is worked on the whole order, or the price isn't known.
    tax_code : str
        Code of its tax, or empty.
    deposit : Decimal
        Returnable deposits on its packs, untaxed.
    """

    amount: Decimal | None
    tax: Decimal | None
    tax_code: str
    deposit: Decimal


class TaxSum(NamedTuple):
    """One rate of tax over the whole order.

    Parameters
    ----------
    tax : Tax
        The rate.
    net, amount : Decimal
        What is taxed, without the tax, and the tax.
    """

    tax: Tax
    net: Decimal
    amount: Decimal


class OrderPrice(NamedTuple):
    """What an order costs.

    Parameters
    ----------
    lines : tuple of LinePrice
        Its lines, in order.
    taxes : tuple of TaxSum
        Its tax by rate, in the order of the lines.
    net, tax : Decimal or None
        The lines without tax, and the tax; None where a price isn't known.
    deposits : Decimal
        Returnable deposits.
    total : Decimal or None
        All that is to pay; None where a price isn't known.
    """

    lines: tuple[LinePrice, ...]
    taxes: tuple[TaxSum, ...]
    net: Decimal | None
    tax: Decimal | None
    deposits: Decimal
    total: Decimal | None


def rounded(amount: Decimal, places: int, rule: Rounding) -> Decimal:
    """An amount of money rounded to so many decimal places.

    Examples
    --------
    >>> rounded(Decimal("0.8676"), 2, Rounding.HALF_UP)
    Decimal('0.87')
    """
    return amount.quantize(_last_place(places), _RULES[rule], _EXACT)


@cache
def _last_place(places: int) -> Decimal:
    return Decimal(1).scaleb(-places)


def tax_amount(amount: Decimal, tax: Tax, terms: Terms) -> Decimal:
    """Tax on an amount before tax, or in an amount with tax, rounded by the merchant's rule.

    Parameters
    ----------
    amount : Decimal
        What is taxed, as the catalogue's prices are.
    tax : Tax
        The rate.
    terms : Terms
        Whether tax is in the prices, and how it is rounded.

    Returns
    -------
    Decimal
        The tax.

    References
    ----------
    Arithmetic: of an amount with tax at p per cent, p in 100 + p parts are tax.

    Examples
    --------
    >>> tax_amount(Decimal("120"), Tax("A", "Tax", Decimal(20)), Terms(prices=Prices.WITH_TAX))
    Decimal('20.00')
    """
    within = tax.percent if terms.prices is Prices.WITH_TAX else _NOTHING
    exact = _EXACT.divide(_EXACT.multiply(amount, tax.percent), _EXACT.add(_WHOLE, within))
    return rounded(exact, terms.places, terms.tax_rounding)


def order_price(lines: Sequence[tuple[Good, Sequence[PackCount]]], terms: Terms) -> OrderPrice:
    """What an order costs, line by line and in all.

    Parameters
    ----------
    lines : sequence of (Good, sequence of PackCount)
        What is bought of each good.
    terms : Terms
        The merchant's money, taxes and roundings.

    Returns
    -------
    OrderPrice
        Lines, taxes and totals; totals are None when any price isn't known, since a total
        that leaves lines out would be taken for the whole.

    Raises
    ------
    UnknownName
        If a good's tax isn't among the terms.

    References
    ----------
    Common practice
    """
    priced = tuple(_line_price(good, packs, terms) for good, packs in lines)
    deposits = _sum([line.deposit for line in priced])
    amounts = [line.amount for line in priced if line.amount is not None]
    if len(amounts) < len(priced):
        return OrderPrice(priced, (), None, None, deposits, None)
    taxes = _tax_sums(priced, terms)
    tax, lines_sum = _sum([each.amount for each in taxes]), _sum(amounts)
    net = lines_sum - tax if terms.prices is Prices.WITH_TAX else lines_sum
    return OrderPrice(priced, taxes, net, tax, deposits, net + tax + deposits)


def _line_price(good: Good, packs: Sequence[PackCount], terms: Terms) -> LinePrice:
    price = packs_price(packs)
    tax = _tax(good.tax, terms)
    amount = None if price is None else rounded(price, terms.places, terms.rounding)
    own_tax = None if amount is None or terms.taxed_by is TaxedBy.ORDER else tax_amount(amount, tax, terms)
    deposit = _sum([one.pack.deposit * one.count for one in packs if one.pack.deposit is not None])
    return LinePrice(amount, own_tax, tax.code, rounded(deposit, terms.places, terms.rounding))


def _tax(code: str, terms: Terms) -> Tax:
    if not code:
        return _NO_TAX
    if code not in terms.taxes:
        refuse_unknown("tax", code, terms.taxes, "tax")
    return terms.taxes[code]


def _tax_sums(lines: Sequence[LinePrice], terms: Terms) -> tuple[TaxSum, ...]:
    return tuple(
        _tax_sum([line for line in lines if line.tax_code == code], terms.taxes[code], terms)
        for code in dict.fromkeys(line.tax_code for line in lines if line.tax_code)
    )


def _tax_sum(lines: Sequence[LinePrice], tax: Tax, terms: Terms) -> TaxSum:
    amounts = _sum([line.amount for line in lines if line.amount is not None])
    if terms.taxed_by is TaxedBy.LINE:
        amount = _sum([line.tax for line in lines if line.tax is not None])
    else:
        amount = tax_amount(amounts, tax, terms)
    return TaxSum(tax, amounts - amount if terms.prices is Prices.WITH_TAX else amounts, amount)


def _sum(amounts: Iterable[Decimal]) -> Decimal:
    return sum(amounts, _NOTHING)
