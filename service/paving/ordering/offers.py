"""Offers: goods that one order brings along, before those of the catalogue."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain

from service.paving.errors import OutOfRange, refuse_unknown, within
from service.paving.ordering.goods import Good, Goods, Pack
from service.paving.ordering.sizes import Size
from service.paving.ordering.terms import Tax


class Offers(Goods):
    """Goods in front of a catalogue: the same stock number is the one in front.

    The catalogue itself is looked into, never copied, so that a large one costs nothing.

    Parameters
    ----------
    goods : Goods
        The goods in front.
    behind : Goods
        The catalogue.
    """

    def __init__(self, goods: Goods, behind: Goods) -> None:
        super().__init__(goods, goods.terms)
        self._behind = behind

    def __len__(self) -> int:
        return sum(1 for _ in self)

    def __iter__(self) -> Iterator[Good]:
        yield from self._goods
        yield from (good for good in self._behind if not self._stands_before(good))

    def __contains__(self, sku: str) -> bool:
        return super().__contains__(sku) or sku in self._behind

    @property
    def skus(self) -> Collection[str]:
        """Stock numbers of goods, not of packs."""
        return self._by_sku.keys() | set(self._behind.skus)

    @property
    def items(self) -> tuple[str, ...]:
        """What there is goods of."""
        return tuple(dict.fromkeys([*super().items, *self._behind.items]))

    def good(self, sku: str, *place: str | int) -> Good:
        """The good with a stock number."""
        return super().good(sku, *place) if sku in self._by_sku else self._behind.good(sku, *place)

    def pack(self, sku: str, *place: str | int) -> tuple[Good, Pack]:
        """The pack with a stock number of its own, and the good it holds."""
        return super().pack(sku, *place) if sku in self._packs else self._behind.pack(sku, *place)

    def of_item(self, item: str, *place: str | int) -> tuple[Good, ...]:
        """Every good of an item, those in front first."""
        if item not in self._by_item:
            return self._behind.of_item(item, *place)
        behind = self._behind.of_item(item) if item in self._behind.items else ()
        return (*super().of_item(item), *(good for good in behind if not self._stands_before(good)))

    def alike(self, item: str, size: Size | None) -> Iterable[Good]:
        """Every good of an item and a size, those in front first."""
        behind = (good for good in self._behind.alike(item, size) if not self._stands_before(good))
        return chain(super().alike(item, size), behind)

    def near(self, sku: str) -> list[str]:
        """Stock numbers that begin alike."""
        return [*super().near(sku), *self._behind.near(sku)]

    def _stands_before(self, good: Good) -> bool:
        return good.sku in self._by_sku


def offers(offered: Sequence[tuple[Good, Tax | None]], catalogue: Goods) -> Goods:
    """The goods on offer: what an order brings along, then the catalogue's.

    Parameters
    ----------
    offered : sequence of (Good, Tax or None)
        Goods, each with its tax.
    catalogue : Goods
        The merchant's.

    Returns
    -------
    Goods
        All of them, by the catalogue's terms.

    Raises
    ------
    OutOfRange
        If two goods or packs share a stock number.
    UnknownName
        If a substitute isn't on offer.
    """
    if not offered:
        return catalogue
    taxes = {tax.code: tax for _, tax in offered if tax is not None}
    terms = replace(catalogue.terms, taxes={**catalogue.terms.taxes, **taxes})
    found = Offers(Goods((good for good, _ in offered), terms), catalogue)
    with within("goods"):
        _refuse_shared([good for good, _ in offered])
        _refuse_strays([good for good, _ in offered], found)
    return found


def _refuse_shared(goods: Sequence[Good]) -> None:
    taken: set[str] = set()
    for k, good in enumerate(goods):
        own = {good.sku, *(pack.sku for pack in good.packs)}
        if own & taken:
            raise OutOfRange(f"'{min(own & taken)}' is another's stock number already.", k, "sku")
        taken |= own


def _refuse_strays(goods: Sequence[Good], found: Goods) -> None:
    for k, good in enumerate(goods):
        for n, sku in enumerate(good.substitutes):
            if sku not in found:
                refuse_unknown("good", sku, (other.sku for other in goods), k, "substitutes", n)
