"""Tables: one file of the catalogue, read row by row by its columns."""

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from service.catalogue.cells import Unreadable
from service.catalogue.columns import Column, File
from service.catalogue.faults import Fault
from service.paving.errors import nearest_said

#: Largest file that is opened [bytes]: a hundred thousand long rows.
LARGEST_FILE = 32_000_000
#: Different texts of a column whose values are kept at hand.
_REMEMBERED = 500
#: How a cell begins that a spreadsheet would take for a formula, in any width of sign.
_FORMULA = "=+-@\uff1d\uff0b\uff0d\uff20\u2212"
_UTF16 = (b"\xff\xfe", b"\xfe\xff")


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its number as a spreadsheet counts it, and its values by heading.

    A cell that is empty or can't be read has no value; `whole` says that every needed one has.
    """

    number: int
    values: dict[str, Any]
    whole: bool


@dataclass(slots=True)
class Table:
    """The rows of one file, and what is wrong with it.

    `sound` says that its rows could be taken apart: if not, what they say of each other and
    of other files means nothing.
    """

    file: File
    rows: list[Row] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    sound: bool = True

    def fault(self, row: int, column: str, what: str) -> None:
        """Note a fault."""
        self.faults.append(Fault(self.file.name, row, column, what))

    def break_off(self, row: int, column: str, what: str) -> None:
        """Note a fault that leaves the file unsound."""
        self.sound = False
        self.fault(row, column, what)


class _ReadColumn:
    """A column that reads each different text once: most cells of a column repeat another."""

    def __init__(self, column: Column) -> None:
        self.name = column.name
        self._reads = column.reads
        self._read: dict[str, Any] = {}

    def value(self, cell: str) -> object:
        """The value of a cell that isn't empty."""
        value = self._read.get(cell)
        if value is None:
            _refuse_trap(cell)
            value = self._reads(cell)
            if len(self._read) < _REMEMBERED:
                self._read[cell] = value
        return value


def read_table(folder: Path, file: File) -> Table:
    """A file of a catalogue's folder, with every fault of its own."""
    table = Table(file)
    path = folder / file.name
    if not path.is_file():
        if file.needed:
            table.break_off(0, "", "is missing from the folder")
        return table
    content = _content(table, path)
    if content:
        _read_rows(table, content)
    elif table.sound:
        table.break_off(0, "", "is empty; its first row holds the headings")
    return table


def _content(table: Table, path: Path) -> str:
    size = path.stat().st_size
    if size > LARGEST_FILE:
        table.break_off(0, "", f"is {size / 1e6:.0f} MB; {LARGEST_FILE / 1e6:.0f} MB is the most that is read")
        return ""
    raw = path.read_bytes()
    if raw.startswith(_UTF16):
        table.break_off(0, "", "is UTF-16; save it as 'CSV UTF-8'")
        return ""
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        row = raw.count(b"\n", 0, error.start) + 1
        table.break_off(row, "", f"byte {raw[error.start]:#04x} isn't UTF-8; save the file as 'CSV UTF-8'")
        return ""


def _read_rows(table: Table, content: str) -> None:
    lines = csv.reader(io.StringIO(content, newline=""), strict=True)
    numbered = enumerate(_lines(table, lines), start=1)
    _, headings = next(numbered, (1, []))
    columns = _columns(table, headings)
    if columns is None:
        return
    for number, cells in numbered:
        if any(cells):
            table.rows.append(_row(table, columns, number, cells))


def _lines(table: Table, lines: Iterator[list[str]]) -> Iterator[list[str]]:
    """The lines, up to the first that can't be taken apart: after it nothing is certain."""
    number = 0
    try:
        for cells in lines:
            number += 1
            yield cells
    except csv.Error as error:
        table.break_off(number + 1, "", f"can't be taken apart into cells ({error}); look for a stray quotation mark")


def _columns(table: Table, headings: list[str]) -> list[_ReadColumn] | None:
    """The column each heading stands for; None when the headings are wrong."""
    headings = [heading.strip() for heading in headings]
    while headings and not headings[-1]:
        headings.pop()
    known = table.file.by_name
    if len(headings) == 1 and ";" in headings[0]:
        table.break_off(1, "", "has semicolons between its cells; save it with commas and decimal points")
        return None
    for k, heading in enumerate(headings):
        if heading not in known:
            near = get_close_matches(heading, known, n=3, cutoff=0.5)
            said = nearest_said(near) if near else f"there are {', '.join(known)}"
            table.break_off(1, heading, f"isn't a column of this file; {said}")
        elif heading in headings[:k]:
            table.break_off(1, heading, "stands twice")
    for column in table.file.columns:
        if column.needed and column.name not in headings:
            table.break_off(1, column.name, "is missing")
    return [_ReadColumn(known[heading]) for heading in headings] if table.sound else None


def _row(table: Table, columns: list[_ReadColumn], number: int, cells: list[str]) -> Row:
    values: dict[str, Any] = {}
    unread: list[str] = []
    for column, cell in zip(columns, cells, strict=False):
        cleaned = cell.strip()
        if not cleaned:
            continue
        try:
            values[column.name] = column.value(cleaned)
        except Unreadable as error:
            table.fault(number, column.name, str(error))
            unread.append(column.name)
    if len(cells) > len(columns) and any(map(str.strip, cells[len(columns) :])):
        table.fault(number, "", f"has {len(cells)} cells, and there are {len(columns)} headings")
    missing = [name for name in table.file.needed_columns if name not in values]
    for name in missing:
        if name not in unread:
            table.fault(number, name, "is empty")
    return Row(number, values, whole=not missing)


def _refuse_trap(cell: str) -> None:
    """Refuse what a spreadsheet would run, and what the eye can't see."""
    if cell[0] in _FORMULA:
        raise Unreadable(f"begins with '{cell[0]}', as a formula does; begin with a letter or digit")
    if not cell.isprintable():
        hidden = next(mark for mark in cell if not mark.isprintable())
        raise Unreadable(f"holds a character that can't be seen (U+{ord(hidden):04X}); type the cell anew")
