"""Order lines: what a written order asks for, line by line; what can't be read for certain is said, never guessed."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from service.paving.errors import UnknownName, nearest_said
from service.paving.ordering.descriptions import descriptions, pack_meant
from service.paving.ordering.goods import Good, Goods, Pack, Unit
from service.paving.ordering.units_of_sale import by_piece, unit_of_sale
from service.paving.ordering.written_quantities import Nothing, Unclear, quantity_and_unit, whole

#: Lines that are told the nearest stock numbers: comparing all of them would take seconds.
_TOLD_NEAREST = 20
_NEAR = 3


@dataclass(frozen=True, slots=True)
class WrittenLine:
    """A line of an order as it is written; `wrong` says why it couldn't even be taken apart.

    `passed_over` of what stands in the text and orders nothing, such as a column that isn't read.

    `number` is its place: on paper the line, the headings being line 1; else its place in the list, from 1.
    """

    number: int
    sku: str = ""
    description: str = ""
    quantity: str = ""
    unit: str = ""
    wrong: str = ""
    passed_over: bool = False

    @property
    def text(self) -> str:
        """The line as it is said again."""
        return " | ".join(part for part in (self.sku, self.description, self.quantity, self.unit) if part)


@dataclass(frozen=True, slots=True)
class OrderedLine:
    """A line that could be read.

    Parameters
    ----------
    number : int
        Its place.
    good : Good or None
        What is ordered; None where any good of the item is meant.
    item : str
        What it is in a bill.
    quantity : float
        So many, in `unit` or of `pack`.
    unit : Unit
        Unit of the quantity; the good's where it is in packs.
    pack : Pack or None
        The pack that is counted.
    """

    number: int
    good: Good | None
    item: str
    quantity: float
    unit: Unit
    pack: Pack | None

    @property
    def amount(self) -> float:
        """What is ordered, in `unit`."""
        return self.quantity * self.pack.content if self.pack else self.quantity

    @property
    def counted_in(self) -> str:
        """The unit the order used."""
        return self.pack.name if self.pack else self.unit


@dataclass(frozen=True, slots=True)
class UnreadLine:
    """A line that couldn't be read, and why; `good` and `item` where at least that is known.

    `orders_none` where it is clear that it orders nothing.
    """

    number: int
    text: str
    because: str
    good: Good | None = None
    item: str = ""
    orders_none: bool = False


def read_lines(lines: Sequence[WrittenLine], goods: Goods) -> tuple[tuple[OrderedLine, ...], tuple[UnreadLine, ...]]:
    """What an order asks for: the lines that could be read, and those that couldn't.

    Parameters
    ----------
    lines : sequence of WrittenLine
        The order as it is written.
    goods : Goods
        What the merchant sells.

    Returns
    -------
    tuple
        Lines read, and lines not read; every line is in one of them.
    """
    reader = _Reader(goods)
    read = list(reader.read(lines))
    return (
        tuple(line for line in read if isinstance(line, OrderedLine)),
        tuple(line for line in read if isinstance(line, UnreadLine)),
    )


class _Reader:
    """Reads lines against one catalogue."""

    def __init__(self, goods: Goods) -> None:
        self._goods = goods
        self._descriptions = descriptions(goods)
        self._told = 0

    def read(self, lines: Iterable[WrittenLine]) -> Iterator[OrderedLine | UnreadLine]:
        for line in lines:
            yield self._line(line)

    def _line(self, line: WrittenLine) -> OrderedLine | UnreadLine:
        if line.wrong:
            return UnreadLine(line.number, line.text, line.wrong, orders_none=line.passed_over)
        try:
            good, item, pack = self._named(line)
        except Unclear as unclear:
            return UnreadLine(line.number, line.text, str(unclear))
        try:
            quantity, unit = quantity_and_unit(line.quantity, line.unit)
            return self._counted(line, good, item, pack, quantity, unit)
        except Unclear as unclear:
            return UnreadLine(line.number, line.text, str(unclear), good, item, isinstance(unclear, Nothing))

    def _named(self, line: WrittenLine) -> tuple[Good | None, str, Pack | None]:
        """The good, its item, and the pack where the stock number is a pack's."""
        if not line.sku and not line.description:
            raise Unclear("The line names nothing: give a stock number or a description.")
        if not line.sku:
            good, item = self._descriptions.meant(line.description)
            return good, item, None
        sku = self._descriptions.sku(line.sku)
        if sku is None:
            raise Unclear(self._unknown(line.sku))
        return self._of_sku(sku)

    def _of_sku(self, sku: str) -> tuple[Good, str, Pack | None]:
        try:
            good, pack = self._goods.pack(sku)
        except UnknownName:
            good = self._goods.good(sku)
            return good, good.item, None
        return good, good.item, pack

    def _unknown(self, sku: str) -> str:
        self._told += 1
        said = f"No good or pack has the stock number '{sku}'"
        if self._told > _TOLD_NEAREST:
            return f"{said}."
        near = get_close_matches(sku, self._goods.near(sku), n=_NEAR, cutoff=0.5)
        return f"{said}; {nearest_said(near)}." if near else f"{said}."

    def _counted(
        self, line: WrittenLine, good: Good | None, item: str, pack: Pack | None, quantity: float, text: str
    ) -> OrderedLine:
        """The line with its quantity in packs or in a unit."""
        unit = unit_of_sale(text)
        counted = pack if not text or (unit == "each" and not by_piece(text) and _each_is_pack(good, pack)) else None
        if counted is None and text and unit is None:
            counted = self._pack_named(text, good, item, pack)
        if counted is None and (unit is None or (unit == "each" and not _in_pieces(good, item))):
            raise Unclear(_say_which(text, good))
        if counted is None and unit is not None:
            amount = float(whole(quantity, "each")) if unit == "each" else quantity
            _refuse_broken(amount, unit, good, pack)
            return OrderedLine(line.number, good, item, amount, unit, None)
        assert counted is not None
        sold = good or self._goods.pack(counted.sku)[0]
        return OrderedLine(line.number, sold, item, float(whole(quantity, counted.name)), sold.unit, counted)

    def _pack_named(self, text: str, good: Good | None, item: str, pack: Pack | None) -> Pack:
        if pack is not None and good is not None and pack.sku != good.sku:
            return pack_meant(text, [pack])
        kept = item in self._goods.items
        sold = [good] if good else self._goods.of_item(item) if kept else ()
        return pack_meant(text, [each for one in sold for each in one.packs])


