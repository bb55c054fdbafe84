"""Goods: what a merchant sells, in which packs, and the look-up among them."""

from bisect import bisect_left
from collections.abc import Collection, Hashable, Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, TypeVar

from service.paving.errors import refuse_unknown
from service.paving.ordering.sizes import Size, slab_size
from service.paving.ordering.terms import Terms
from service.paving.slabs import Slab

#: What a good is counted or measured in when it is sold.
Unit = Literal["t", "kg", "m3", "l", "m2", "m", "each"]

Key = TypeVar("Key", bound=Hashable)

#: How many names either side of a mistyped one are looked at for the nearest.
_NEIGHBOURS = 40


@dataclass(frozen=True, slots=True)
class Pack:
    """One way a good is sold.

    Parameters
    ----------
    name : str
        What the counter calls it: "25 kg bag", "bulk bag", "loose, by the half tonne".
    content : float
        What is in it, in the good's unit, above 0.
    sku : str
        Its own stock number; the good's where the merchant has no other.
    least : int
        Fewest sold in one order; 0 when any number will do.
    step : int
        Sold by so many at a time, counted from `least`.
    most : int or None
        Most sold in one order; None without a limit.
    price : Decimal or None
        Price of one, in the catalogue's currency; None where it isn't known.
    deposit : Decimal or None
        Returnable deposit on one (pallet, bag), never part of the price.
    mass : float or None
        Mass of one as delivered [kg], wrapping included; None for the content's own.
    per_pallet : int or None
        How many fill one pallet place; None for a load that is tipped.
    length, width : float or None
        Size of a roll [m].
    gtin : str
        Global Trade Item Number of the pack, or empty.
    """

    name: str
    content: float
    sku: str
    least: int = 0
    step: int = 1
    most: int | None = None
    price: Decimal | None = None
    deposit: Decimal | None = None
    mass: float | None = None
    per_pallet: int | None = None
    length: float | None = None
    width: float | None = None
    gtin: str = ""

    def __hash__(self) -> int:
        # Packs that are equal share these; what is worked out for packs is looked up by them in every request.
        return hash((self.sku, self.content))


@dataclass(frozen=True, slots=True)
class Good:
    """One thing a merchant sells.

    Parameters
    ----------
    sku : str
        The merchant's stock number.
    name : str
        What the merchant calls it.
    item : str
        What it is in a bill: a reference material ("type_1", "sharp_sand", "cement",
        "jointing_compound", "membrane"), "slab" or "edging".
    unit : Unit
        What it is measured in when it is sold.
    packs : tuple of Pack
        Every way it is sold; one at least.
    mass : float or None
        Mass of one unit of it [kg]; None where it isn't known.
    slabs : tuple of Slab
        The sizes in it: one for a slab, several (with shares) for a mixed pack.
    pieces : tuple of int
        How many of each size one pack holds, where there are several.
    made_of : str
        What the slabs are made of ("concrete", "sandstone"), or empty.
    made_edges : bool
        Whether the slab's own edges differ from a sawn one and belong at the outside.
    loose_density, compacted_density : float or None
        Densities [kg/m3] where the merchant knows better than the reference.
    range : str
        Family of slabs it belongs to, or empty.
    tax : str
        Code of its tax, or empty.
    gtin : str
        Global Trade Item Number, or empty.
    lead : int or None
        Working days until it can be had; 0 from stock, None where it isn't known.
    substitutes : tuple of str
        Stock numbers of goods that may stand in for it.
    """

    sku: str
    name: str
    item: str
    unit: Unit
    packs: tuple[Pack, ...]
    mass: float | None = None
    slabs: tuple[Slab, ...] = ()
    pieces: tuple[int, ...] = ()
    made_of: str = ""
    made_edges: bool = False
    loose_density: float | None = None
    compacted_density: float | None = None
    range: str = ""
    tax: str = ""
    gtin: str = ""
    lead: int | None = None
    substitutes: tuple[str, ...] = ()

    @property
    def slab(self) -> Slab | None:
        """The slab, when the good is slabs of one size."""
        return self.slabs[0] if len(self.slabs) == 1 else None


class Goods:
    """Everything a merchant sells, in the order of the catalogue.

    Parameters
    ----------
    goods : iterable of Good
        The goods; no stock number may stand for two.
    terms : Terms
        What the merchant sells by.
    """

    def __init__(self, goods: Iterable[Good], terms: Terms | None = None) -> None:
        self.terms = terms or Terms()
        self._goods = tuple(goods)
        self._by_sku = {good.sku: good for good in self._goods}
        self._packs = {pack.sku: (good, pack) for good in self._goods for pack in good.packs}
        self._skus = sorted(self._by_sku.keys() | self._packs.keys())
        self._by_item = _grouped((good.item, good) for good in self._goods)
        self._by_size = _grouped(
            ((good.item, slab_size(good.slab)), good) for good in self._goods if good.slab is not None
        )

    def __len__(self) -> int:
        return len(self._goods)

    def __iter__(self) -> Iterator[Good]:
        return iter(self._goods)

    def __contains__(self, sku: str) -> bool:
        return sku in self._by_sku or sku in self._packs

    @property
    def skus(self) -> Collection[str]:
        """Stock numbers of goods, not of packs."""
        return self._by_sku.keys()

    @property
    def items(self) -> tuple[str, ...]:
        """What there is goods of, in the order of the catalogue."""
        return tuple(self._by_item)

    def good(self, sku: str, *place: str | int) -> Good:
        """The good with a stock number.

        Raises
        ------
        UnknownName
            If there is none; offers the nearest.
        """
        found = self._by_sku.get(sku)
        if found is None:
            refuse_unknown("good", sku, self.near(sku), *place)
        return found

    def pack(self, sku: str, *place: str | int) -> tuple[Good, Pack]:
        """The pack with a stock number of its own, and the good it holds.

        Raises
        ------
        UnknownName
            If there is none; offers the nearest.
        """
        found = self._packs.get(sku)
        if found is None:
            refuse_unknown("pack", sku, self.near(sku), *place)
        return found

    def of_item(self, item: str, *place: str | int) -> tuple[Good, ...]:
        """Every good of an item, in the order of the catalogue.

        Raises
        ------
        UnknownName
            If the catalogue has none; offers the nearest.
        """
        found = self._by_item.get(item)
        if found is None:
            refuse_unknown("item in the catalogue", item, self._by_item, *place)
        return found

    def alike(self, item: str, size: Size | None) -> Iterable[Good]:
        """Every good of an item, where a size is given of that size alone; none if there is none."""
        return self._by_item.get(item, ()) if size is None else self._by_size.get((item, size), ())

    def near(self, sku: str) -> list[str]:
        """Stock numbers on either side in the alphabet: comparing all of a large catalogue would take seconds."""
        middle = bisect_left(self._skus, sku)
        return self._skus[max(middle - _NEIGHBOURS, 0) : middle + _NEIGHBOURS]


def _grouped(goods: Iterable[tuple[Key, Good]]) -> dict[Key, tuple[Good, ...]]:
    groups: dict[Key, list[Good]] = {}
    for key, good in goods:
        groups.setdefault(key, []).append(good)
    return {key: tuple(group) for key, group in groups.items()}
