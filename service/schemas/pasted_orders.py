"""Pasted orders: a table of text with loose headings, with commas, semicolons or tabs, taken apart line by line."""

import csv
import re
from collections.abc import Iterator
from typing import Any

from service.paving.errors import OutOfRange
from service.paving.ordering.order_lines import WrittenLine

MOST_LINES = 10_000

#: What a column may be headed, small letters and nothing but letters.
_HEADINGS = {
    "sku": "sku code itemcode stockcode stocknumber stockno productcode partnumber partno articlenumber articleno",
    "description": "description item product name material goods article details",
    "quantity": "quantity qty amount number count howmany no nr",
    "unit": "unit units uom per unitofmeasure measure pack packs packing",
}
_COLUMN_BY_HEADING = {word: column for column, words in _HEADINGS.items() for word in words.split()}
_FORM = "Head the columns: a stock number (sku) or a description, the quantity, and the unit."


def pasted_lines(text: str) -> tuple[WrittenLine, ...]:
    """The lines of a pasted order.

    Parameters
    ----------
    text : str
        A table: its first line that isn't empty names the columns, in any order and any common word.

    Returns
    -------
    tuple of WrittenLine
        A line of the order for each that isn't empty, numbered as in the text; what can't be taken
        apart, and a column that isn't read, says so.

    Raises
    ------
    OutOfRange
        If the headings can't be told, or there is nothing under them, or too much.
    """
    numbered = [(number, line) for number, line in enumerate(text.splitlines(), 1) if line.strip(" \t;,")]
    if not numbered:
        raise OutOfRange("The order is empty.")
    if len(numbered) - 1 > MOST_LINES:
        raise OutOfRange(f"The order has {len(numbered) - 1} lines; {MOST_LINES} is the most that is read.")
    (first, heading), *rest = numbered
    delimiter = _delimiter(heading)
    headings = _cells(heading, delimiter)
    columns = _columns(headings)
    if not rest:
        raise OutOfRange("The order is empty: there is no line under the headings.")
    return (*_passed_over(first, headings, columns), *(_line(n, line, columns, delimiter) for n, line in rest))


def _delimiter(heading: str) -> str:
    return next((mark for mark in "\t;" if mark in heading), ",")


def _cells(line: str, delimiter: str) -> list[str]:
    """The cells of one line.

    Raises
    ------
    OutOfRange
        If a quotation mark isn't closed.
    """
    try:
        (cells,) = csv.reader([line], delimiter=delimiter, strict=True)
    except csv.Error:
        raise OutOfRange("A quotation mark isn't closed, or stands inside a cell.") from None
    return [cell.strip() for cell in cells]


def _columns(headings: list[str]) -> list[str]:
    """What each column is; empty for one that isn't read.

    Raises
    ------
    OutOfRange
        If two columns are the same thing, or one that is needed isn't there.
    """
    columns = [_COLUMN_BY_HEADING.get(re.sub(r"[\W\d_]", "", heading.casefold()), "") for heading in headings]
    for column in filter(None, columns):
        if columns.count(column) > 1:
            same = ", ".join(f"'{h}'" for h, c in zip(headings, columns, strict=True) if c == column)
            raise OutOfRange(f"{same} may each be the {column}; leave one of them.")
    if "quantity" not in columns or not {"sku", "description"} & set(columns):
        raise OutOfRange(f"The first line doesn't name the columns. {_FORM}")
    return columns


def _passed_over(number: int, headings: list[str], columns: list[str]) -> Iterator[WrittenLine]:
    for heading, column in zip(headings, columns, strict=True):
        if heading and not column:
            wrong = f"The column '{heading}' isn't read."
            yield WrittenLine(number, description=heading, wrong=wrong, passed_over=True)


def _line(number: int, line: str, columns: list[str], delimiter: str) -> WrittenLine:
    try:
        cells = _cells(line, delimiter)
    except OutOfRange as error:
        return WrittenLine(number, description=line.strip(), wrong=error.detail)
    if any(cells[len(columns) :]):
        wrong = f"It has {len(cells)} cells under {len(columns)} headings: is a comma in one of them?"
        return WrittenLine(number, description=line.strip(), wrong=wrong)
    named: dict[str, Any] = {column: cell for column, cell in zip(columns, cells, strict=False) if column}
    return WrittenLine(number, **named)
