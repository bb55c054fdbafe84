"""Descriptions: which good, or which item, the words on an order mean, when they can mean only one."""

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from functools import cache, cached_property, lru_cache

from service.paving.materials import materials
from service.paving.ordering.goods import Good, Goods, Pack
from service.paving.ordering.items import item_units
from service.paving.ordering.written_quantities import Unclear

#: Items whose goods differ in more than their packs: one isn't the other.
SIZED = ("slab", "edging")
_WORD = re.compile(r"[0-9]+(?:\.[0-9]+)?|[^\W\d_]+")
#: How many of several meanings are named.
_NAMED = 3


def words(text: str) -> tuple[str, ...]:
    """The words and figures of a text in the order of the alphabet, each as often as it stands there.

    In small letters, plurals without their s, "x" between figures left out.

    Examples
    --------
    >>> words("Bulk bags, 600x600")
    ('600', '600', 'bag', 'bulk')
    """
    found = (word.removesuffix("s") if len(word) > 2 else word for word in _WORD.findall(text.casefold()))
    return tuple(sorted(word for word in found if word != "x"))


def _has(name: str, asked: Sequence[str]) -> bool:
    """Whether a name has all of some words, each as often."""
    return Counter(asked) <= Counter(words(name))


class Descriptions:
    """The goods of a catalogue by the words of their names.

    Parameters
    ----------
    goods : Goods
        The catalogue.
    """

    def __init__(self, goods: Goods) -> None:
        self._goods = goods

    def sku(self, text: str) -> str | None:
        """The stock number a text is, small and capital letters alike; None if it is none or several."""
        if text in self._goods:
            return text
        found = self._skus.get(text.casefold(), [])
        return found[0] if len(found) == 1 else None

    def meant(self, text: str) -> tuple[Good | None, str]:
        """The good that a description means, or None and the item where any good of it is meant.

        Raises
        ------
        Unclear
            If it means nothing in the catalogue, or several things.
        """
        key, asked = "_".join(text.casefold().split()), words(text)
        item = key if key in item_units() else _items_by_name().get(asked)
        return (None, item) if item else self._only(text, self._named(asked))

    def _only(self, text: str, found: list[Good]) -> tuple[Good | None, str]:
        items = {good.item for good in found}
        if len(found) == 1:
            return found[0], found[0].item
        if len(items) == 1 and not items & set(SIZED):
            return None, found[0].item
        if not found:
            raise Unclear(f"Nothing in the catalogue is called '{text}'.")
        some = ", ".join(f"{good.sku} ({good.name})" for good in found[:_NAMED])
        raise Unclear(f"'{text}' may be {len(found)} goods: {some}. Give the stock number.")

    def _named(self, asked: Sequence[str]) -> list[Good]:
        """The goods with all of some words in their names; only those with no other, if there are such."""
        postings = [self._by_word.get(word, ()) for word in set(asked)]
        if not postings:
            return []
        found = set(min(postings, key=len)).intersection(*postings)
        goods = [self._all[place] for place in sorted(found) if _has(self._all[place].name, asked)]
        return [good for good in goods if words(good.name) == asked] or goods

    @cached_property
    def _all(self) -> list[Good]:
        return list(self._goods)

    @cached_property
    def _by_word(self) -> dict[str, list[int]]:
        found: dict[str, list[int]] = defaultdict(list)
        for place, good in enumerate(self._all):
            for word in set(words(good.name)):
                found[word].append(place)
        return found

    @cached_property
    def _skus(self) -> dict[str, list[str]]:
        found: dict[str, list[str]] = defaultdict(list)
        for good in self._goods:
            for sku in dict.fromkeys((good.sku, *(pack.sku for pack in good.packs))):
                found[sku.casefold()].append(sku)
        return found


#: A catalogue's words are sorted once, not for every order; a few places for goods that orders bring with them.
descriptions = lru_cache(maxsize=4)(Descriptions)


def pack_meant(text: str, packs: Iterable[Pack]) -> Pack:
    """The pack that the words for a unit mean.

    Raises
    ------
    Unclear
        If they mean none, or several.
    """
    offered, asked = list(packs), words(text)
    fitting = [pack for pack in offered if _has(pack.name, asked)] if asked else []
    exact = [pack for pack in fitting if words(pack.name) == asked] or fitting
    if len(exact) == 1:
        return exact[0]
    if not offered:
        raise Unclear(f"'{text}' isn't a unit, and the catalogue sells no packs of it: write t, kg, m3 or m2.")
    names = ", ".join(dict.fromkeys(f"'{pack.name}'" for pack in (exact or offered)[: 2 * _NAMED]))
    if not exact:
        raise Unclear(f"'{text}' isn't a unit or a pack it is sold in; it comes as {names}.")
    raise Unclear(f"'{text}' may be {names}: say which, or give the pack's stock number.")


@cache
def _items_by_name() -> dict[tuple[str, ...], str]:
    return {words(material.name): material.key for material in materials()}
