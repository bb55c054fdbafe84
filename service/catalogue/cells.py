"""Cells: what may stand in a cell of the catalogue, and the value it is read as.

Every reader takes the text of a cell, stripped and not empty, and gives its value or raises
`Unreadable` with a sentence that says how to mend it.
"""

import re
from collections.abc import Callable, Collection
from decimal import Decimal
from difflib import get_close_matches

from service.paving.errors import nearest_said, some_said

Reader = Callable[[str], object]

_NUMBER = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,9})?")
_DIGITS = re.compile(r"[0-9]+")
_COUNT = re.compile(r"[0-9]{1,9}")
_MONEY = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,6})?")
_DECIMAL_COMMA = re.compile(r"[0-9]+,[0-9]+")
_LONGEST_TEXT, _LONGEST_SKU = 120, 40
_GTIN_LENGTHS = (8, 12, 13, 14)
_YES_NO = {"yes": True, "no": False}


class Unreadable(Exception):
    """A cell that can't be read; the sentence says why."""


def text(cell: str) -> str:
    """Words, on one line."""
    if len(cell) > _LONGEST_TEXT:
        raise Unreadable(f"is {len(cell)} characters long; {_LONGEST_TEXT} are enough")
    return cell


def sku(cell: str) -> str:
    """A stock number."""
    if len(cell) > _LONGEST_SKU:
        raise Unreadable(f"is {len(cell)} characters long; a stock number has {_LONGEST_SKU} at most")
    if any(mark in cell for mark in ';,"'):
        raise Unreadable("holds a comma, semicolon or quotation mark; a stock number has none")
    return cell


def skus(cell: str) -> tuple[str, ...]:
    """Stock numbers with semicolons between them."""
    return tuple(sku(part.strip()) for part in cell.split(";") if part.strip())


def number(least: float, most: float) -> Reader:
    """A number within a range, both ends included."""

    def read(cell: str) -> float:
        value = float(_matched(_NUMBER, cell, "a number such as 0.85"))
        if not least <= value <= most:
            raise Unreadable(f"is {cell}; it must lie between {least:g} and {most:g}")
        return value

    return read


def millimetres(least: float, most: float) -> Reader:
    """A length in millimetres, read as metres; the range is in metres."""

    def read(cell: str) -> float:
        value = float(_matched(_NUMBER, cell, "millimetres as a number such as 600"))
        if not least <= value / 1000 <= most:
            raise Unreadable(f"is {cell} mm; it must lie between {1000 * least:g} and {1000 * most:g} mm{_slip(value)}")
        return value / 1000

    def _slip(value: float) -> str:
        for unit, factor in (("metres", 1000), ("centimetres", 10)):
            if value < 1000 * least and least <= value * factor / 1000 <= most:
                return f". It looks like {unit}: write {value * factor:g}"
        return ""

    return read


def count(least: int, most: int) -> Reader:
    """A whole number within a range, both ends included."""

    def read(cell: str) -> int:
        value = int(_matched(_COUNT, cell, "a whole number such as 12"))
        if not least <= value <= most:
            raise Unreadable(f"is {cell}; it must lie between {least} and {most}")
        return value

    return read


def money(cell: str) -> Decimal:
    """An amount of money above nothing."""
    value = Decimal(_matched(_MONEY, cell, "an amount such as 12.50, without a currency sign"))
    if not value:
        raise Unreadable("is 0; leave it empty where there is none, or it isn't known")
    return value


def percent(cell: str) -> Decimal:
    """A percentage, without its sign."""
    value = Decimal(_matched(_MONEY, cell, "a percentage such as 20, without the sign"))
    if value > 100:
        raise Unreadable(f"is {cell}; a rate is 100 at most")
    return value


def one_of(names: Collection[str]) -> Reader:
    """One of a list of names."""

    known = {name: name for name in names}

    def read(cell: str) -> str:
        if cell not in known:
            near = get_close_matches(cell, known, n=3, cutoff=0.5)
            raise Unreadable(f"'{cell}' isn't on the list; {nearest_said(near) if near else some_said(sorted(known))}")
        return known[cell]

    return read


def yes_no(cell: str) -> bool:
    """Yes or no."""
    if cell.lower() not in _YES_NO:
        raise Unreadable(f"is '{cell}'; write yes or no")
    return _YES_NO[cell.lower()]


def currency(cell: str) -> str:
    """Three capital letters."""
    return _matched(re.compile("[A-Z]{3}"), cell, "the three capital letters of ISO 4217, such as EUR")


def gtin(cell: str) -> str:
    """A Global Trade Item Number with its check digit.

    From the right, before the check digit, the digits weigh 3, 1, 3, 1 ...; the check digit
    makes the sum a multiple of ten (GS1 General Specifications, from memory).
    """
    if not _DIGITS.fullmatch(cell) or len(cell) not in _GTIN_LENGTHS:
        raise Unreadable(f"'{cell}' isn't 8, 12, 13 or 14 digits; format the column as text in a spreadsheet")
    weighed = sum(int(digit) * (3 if k % 2 else 1) for k, digit in enumerate(reversed(cell)))
    if weighed % 10:
        raise Unreadable(f"'{cell}' has a wrong check digit; compare it with the label")
    return cell


def _matched(pattern: re.Pattern[str], cell: str, wanted: str) -> str:
    if not pattern.fullmatch(cell):
        hint = "; the decimal sign is a point" if _DECIMAL_COMMA.fullmatch(cell) else ""
        raise Unreadable(f"'{cell}' isn't {wanted}{hint}")
    return cell
