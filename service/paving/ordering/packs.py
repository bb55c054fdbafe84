"""Packs: what to buy to cover a quantity from the packs on offer, exactly."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple

from service.paving.errors import OutOfRange
from service.paving.ordering.choices import PARTS, best_choice, greatest_count, parts
from service.paving.ordering.goods import Pack

#: Most of a good in one order, in its unit: beyond any job.
MOST = 1e7
_NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class PackCount:
    """So many of one pack."""

    pack: Pack
    count: int


class Cover(NamedTuple):
    """What to buy to cover a quantity.

    Parameters
    ----------
    packs : tuple of PackCount
        Packs to buy, in the order they are offered; none with a count of 0.
    bought : float
        What is in them, in the good's unit.
    surplus : float
        What is bought beyond the quantity, in the good's unit.
    price : Decimal or None
        Price of all of them without deposits; None where one isn't known.
    """

    packs: tuple[PackCount, ...]
    bought: float
    surplus: float
    price: Decimal | None


def cover(quantity: float, packs: Sequence[Pack]) -> Cover:
    """Packs that cover a quantity.

    Least price when every pack has one, then least surplus, then fewest packs; without
    prices least surplus, then fewest packs.

    Parameters
    ----------
    quantity : float
        What is needed, in the good's unit, 0 to 1e7; read to a millionth of the unit.
    packs : sequence of Pack
        Packs on offer.

    Returns
    -------
    Cover
        What to buy.

    Raises
    ------
    OutOfRange
        If the packs can't hold the quantity within their limits, or share no common
        measure.

    Notes
    -----
    Exact: no other choice of packs is better by the rule above. Deposits come back and
    don't count.

    References
    ----------
    Common practice (the rule); branch and bound (see choices).

    Examples
    --------
    >>> bags = Pack("25 kg bag", 0.025, "A", most=8), Pack("bulk bag", 0.85, "B")
    >>> [(p.count, p.pack.name) for p in cover(1.74, bags).packs]
    [(2, '25 kg bag'), (2, 'bulk bag')]
    """
    if not 0 <= quantity <= MOST:
        raise OutOfRange(f"A quantity to order lies between 0 and {MOST:g}.", "quantity")
    need = parts(quantity)
    choice = best_choice(need, tuple(packs))
    if choice is None:
        raise OutOfRange(_too_little(quantity, packs), "packs")
    bought = tuple([PackCount(packs[k], count) for k, count in sorted(choice.counts)])
    return Cover(bought, choice.total / PARTS, (choice.total - need) / PARTS, packs_price(bought))


def packs_price(packs: Sequence[PackCount]) -> Decimal | None:
    """Price of packs without their deposits; None where one isn't known."""
    total = _NOTHING
    for bought in packs:
        if bought.pack.price is None:
            return None
        total += bought.pack.price * bought.count
    return total


def _too_little(quantity: float, packs: Sequence[Pack]) -> str:
    if not packs:
        return "There is no pack to buy it in; give the good one pack at least."
    held = sum(pack.content * (greatest_count(pack) or 0) for pack in packs)
    return f"The packs hold {held:g} at most, and {quantity:g} is needed; raise their limit or add a larger pack."
