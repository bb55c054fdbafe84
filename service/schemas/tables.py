"""Answers as tables (RFC 4180) and as XML without a namespace."""

import csv
import io
from typing import Any
from xml.etree import ElementTree

from service.schemas.grammar import decimal

#: The column of packs in a table that has one.
_PACKS = {"bill": "packs", "lines": "mend"}


def figure_text(number: float | None) -> str:
    """One figure alone; nothing where there is none."""
    return "" if number is None else decimal(number)


def csv_text(answer: dict[str, Any], table: str) -> str:
    """The rows named by `table`, or one row of the answer's single figures; what to buy stands in one cell."""
    rows = answer[table] if table else [answer]
    packs = _PACKS.get(table)
    first = rows[0] if rows else {}
    columns = [key for key, value in first.items() if key == packs or not isinstance(value, dict | list)]
    columns = [key for key in columns if key != "given"]
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows([_cell(row[column]) for column in columns] for row in rows)
    return text.getvalue()


def _cell(value: Any) -> Any:
    if isinstance(value, list):
        return _cell("; ".join(f"{bought['count']} x {bought['pack']}" for bought in value))
    if value is None or isinstance(value, float):
        return "" if value is None else decimal(value)
    # A spreadsheet would take such a text for a formula; a leading apostrophe makes it text again.
    return f"'{value}" if isinstance(value, str) and value[:1] in "=+-@\t\r" and value else value


def xml_text(noun: str, answer: dict[str, Any]) -> str:
    """The whole answer, an element a key; the entries of a list are `entry` elements."""
    root = ElementTree.Element(noun)
    _fill(root, answer)
    return ElementTree.tostring(root, encoding="unicode", xml_declaration=False)


def _fill(element: ElementTree.Element, value: Any) -> None:
    if isinstance(value, dict):
        for key, inner in value.items():
            _fill(ElementTree.SubElement(element, key), inner)
    elif isinstance(value, list):
        for inner in value:
            _fill(ElementTree.SubElement(element, "entry"), inner)
    elif value is not None:
        element.text = _text(value)


def _text(value: Any) -> str:
    # No exponent: XPath's number() doesn't read one.
    return decimal(value) if isinstance(value, float) else str(value).lower() if isinstance(value, bool) else str(value)
