"""Purchases: which good is bought for what a job wants, and in which packs; in one go what several lines want of it."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import NamedTuple

from service.paving.counts import ceil
from service.paving.errors import OutOfRange
from service.paving.formulas import Formula, formula
from service.paving.ordering.goods import Good, Goods, Pack, Unit
from service.paving.ordering.packs import Cover, cover
from service.paving.ordering.sizes import slab_size
from service.paving.reference import Assumption
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


@formula
def mixed_quantity(packs: float, content: float) -> float:
    """Quantity of a mix to order: it comes in fixed shares, so the size that runs out first decides.

    Parameters
    ----------
    packs : float
        Packs that hold enough of every size [1], parts of one included.
    content : float
        What a pack holds [1], in the unit of the line.

    Returns
    -------
    float
        Quantity [1], in the unit of the line.

    References
    ----------
    Common practice

    Examples
    --------
    >>> mixed_quantity(2.5, 12.0)
    30.0
    """
    return packs * content


@formula
def mixed_gross_quantity(share: float, mix: float) -> float:
    """Quantity of one size in a mix to order.

    Parameters
    ----------
    share : float
        Share of the mix in this size [1].
    mix : float
        Quantity of the mix [1], in the unit of the line.

    Returns
    -------
    float
        Quantity [1], in the unit of the line.

    References
    ----------
    Common practice

    Examples
    --------
    >>> mixed_gross_quantity(0.25, 30.0)
    7.5
    """
    return share * mix


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


class Purchase(NamedTuple):
    """One good, bought in one go for one want or for several, named by their places from 1."""

    places: tuple[int, ...]
    wants: tuple[Want, ...]
    good: Good
    cover: Cover

    @property
    def first(self) -> int:
        """Place of the want that it is bought with."""
        return min(self.places)


def purchases(wants: Sequence[Want], goods: Goods) -> dict[int, Purchase]:
    """What is bought for each want by its place, from 1; nothing where no good of the catalogue will do.

    Parameters
    ----------
    wants : sequence of Want
        In order of work.
    goods : Goods
        What the merchant sells.
    """
    by_sku = {purchase.good.sku: purchase for purchase in _mixed_purchases(wants, goods)}
    done = {place for purchase in by_sku.values() for place in purchase.places}
    alike: dict[object, list[int]] = {}
    for k, want in enumerate(wants, 1):
        if k in done:
            continue
        size = (slab_size(want.slab), want.slab.made_of) if want.slab else None
        alike.setdefault((want.item, size, want.roll), []).append(k)
    for places in alike.values():
        own = tuple(wants[place - 1] for place in places)
        if not _bought(tuple(places), own, goods, by_sku) and len({tuple(want.measures) for want in own}) > 1:
            # What isn't measured alike may not be had in one unit: then it is bought by itself.
            for place, want in zip(places, own, strict=True):
                _bought((place,), (want,), goods, by_sku)
    return {place: purchase for purchase in by_sku.values() for place in purchase.places}


def _bought(places: tuple[int, ...], wants: tuple[Want, ...], goods: Goods, by_sku: dict[str, Purchase]) -> bool:
    """Buy for wants of one thing the first good that will do and whose packs can hold all of it.

    Small amounts come in bags and large ones loose: where they are goods of their own, the
    limits of their packs decide. What is bought for other wants already is bought for all of them in one go.
    """
    for good in fitting_goods(wants, goods):
        before = by_sku.get(good.sku)
        every = (*before.wants, *wants) if before else wants
        worked = gross_formula(good.unit).function
        gross = sum([worked(want.measures[good.unit], want.allowance.value) for want in every])
        try:
            bought = cover(gross, fitting_packs(wants[0], good))
        except OutOfRange:
            continue
        by_sku[good.sku] = Purchase((*(before.places if before else ()), *places), every, good, bought)
        return True
    return False


def _mixed_purchases(wants: Sequence[Want], goods: Goods) -> Iterator[Purchase]:
    """Slabs of several sizes laid together, in packs that hold all of them, where one isn't sold by itself."""
    sections: dict[str, list[int]] = {}
    for k, want in enumerate(wants, 1):
        if want.item == "slab":
            sections.setdefault(want.section, []).append(k)
    for places in sections.values():
        own = tuple([wants[place - 1] for place in places])
        if len(own) == 1 or all(any(True for _ in fitting_goods((want,), goods)) for want in own):
            continue
        for good in goods.alike("slab", None):
            if not good.pieces or not _mixes(good, own):
                continue
            mix = mixed_quantity(mixed_packs(good, own), good.packs[0].content)
            with suppress(OutOfRange):
                yield Purchase(tuple(places), own, good, cover(mix, good.packs))
                break


def _mixes(good: Good, wants: Sequence[Want]) -> bool:
    """Whether a pack of several sizes holds just the sizes wanted."""
    slabs = [want.slab for want in wants if want.slab is not None]
    made_alike = all(_made_alike(slab, good) for slab in slabs)
    return made_alike and sorted(map(slab_size, slabs)) == sorted(map(slab_size, good.slabs))


def mixed_packs(good: Good, wants: Sequence[Want]) -> float:
    """Packs of several sizes, parts of one included, that hold enough of every size."""
    pieces = {slab_size(slab): number for slab, number in zip(good.slabs, good.pieces, strict=True)}
    wanted = {slab_size(want.slab): _pieces(want) for want in wants if want.slab is not None}
    return max(number / pieces[size] for size, number in wanted.items())


def _pieces(want: Want) -> float:
    return whole_gross_quantity(want.measures["each"], want.allowance.value)


def _made_alike(slab: Slab, good: Good) -> bool:
    """Whether a good is of what a slab is made of; concrete is taken when nothing is said, so it rules nothing out."""
    return slab.made_of in ("concrete", good.made_of)


def fitting_goods(wants: Sequence[Want], goods: Goods) -> Iterator[Good]:
    """The goods of a catalogue that are what wants of one thing want, in its order."""
    item, slab = wants[0].item, wants[0].slab
    for good in goods.alike(item, slab_size(slab) if slab else None):
        if (slab is None or _made_alike(slab, good)) and all(good.unit in want.measures for want in wants):
            yield good


def fitting_packs(want: Want, good: Good) -> Sequence[Pack]:
    """The packs of a good that may be bought: of a roll those of its size, else all."""
    if want.roll is None:
        return good.packs
    return [pack for pack in good.packs if (pack.length, pack.width) == want.roll]


def gross_formula(unit: str) -> Formula[[float, float]]:
    """How a gross quantity in a unit is worked: pieces are whole."""
    return whole_gross_quantity if unit == "each" else gross_quantity
