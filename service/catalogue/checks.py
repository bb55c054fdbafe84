"""Checks of a catalogue across its rows and files."""

from bisect import bisect_left
from collections.abc import Iterator
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from service.catalogue.books import Book
from service.catalogue.columns import FILES, GOODS, PACKS, SLABS, TAXES, VEHICLES, File
from service.catalogue.faults import Fault
from service.catalogue.goods_checks import good_faults, tax_faults
from service.catalogue.packs_checks import pack_faults, row_faults
from service.paving.errors import nearest_said

#: Stock numbers looked at on either side of one that isn't there.
_AROUND = 4


def cross_faults(book: Book, given: dict[str, Any]) -> Iterator[Fault]:
    """What is wrong between the rows and files of a catalogue whose rows could be read."""
    yield from _twice(TAXES, "code", book)
    yield from _twice(VEHICLES, "name", book)
    yield from _twice(GOODS, "sku", book)
    yield from _strays(SLABS, book)
    yield from _strays(PACKS, book)
    yield from _shared_stock_numbers(book)
    for row in book.goods.values():
        yield from good_faults(book, row)
        yield from pack_faults(book, row)
    for row in book.tables[GOODS.name].rows:
        yield from tax_faults(book, row)
    for row in book.tables[PACKS.name].rows:
        yield from row_faults(row, given)
    yield from _substitute_faults(book)


def stray_files(folder: Path) -> Iterator[Fault]:
    """Tables in the folder that no catalogue has: a misspelt name would be passed over in silence."""
    names = [file.name for file in FILES]
    for path in sorted(folder.glob("*.csv")):
        if path.name not in names:
            yield Fault(path.name, 0, "", f"isn't a file of a catalogue; there are {', '.join(names)}")


def _twice(file: File, column: str, book: Book) -> Iterator[Fault]:
    first: dict[str, int] = {}
    for row in book.tables[file.name].rows:
        name = row.values.get(column)
        if name is not None and first.setdefault(name, row.number) != row.number:
            yield Fault(file.name, row.number, column, f"'{name}' stands in row {first[name]} already")


def _strays(file: File, book: Book) -> Iterator[Fault]:
    for row in book.tables[file.name].rows:
        sku = row.values.get("good")
        if sku is not None and sku not in book.skus:
            yield Fault(file.name, row.number, "good", f"'{sku}' isn't in {GOODS.name}{_near(sku, book)}")


def _shared_stock_numbers(book: Book) -> Iterator[Fault]:
    first: dict[str, int] = {}
    for row in book.rows(PACKS):
        good = row.values["good"]
        sku = row.values.get("sku", good)
        if sku != good and sku in book.skus:
            yield Fault(PACKS.name, row.number, "sku", f"'{sku}' is a good's stock number in {GOODS.name}")
        elif first.setdefault(sku, row.number) != row.number:
            mend = "" if "sku" in row.values else "; a good with several packs needs a stock number for each"
            yield Fault(PACKS.name, row.number, "sku", f"'{sku}' is the pack's in row {first[sku]} already{mend}")


def _substitute_faults(book: Book) -> Iterator[Fault]:
    rows = book.goods
    for row in book.tables[GOODS.name].rows:
        for sku in row.values.get("substitutes", ()):
            if sku == row.values.get("sku"):
                yield Fault(GOODS.name, row.number, "substitutes", f"'{sku}' can't stand in for itself")
            elif sku not in book.skus:
                yield Fault(GOODS.name, row.number, "substitutes", f"'{sku}' isn't in the file{_near(sku, book)}")
            elif sku in rows and row.values.get("item", rows[sku].values["item"]) != rows[sku].values["item"]:
                item = rows[sku].values["item"]
                yield Fault(GOODS.name, row.number, "substitutes", f"'{sku}' is {item}, not {row.values['item']}")


def _near(sku: str, book: Book) -> str:
    """The nearest of the stock numbers on either side in the alphabet: comparing all of them would take minutes."""
    place = bisect_left(book.sorted_skus, sku)
    near = get_close_matches(sku, book.sorted_skus[max(place - _AROUND, 0) : place + _AROUND], n=2)
    return f"; {nearest_said(near)}" if near else ""
