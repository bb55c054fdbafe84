"""Bills of quantities: a line for each thing to buy, in order of work."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from service.paving.counts import ceil
from service.paving.errors import OutOfRange
from service.paving.formulas import Formula, formula
from service.paving.ordering.goods import Good, Goods, Pack, Unit
from service.paving.ordering.loads import pallet_places
from service.paving.ordering.money import rounded
from service.paving.ordering.packs import Cover, PackCount, cover
from service.paving.ordering.terms import Terms
from service.paving.reference import Assumption
from service.paving.sheets import Sheet
from service.paving.slabs import Slab


@formula
def gross_quantity(net: float, allowance: float) -> float:
    """Quantity to order: what is counted and an allowance for breakage and waste on top.

    Parameters
    ----------
    net : float
        What is counted [1], in the unit of the line.
    allowance : float
        Share on top [1].

    Returns
    -------
    float
        Quantity [1], in the unit of the line.

    References
    ----------
    Common practice

    Examples
    --------
    >>> gross_quantity(900.0, 0.05)
    945.0
    """
    return net * (1 + allowance)


@formula
def whole_gross_quantity(net: float, allowance: float) -> float:
    """Whole number to order: what is counted and an allowance on top, rounded up.

    Parameters
    ----------
    net : float
        What is counted [1].
    allowance : float
        Share on top [1].

    Returns
    -------
    float
        Whole number [1].

    References
    ----------
    Common practice

    Examples
    --------
    >>> whole_gross_quantity(63.0, 0.05)
    67
    """
    return ceil(net * (1 + allowance))


@dataclass(frozen=True, slots=True)
class Want:
    """Something a job needs, before it is looked for among the goods.

    Parameters
    ----------
    section : str
        Part of the job it belongs to.
    item : str
        Reference material, or "slab".
    name : str
        What to call it where no good is found.
    mass : float
        Mass of the net quantity [kg].
    measures : dict
        The net quantity in each unit it can be sold in; the first is used where no good is found.
    allowance : Assumption
        Share on top.
    slab : Slab or None
        The slab wanted, where the item is "slab" or "edging".
    roll : tuple of float or None
        Length and width of the roll wanted [m], where the item comes on rolls.
    """

    section: str
    item: str
    name: str
    mass: float
    measures: Mapping[Unit, float]
    allowance: Assumption
    slab: Slab | None = None
    roll: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class BillLine:
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
        What is bought beyond the gross quantity, in `unit`.
    mass : float
        Mass of what is bought [kg].
    price : Decimal or None
        Price of what is bought, rounded by the merchant's rule, where it is known.
    pallets : float
        Pallet places it fills, parts of one included.
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
    """
    return tuple(_line(sheet.section(f"bill.{k}"), k, want, goods) for k, want in enumerate(wants, 1))


def _line(sheet: Sheet, number: int, want: Want, goods: Goods) -> BillLine:
    good, bought = _chosen(want, goods)
    unit = good.unit if good else next(iter(want.measures))
    net = want.measures[unit]
    gross = sheet.work("gross", _gross(unit), net, sheet.assume(want.allowance))
    quantity = bought.bought if bought else gross
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
        packs=bought.packs if bought else (),
        surplus=bought.surplus if bought else None,
        mass=quantity * (want.mass / net if net else 0.0),
        price=_price(bought, goods.terms),
        pallets=pallet_places(bought.packs) if bought else 0.0,
        measures={name: measure * (gross / net if net else 0.0) for name, measure in want.measures.items()},
        good=good,
    )


def _price(bought: Cover | None, terms: Terms) -> Decimal | None:
    """Price of what a line buys, as an order shows it."""
    if bought is None or bought.price is None:
        return None
    return rounded(bought.price, terms.places, terms.rounding)


def _gross(unit: str) -> Formula[[float, float]]:
    return whole_gross_quantity if unit == "each" else gross_quantity


def _chosen(want: Want, goods: Goods) -> tuple[Good | None, Cover | None]:
    """The first good of the catalogue that is what a job wants and whose packs can hold it, or none.

    Small amounts come in bags and large ones loose: where they are goods of their own, the
    limits of their packs decide.
    """
    for good in fitting_goods(want, goods):
        gross = _gross(good.unit)(want.measures[good.unit], want.allowance.value)
        try:
            return good, cover(gross, fitting_packs(want, good))
        except OutOfRange:
            continue
    return None, None


def fitting_packs(want: Want, good: Good) -> list[Pack]:
    """The packs of a good that may be bought: of a roll those of its size, else all."""
    return [pack for pack in good.packs if want.roll is None or (pack.length, pack.width) == want.roll]


def fitting_goods(want: Want, goods: Goods) -> list[Good]:
    """The goods of a catalogue that are what a job wants, in its order."""
    if want.item not in goods.items:
        return []
    return [good for good in goods.of_item(want.item) if good.unit in want.measures and _same_slab(good, want.slab)]


def _same_slab(good: Good, wanted: Slab | None) -> bool:
    if wanted is None:
        return True
    sold = good.slab
    # Concrete is what a slab is taken for when nothing is said, so it rules nothing out.
    made_alike = wanted.made_of in ("concrete", good.made_of)
    return sold is not None and made_alike and _size(sold) == _size(wanted)


def _size(slab: Slab) -> tuple[float, ...]:
    """Sizes to the tenth of a millimetre, the face either way round."""
    return (*sorted((round(slab.length, 4), round(slab.width, 4))), round(slab.thickness, 4))
