"""Checks of the packs a good is sold in."""

from collections.abc import Iterator
from typing import Any

from service.catalogue.books import Book, sizes, unit_mass
from service.catalogue.columns import CATALOGUE, GOODS, PACKS
from service.catalogue.faults import Fault
from service.catalogue.tables import Row
from service.paving.ordering.items import item_units
from service.paving.ordering.quantities import MASS_UNITS

#: How far a roll may be from its sides, and a pack lighter than its content.
_SLACK = 0.05
#: How much of a mixed pack's area the joints may be.
_JOINTS = 0.15


def row_faults(row: Row, given: dict[str, Any]) -> Iterator[Fault]:
    """What is wrong with a pack by itself, whatever is wrong with its good."""
    yield from _count_faults(row)
    yield from _money_faults(row, given)


def pack_faults(book: Book, good: Row) -> Iterator[Fault]:
    """What is wrong with the packs of a good."""
    rows = book.packs_by_good.get(good.values["sku"], [])
    if not rows and good.values["sku"] not in book.goods_with_packs:
        yield Fault(GOODS.name, good.number, "sku", f"'{good.values['sku']}' has no pack in {PACKS.name}")
    for row in rows:
        if good.values["unit"] in item_units()[good.values["item"]]:
            yield from _content_faults(row, good.values["unit"])
        if "mass_kg" in row.values:
            yield from _mass_faults(row, _mass(book, good))
    yield from _mixed_faults(rows, book.sizes_by_good.get(good.values["sku"], []))


def _mass(book: Book, good: Row) -> float | None:
    unit = good.values["unit"]
    if unit in MASS_UNITS:
        return MASS_UNITS[unit]
    rows = book.sizes_by_good.get(good.values["sku"], [])
    return unit_mass(good.values, sizes(good.values, rows))


def _count_faults(row: Row) -> Iterator[Fault]:
    least, most = row.values.get("least", row.values.get("step", 1)), row.values.get("most")
    if most is not None and most < least:
        yield _fault(row, "most", f"is {most}, below the fewest sold, {least}: the pack could never be bought")


def _content_faults(row: Row, unit: str) -> Iterator[Fault]:
    content = row.values["content"]
    if unit == "each" and not content.is_integer():
        yield _fault(row, "content", f"is {content:g}; goods sold by each come in whole numbers")
    length, width = row.values.get("roll_length_m"), row.values.get("roll_width_m")
    if length is None or width is None:
        if length is not None or width is not None:
            missing = "roll_width_m" if width is None else "roll_length_m"
            yield _fault(row, missing, "is empty; a roll has both sides or none")
    elif unit == "m2" and abs(length * width - content) > _SLACK * content:
        yield _fault(row, "content", f"is {content:g} m2, and the roll's sides make {length * width:g}")


def _mass_faults(row: Row, mass: float | None) -> Iterator[Fault]:
    if mass is not None and row.values["mass_kg"] < (1 - _SLACK) * mass * row.values["content"]:
        content = mass * row.values["content"]
        yield _fault(row, "mass_kg", f"is {row.values['mass_kg']:g}, and its content weighs {content:g} kg")


def _mixed_faults(rows: list[Row], sizes: list[Row]) -> Iterator[Fault]:
    """A mixed pack that doesn't hold what its pieces make, joints aside."""
    if len(sizes) < 2 or any("pieces" not in row.values for row in sizes):
        return
    area = sum(row.values["pieces"] * row.values["length_mm"] * row.values["width_mm"] for row in sizes)
    for row in rows:
        if not (1 - _SLACK) * area <= row.values["content"] <= (1 + _JOINTS) * area:
            yield _fault(row, "content", f"is {row.values['content']:g} m2, and the pieces make {area:.4g}")


def _money_faults(row: Row, given: dict[str, Any]) -> Iterator[Fault]:
    for column in ("price", "deposit"):
        if column in row.values and "currency" not in given:
            yield _fault(row, column, f"is {row.values[column]}, and {CATALOGUE.name} names no currency")


def _fault(row: Row, column: str, what: str) -> Fault:
    return Fault(PACKS.name, row.number, column, what)
