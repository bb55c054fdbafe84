"""Bills of quantities: a line for each thing to buy, in order of work."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import NamedTuple

from service.paving.formulas import formula
from service.paving.ordering.goods import Good, Goods, Unit
from service.paving.ordering.loads import pallet_places
from service.paving.ordering.money import rounded
from service.paving.ordering.packs import Cover, PackCount
from service.paving.ordering.purchases import (
    Purchase,
    Want,
    gross_formula,
    mixed_gross_quantity,
    mixed_packs,
    mixed_quantity,
    purchases,
)
from service.paving.ordering.sizes import slab_size
from service.paving.ordering.terms import Terms
from service.paving.sheets import Sheet


@formula
def shared_quantity(gross_quantities: Sequence[float]) -> float:
    """Quantity that packs are chosen for, where several lines want the same good.

    Parameters
    ----------
    gross_quantities : sequence of float
        Gross quantity of each line [1], in the unit of the lines: one [quantities].

    Returns
    -------
    float
        Quantity [1], in the unit of the lines.

    References
    ----------
    Common practice

    Examples
    --------
    >>> shared_quantity((556.0, 22.0))
    578.0
    """
    return sum(gross_quantity for gross_quantity in gross_quantities)


#: What a line buys that leaves it to another line.
_NOTHING = Cover((), 0.0, 0.0, Decimal(0))


class BillLine(NamedTuple):
    """One line of a bill.

    Parameters
    ----------
    line : int
        Its place, from 1.
    section, item, name : str
        Part of the job, what it is, and what it is called.
    sku : str or None
        Stock number of the good chosen; none if the catalogue has nothing for it.
    net, gross : float
        Quantity counted, and with its allowance, in `unit`.
    allowance : float
        Share on top.
    unit : str
        Unit of the line.
    packs : tuple of PackCount
        What to buy.
    surplus : float or None
        What is bought beyond the gross quantity of all lines it is bought for, in `unit`.
    mass : float
        Mass of what is bought [kg].
    price : Decimal or None
        Price of what is bought, rounded by the merchant's rule, where it is known.
    pallets : float
        Pallet places it fills, parts of one included.
    bought_with : int or None
        The line whose packs hold this line's quantity too: there is nothing to buy, to weigh or to pay on
        this one. None where a line buys for itself.
    measures : mapping
        The gross quantity in each unit it can be sold in.
    good : Good or None
        The good chosen.
    """

    line: int
    section: str
    item: str
    name: str
    sku: str | None
    net: float
    allowance: float
    gross: float
    unit: str
    packs: tuple[PackCount, ...]
    surplus: float | None
    mass: float
    price: Decimal | None
    pallets: float
    bought_with: int | None
    measures: Mapping[Unit, float]
    good: Good | None


def bill(sheet: Sheet, wants: Sequence[Want], goods: Goods) -> tuple[BillLine, ...]:
    """A bill of everything a job needs, from the goods on offer.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    wants : sequence of Want
        In order of work.
    goods : Goods
        What the merchant sells.

    Notes
    -----
    What several lines want of one good is bought in one go, with the first of them: cement for the bed and
    a little for the joints make one number of bags, where each line by itself would be rounded up to whole bags.
    So are slabs of several sizes that come in mixed packs: the size that runs out first decides how many.
    """
    bought = purchases(wants, goods)
    lines = tuple(
        _line(sheet.section(f"bill.{k}"), k, want, bought.get(k), goods.terms) for k, want in enumerate(wants, 1)
    )
    for first in dict.fromkeys(line.bought_with for line in lines if line.bought_with):
        shared = tuple(line.gross for line in lines if first in (line.line, line.bought_with))
        sheet.section(f"bill.{first}").work("bought_for", shared_quantity, shared)
    return lines


def _line(sheet: Sheet, number: int, want: Want, purchase: Purchase | None, terms: Terms) -> BillLine:
    good = purchase.good if purchase else None
    unit = good.unit if good else next(iter(want.measures))
    net = want.measures[unit]
    gross = _gross(sheet, want, purchase, unit)
    more = gross / net if net else 0.0
    first = purchase.first if purchase else number
    own = purchase.cover if purchase and first == number else _NOTHING
    return BillLine(
        line=number,
        section=want.section,
        item=want.item,
        name=good.name if good else want.name,
        sku=good.sku if good else None,
        net=net,
        allowance=want.allowance.value,
        gross=gross,
        unit=unit,
        packs=own.packs,
        surplus=own.surplus if purchase else None,
        mass=_mass(purchase, own.bought) if purchase else want.mass * more,
        price=_price(purchase, own, terms),
        pallets=pallet_places(own.packs),
        bought_with=None if first == number else first,
        measures={name: gross if name == unit else measure * more for name, measure in want.measures.items()},
        good=good,
    )


def _gross(sheet: Sheet, want: Want, purchase: Purchase | None, unit: Unit) -> float:
    """Gross quantity of a line; of a size in a mixed pack, what the mix to buy holds of it."""
    allowance = sheet.assume(want.allowance)
    if purchase is None or not purchase.good.pieces or want.slab is None:
        return sheet.work("gross", gross_formula(unit), want.measures[unit], allowance)
    good, size = purchase.good, slab_size(want.slab)
    mix = sheet.work("mix", mixed_quantity, mixed_packs(good, purchase.wants), good.packs[0].content)
    share = next(slab.share for slab in good.slabs if slab_size(slab) == size)
    return sheet.work("gross", mixed_gross_quantity, share or 0.0, mix)


def _mass(purchase: Purchase, bought: float) -> float:
    """Mass of what is bought [kg], by what the job reckons a unit of it weighs."""
    net = sum([want.measures[purchase.good.unit] for want in purchase.wants]) if bought else 0.0
    return bought * (sum([want.mass for want in purchase.wants]) / net) if net else 0.0


def _price(purchase: Purchase | None, bought: Cover, terms: Terms) -> Decimal | None:
    """Price of what a line buys, as an order shows it; none on any line of a good whose price isn't known."""
    if purchase is None or purchase.cover.price is None or bought.price is None:
        return None
    return rounded(bought.price, terms.places, terms.rounding)
