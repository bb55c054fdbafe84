"""Choices of packs: a search for the best one, in whole numbers.

The packs are taken in turn, best value first, each from the count that would close the
deficit downwards. A turn ends when nothing below it can beat the best choice found, or when
the packs that follow can't hold what is left:

    need 173 slabs, crates of 40 and single slabs
    5 crates                200, 27 over
    4 crates, 13 single     173, nothing over: the best there can be, so stop

How far down is bounded whatever the quantity. Take the first pack in use that is sold
without limit, and let a step of it hold M: among M / g steps of a later pack, g the common
measure of both, are some that hold a whole number of M, and M is no dearer to buy.

References
----------
Branch and bound; of n whole numbers some add up to a multiple of n (pigeonhole).
"""

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from service.paving.errors import OutOfRange
from service.paving.ordering.goods import Pack

#: Parts of a unit that are told apart: grams of a tonne, millilitres of a cubic metre.
PARTS = 1_000_000
#: Turns taken before the packs are refused as having no common measure.
_TURNS = 100_000
#: Packs in whole numbers, and choices of them, that are kept at hand: a merchant's everyday range. An order check
#: asks for what its take-off chose, and a counter changes one thing of a job at a time.
_KEPT = 1_000


class Choice(NamedTuple):
    """A choice of packs, in parts and in the prices' last decimal place.

    Choices compare by price, then content, then number of packs. `counts` are so many of the pack
    at a place among those on offer, none of them 0.
    """

    price: int
    total: int
    packs: int
    counts: tuple[tuple[int, int], ...]