def _each_is_pack(good: Good | None, pack: Pack | None) -> bool:
    """Whether "each" is one of the pack whose number is given, and not a piece of the good.

    Raises
    ------
    Unclear
        If the number is the good's too, and a pack of it isn't a piece of it.
    """
    if good is None or pack is None:
        return False
    if pack.sku == good.sku and good.slab is not None and (good.unit != "each" or pack.content != 1):
        raise Unclear(f"'{pack.sku}' is both a slab's number and a pack's: write slabs, or '{pack.name}'.")
    return True


def _in_pieces(good: Good | None, item: str) -> bool:
    return item in ("slab", "edging") and (good is None or good.slab is not None)


def _say_which(text: str, good: Good | None) -> str:
    packs = ", ".join(f"'{pack.name}'" for pack in good.packs[:_NEAR]) if good else "a pack"
    unit = good.unit if good else "t or kg"
    said = f"'{text}' doesn't say of what" if text else "There is no unit"
    return f"{said}: write {unit}, or the pack: {packs}."


def _refuse_broken(amount: float, unit: Unit, good: Good | None, pack: Pack | None) -> None:
    """Refuse part of a pack whose own stock number is given.

    Raises
    ------
    Unclear
        If the amount isn't a whole number of packs.
    """
    if good is None or pack is None or pack.sku == good.sku:
        return
    if unit != good.unit:
        raise Unclear(f"'{pack.sku}' is the number of '{pack.name}': say how many, or write the amount in {good.unit}.")
    packs = amount / pack.content
    if abs(packs - round(packs)) > _ROUNDING * max(packs, 1.0):
        raise Unclear(
            f"{amount:g} {unit} isn't a whole number of '{pack.name}', which holds {pack.content:g} {unit}: "
            "order whole packs."
        )


_ROUNDING = 1e-9
