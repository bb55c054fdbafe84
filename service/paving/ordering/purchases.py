"""Purchases: which good to take for an item, and how many packs of it."""

from collections.abc import Sequence
from dataclasses import dataclass

from service.paving.errors import OutOfRange
from service.paving.ordering.goods import Good
from service.paving.ordering.packs import Cover, cover


@dataclass(frozen=True, slots=True)
class Purchase:
    """What to buy for one line.

    Parameters
    ----------
    good : Good
        The good taken.
    quantity : float
        What is needed of it, in its unit.
    cover : Cover
        The packs to buy.
    """

    good: Good
    quantity: float
    cover: Cover


def purchase(offers: Sequence[tuple[Good, float]]) -> Purchase:
    """The first good on offer that can be bought in the quantity needed.

    A merchant lists the good sold first at the counter first: bulk bags before loose loads,
    the bags limited to as many as anyone orders.

    Parameters
    ----------
    offers : sequence of (Good, float)
        Goods that would do, in the order of the catalogue, each with the quantity needed in
        its own unit.

    Returns
    -------
    Purchase
        The good and its packs.

    Raises
    ------
    OutOfRange
        If none can; with the reason of the last.

    References
    ----------
    Common practice

    Examples
    --------
    >>> from service.paving.ordering.goods import Pack
    >>> bags = Good("A", "Stone, bags", "type_1", "t", (Pack("bulk bag", 0.85, "A1", most=11),))
    >>> loose = Good("B", "Stone, loose", "type_1", "t", (Pack("half tonne", 0.5, "B1", least=20),))
    >>> purchase([(bags, 12.2), (loose, 12.2)]).good.name
    'Stone, loose'
    """
    refusal = OutOfRange("The catalogue has no good to buy for this.", "item")
    for good, quantity in offers:
        try:
            return Purchase(good, quantity, cover(quantity, good.packs))
        except OutOfRange as error:
            refusal = error
    raise refusal
