"""Browsing: the goods of a catalogue that answer to some words, a page at a time."""

from dataclasses import dataclass

from service.paving.ordering.goods import Good, Goods
from service.paving.ordering.terms import Terms


@dataclass(frozen=True, slots=True)
class Page:
    """A page of goods; `count` is of all that were found, on `pages` pages."""

    goods: tuple[Good, ...]
    count: int
    page: int
    pages: int
    terms: Terms


def goods_page(goods: Goods, item: str | None, text: str | None, page: int, per_page: int) -> Page:
    """A page of the goods that are an item and have some words in them.

    Parameters
    ----------
    goods : Goods
        The catalogue.
    item : str or None
        What they are in a bill; anything if None.
    text : str or None
        Words, each of which stands in stock number, name or range; small and capital letters are alike.
    page : int
        Which page, from 1.
    per_page : int
        Goods on a page.

    Returns
    -------
    Page
        The goods in the order of the catalogue; none beyond the last page.

    Raises
    ------
    UnknownName
        If the catalogue has no such item.

    Examples
    --------
    >>> sand = Good("S", "Sharp sand", "sharp_sand", "t", ())
    >>> goods_page(Goods([sand]), None, "SAND sharp", 1, 20).count
    1
    """
    words = (text or "").casefold().split()
    among = goods if item is None else goods.of_item(item, "item")
    found = [good for good in among if not words or _has(good, words)]
    first = (page - 1) * per_page
    pages = max(-(-len(found) // per_page), 1)
    return Page(tuple(found[first : first + per_page]), len(found), page, pages, goods.terms)


def _has(good: Good, words: list[str]) -> bool:
    said = f"{good.sku} {good.name} {good.range}".casefold()
    return all(word in said for word in words)
