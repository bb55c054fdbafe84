"""Needs: what a bill needs, the lines of one thing taken together, and which goods meet each."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from service.paving.bills import BillLine
from service.paving.ordering.descriptions import SIZED
from service.paving.ordering.goods import Good, Pack, Unit
from service.paving.ordering.items import item_units
from service.paving.ordering.order_lines import OrderedLine
from service.paving.ordering.sizes import slab_face, slab_size
from service.paving.ordering.units_of_sale import in_unit


@dataclass(frozen=True, slots=True)
class Need:
    """One thing a job needs, whatever the number of bill lines that want it.

    Parameters
    ----------
    item, name : str
        What it is in a bill, and what it is called.
    good : Good or None
        The good the bill chose first.
    unit : Unit
        Unit of the figures.
    quantity : float
        Gross quantity of all its lines.
    billed : float
        What the packs of the bill hold; the gross quantity of a line without any.
    measures : mapping
        The gross quantity in every unit the job reckons it in.
    packs : tuple of Pack
        Packs it may be bought in: of rolls only those of the size laid.
    """

    item: str
    name: str
    good: Good | None
    unit: Unit
    quantity: float
    billed: float
    measures: Mapping[Unit, float]
    packs: tuple[Pack, ...]

    def met_by(self, good: Good) -> bool:
        """Whether a good is what is needed itself: any of a material; the very slab or edging of the bill."""
        if self.item in SIZED:
            return self.good is not None and good.sku == self.good.sku
        return good.item == self.item

    def stood_in_by(self, good: Good) -> bool:
        """Whether the catalogue lets a good stand in for what is needed."""
        return self.good is not None and good.sku in self.good.substitutes

    def amount(self, line: OrderedLine) -> float:
        """What a line of an order is in the unit of the need.

        Raises
        ------
        OutOfRange
            If nothing says how its unit turns into this one.
        """
        return self.turned(line.amount, line.unit, line.good)

    def turned(self, amount: float, unit: Unit, good: Good | None) -> float:
        """An amount of a good in the unit of the need; a slab of another size counts by its face."""
        if good is not None and good.slab is not None and not self._same_face(good):
            face = in_unit(amount, unit, "m2", good, {})
            return in_unit(face, "m2", self.unit, self.good, self.measures)
        return in_unit(amount, unit, self.unit, good or self.good, self.measures)

    def _same_face(self, good: Good) -> bool:
        own = self.good.slab if self.good else None
        return own is None or good.slab is None or slab_face(good.slab) == slab_face(own)


def needs(bill: Sequence[BillLine]) -> tuple[Need, ...]:
    """What a bill needs of a merchant, in order of work.

    Cement of the bed and of the joints is needed together; so are slabs of one size in border and
    field. What no merchant of these goods sells, spoil and fill, is left out.

    Parameters
    ----------
    bill : sequence of BillLine
        The bill.
    """
    lines: dict[tuple[str, str], list[BillLine]] = {}
    for line in bill:
        if line.item in item_units():
            lines.setdefault((line.item, _which(line)), []).append(line)
    return tuple(_need(together) for together in lines.values())


def same_size(need: Need, good: Good) -> bool:
    """Whether a good is of the size that is needed, without being allowed to stand in."""
    own = need.good.slab if need.good else None
    return own is not None and good.slab is not None and slab_size(good.slab) == slab_size(own)


def _which(line: BillLine) -> str:
    """What tells lines of one item apart."""
    if line.item not in SIZED:
        return ""
    return line.sku or line.name


def _need(lines: Sequence[BillLine]) -> Need:
    first = lines[0]
    shared = [unit for unit in first.measures if all(unit in line.measures for line in lines)]
    unit = next((unit for unit in shared if unit == first.unit), shared[0])
    good = next((line.good for line in lines if line.good is not None), None)
    return Need(
        item=first.item,
        name=good.name if good else first.name,
        good=good,
        unit=unit,
        quantity=sum(line.measures[unit] for line in lines),
        billed=sum(_billed(line, unit) for line in lines),
        measures={each: sum(line.measures[each] for line in lines) for each in shared},
        packs=_packs(good, lines),
    )


def _billed(line: BillLine, unit: Unit) -> float:
    """What the packs of a line hold; nothing on a line whose packs stand on another."""
    if line.good is None:
        return line.measures[unit]
    held = math.fsum(bought.count * bought.pack.content for bought in line.packs)
    return held if unit == line.unit or not line.gross else held * (line.measures[unit] / line.gross)


def _packs(good: Good | None, lines: Sequence[BillLine]) -> tuple[Pack, ...]:
    """Packs of a good of the same roll as the bill's."""
    if good is None:
        return ()
    rolls = {(bought.pack.length, bought.pack.width) for line in lines for bought in line.packs}
    return tuple(pack for pack in good.packs if not rolls or (pack.length, pack.width) in rolls)
