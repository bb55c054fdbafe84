"""Mending: the packs that make an order do, and the least that could have been bought."""

from service.paving.errors import OutOfRange
from service.paving.ordering.goods import Good
from service.paving.ordering.matches import Match
from service.paving.ordering.needs import Need
from service.paving.ordering.packs import Cover, cover


def least_bought(match: Match) -> float:
    """The least that can be bought in the packs of the goods that were ordered, in the need's unit."""
    need, most = match.need, 0.0
    for good in _goods(match):
        one = _one(need, good)
        bought = _cover(need.quantity / one, good, need) if one else None
        if one and bought is not None:
            most = max(most, bought.bought * one)
    return most


def mended(match: Match) -> Cover | None:
    """Packs that make up what is short: of the good that was ordered where it is one, else of the bill's."""
    need, ordered = match.need, _goods(match)
    lacking = need.quantity - match.amount
    for good in (*(ordered if len(ordered) == 1 else ()), *([need.good] if need.good else ())):
        one = _one(need, good)
        bought = _cover(lacking / one, good, need) if one else None
        if bought is not None:
            return bought
    return None


def _goods(match: Match) -> list[Good]:
    """The goods that were ordered for a need."""
    return list({line.good.sku: line.good for line in match.lines if line.good is not None}.values())


def _one(need: Need, good: Good) -> float | None:
    """What one unit of a good is in the need's unit; none where nothing says so."""
    try:
        return need.turned(1.0, good.unit, good)
    except OutOfRange:
        return None


def _cover(amount: float, good: Good, need: Need) -> Cover | None:
    """Packs of a good for an amount in its unit; none where its packs can't hold it."""
    packs = need.packs if need.good is not None and need.good.sku == good.sku else good.packs
    try:
        return cover(amount, packs)
    except OutOfRange:
        return None