class _Offer(NamedTuple):
    """A pack in whole numbers, with what is true of it and all packs after it.

    `module` is what one step of it holds; `measure` is the common measure of all their contents, `largest` the
    greatest of them, and `held` what all of them hold, None without limit.
    """

    place: int
    content: int
    price: int
    first: int
    step: int
    greatest: int | None
    module: int
    measure: int = 0
    largest: int = 0
    held: int | None = 0

    def most(self, module: int) -> int | None:
        """Most of it worth buying beside a pack that holds so much a step; None without limit."""
        if self.greatest is None and module:
            return self.first + (module // math.gcd(module, self.module) - 1) * self.step
        return self.greatest

    def anchor(self, count: int) -> int:
        """What a step of it holds, if it is in use and steps can be added without limit; else 0."""
        in_use = count > 0 or self.first == self.step
        return self.module if in_use and self.greatest is None else 0

    def counts(self, deficit: int, most: int | None) -> range:
        """Counts it is sold in, from the one that closes a deficit downwards, without none."""
        enough = self.enough(deficit)
        return range(enough if most is None else min(enough, most), self.first - 1, -self.step)

    def enough(self, deficit: int) -> int:
        """The least count it is sold in that closes a deficit, whatever its limit."""
        beyond = deficit - self.first * self.content
        return self.first + -(-beyond // self.module) * self.step if beyond > 0 else self.first


@lru_cache(_KEPT)
def best_choice(need: int, packs: tuple[Pack, ...]) -> Choice | None:
    """The best choice of packs: least price, then least content, then fewest packs.

    Parameters
    ----------
    need : int
        What is needed, in parts, 0 or more.
    packs : tuple of Pack
        Packs on offer; prices count only when every pack has one.

    Returns
    -------
    Choice or None
        The choice; None if the packs can't hold what is needed.

    Raises
    ------
    OutOfRange
        If the packs share no common measure and the search would take too long.
    """
    search = _Search(need, _offers(packs))
    search.follow(0, Choice(0, 0, 0, ()), 0)
    return search.best


def greatest_count(pack: Pack) -> int | None:
    """Most of a pack that can be bought in whole steps; None without limit."""
    if pack.most is None:
        return None
    first = pack.least or pack.step
    return 0 if pack.most < first else pack.most - (pack.most - first) % pack.step


def parts(quantity: float) -> int:
    """A quantity in the parts of a unit that are told apart.

    Examples
    --------
    >>> parts(0.85)
    850000
    """
    return round(quantity * PARTS)


@lru_cache(_KEPT)
def _offers(packs: tuple[Pack, ...]) -> tuple[_Offer, ...]:
    """The packs that are sold at all, best value first, of equal value the largest."""
    prices = _whole_prices(packs)
    offers = [_offer(k, pack, price) for k, (pack, price) in enumerate(zip(packs, prices, strict=True))]
    offers = [offer for offer in offers if offer.greatest != 0]
    common = math.lcm(*(offer.content for offer in offers))
    offers.sort(key=lambda offer: (offer.price * (common // offer.content), -offer.content))
    measure, largest = 0, 0
    held: int | None = 0
    for k in range(len(offers) - 1, -1, -1):
        offer = offers[k]
        measure = math.gcd(measure, offer.module, offer.first * offer.content)
        largest = max(largest, offer.content)
        held = None if held is None or offer.greatest is None else held + offer.greatest * offer.content
        offers[k] = offer._replace(measure=measure, largest=largest, held=held)
    return tuple(offers)


def _offer(place: int, pack: Pack, price: int) -> _Offer:
    content = parts(pack.content)
    first = pack.least or pack.step
    return _Offer(place, content, price, first, pack.step, greatest_count(pack), content * pack.step)


def _whole_prices(packs: Sequence[Pack]) -> list[int]:
    """Prices in whole numbers of their last decimal place; all 0 when one isn't known."""
    prices = [pack.price for pack in packs if pack.price is not None]
    if len(prices) < len(packs):
        return [0] * len(packs)
    places = max((-int(price.as_tuple().exponent) for price in prices), default=0)
    return [int(price.scaleb(places)) for price in prices]


class _Search:
    """A search through the choices of packs for one quantity."""

    def __init__(self, need: int, offers: tuple[_Offer, ...]) -> None:
        self.need = need
        self.offers = offers
        self.best: Choice | None = None
        self.ideal = _multiple_above(need, offers[0].measure) if offers else need
        self.last = len(offers) - 1
        self.turns = 0

    def follow(self, turn: int, choice: Choice, module: int) -> None:
        """Follow a choice that may beat the best so far through the packs from a turn on.

        `module` is what a step of the first unlimited pack in use holds; 0 before there is one.
        """
        deficit = self.need - choice.total
        if deficit <= 0:
            self.best = choice
        elif turn == self.last:
            self._close(self.offers[turn], choice, deficit)
        elif turn < self.last:
            offer = self.offers[turn]
            for count in offer.counts(deficit, offer.most(module)):
                if not self._worth_going_on(turn, choice, module, count):
                    break
            self._worth_going_on(turn, choice, module, 0)

    def _close(self, offer: _Offer, choice: Choice, deficit: int) -> None:
        """Close a deficit with the last pack: there is one best number of it."""
        count = offer.enough(deficit)
        if offer.greatest is None or count <= offer.greatest:
            done = _added(choice, offer, count)
            if self.best is None or done[:3] < self.best[:3]:
                self.best = done

    def _worth_going_on(self, turn: int, choice: Choice, module: int, count: int) -> bool:
        """Buy so many of the pack in turn, and say whether fewer of it, but some, may be better."""
        self._count_turn()
        offer = self.offers[turn]
        after = _added(choice, offer, count)
        left = self.need - after.total
        if left <= 0:
            if self.best is None or after[:3] < self.best[:3]:
                self.best = after
            return True
        anchor = module or offer.anchor(count)
        if left > self._held(turn + 1, anchor, left):
            return False
        bound = self._bound(turn + 1, after, left)
        if self.best is None or bound < self.best[:3]:
            self.follow(turn + 1, after, anchor)
        return not self._beats_all(bound, offer)

    def _count_turn(self) -> None:
        self.turns += 1
        if self.turns > _TURNS:
            raise OutOfRange("The packs share no common measure; give what they hold in rounder figures.", "packs")

    def _held(self, turn: int, module: int, enough: int) -> int:
        """What the packs from a turn on can hold, as far as it matters."""
        if not module and turn <= self.last:
            held = self.offers[turn].held
            return enough if held is None else held
        held = 0
        for offer in self.offers[turn:]:
            most = offer.most(module)
            held += enough if most is None else most * offer.content
        return held

    def _bound(self, turn: int, choice: Choice, left: int) -> tuple[int, int, int]:
        """Price, content and packs that nothing following from a choice can better."""
        offer = self.offers[turn]
        return (
            choice.price + -(-left * offer.price // offer.content),
            choice.total + _multiple_above(left, offer.measure),
            choice.packs + -(-left // offer.largest),
        )

    def _beats_all(self, bound: tuple[int, int, int], offer: _Offer) -> bool:
        """Whether the best choice so far beats a bound, and every bound with fewer of an offer.

        With fewer of it the price can only rise; the number of packs can only rise if those
        that follow are no larger.
        """
        best = self.best
        if best is None or bound[0] < best.price:
            return False
        if bound[0] > best.price:
            return True
        return best.total == self.ideal and bound[2] >= best.packs and offer.content == offer.largest


def _added(choice: Choice, offer: _Offer, count: int) -> Choice:
    if not count:
        return choice
    return Choice(
        choice.price + count * offer.price,
        choice.total + count * offer.content,
        choice.packs + count,
        (*choice.counts, (offer.place, count)),
    )


def _multiple_above(quantity: int, measure: int) -> int:
    return -(-quantity // measure) * measure
