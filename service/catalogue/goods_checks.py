"""Checks of one good: its unit, its tax, its sizes and what a piece of it weighs."""

from collections.abc import Iterator

from service.catalogue.books import Book, sizes, unit_volume
from service.catalogue.columns import GOODS, SLABS, TAXES
from service.catalogue.faults import Fault
from service.catalogue.tables import Row
from service.paving.handling import slab_density, slab_materials
from service.paving.ordering.items import item_units

#: Items that are pieces of a size.
_SIZED = ("slab", "edging")
#: How far beyond the densities of the reference a merchant's slab may be.
_LEEWAY = 2.0


def good_faults(book: Book, row: Row) -> Iterator[Fault]:
    """What is wrong with a good beside its packs."""
    values = row.values
    units = item_units()[values["item"]]
    if values["unit"] not in units:
        yield _fault(row, "unit", f"{values['item']} isn't sold by {values['unit']}; use {' or '.join(units)}")
    yield from _sized_faults(book, row) if values["item"] in _SIZED else _sizeless_faults(book, row)


def tax_faults(book: Book, row: Row) -> Iterator[Fault]:
    """What is wrong with a good's tax, whatever else is wrong with the good."""
    tax = row.values.get("tax")
    if tax is not None and tax not in book.tax_codes:
        yield _fault(row, "tax", f"'{tax}' isn't a code in {TAXES.name}")


def _sizeless_faults(book: Book, row: Row) -> Iterator[Fault]:
    item = row.values["item"]
    for size in book.sizes_by_good.get(row.values["sku"], []):
        yield Fault(SLABS.name, size.number, "good", f"'{row.values['sku']}' is {item}, which has no sizes")
    for column in ("made_of", "made_edges"):
        if column in row.values:
            yield _fault(row, column, f"is for slabs and edgings, and this is {item}; leave it empty")


def _sized_faults(book: Book, row: Row) -> Iterator[Fault]:
    rows = book.sizes_by_good.get(row.values["sku"], [])
    if len(rows) > 1:
        yield from _mixed_faults(row, rows)
    elif rows:
        yield from _mass_faults(row, rows)
    elif row.values["sku"] not in book.goods_with_sizes:
        yield _fault(row, "sku", f"'{row.values['sku']}' has no size in {SLABS.name}")


def _mixed_faults(row: Row, rows: list[Row]) -> Iterator[Fault]:
    if row.values["unit"] != "m2":
        yield _fault(row, "unit", f"is {row.values['unit']}; a pack of several sizes is sold by m2")
    for size in rows:
        if "pieces" not in size.values:
            yield Fault(SLABS.name, size.number, "pieces", "is empty; say how many of this size a mixed pack holds")
    yield from _mass_faults(row, rows)


def _mass_faults(row: Row, rows: list[Row]) -> Iterator[Fault]:
    """A mass that no slab has: that of a pack taken for a slab's, or grams for kilograms."""
    mass = row.values.get("mass_kg")
    if mass is None:
        return
    density = mass / unit_volume(row.values["unit"], sizes(row.values, rows))
    known = [slab_density(made_of) for made_of in slab_materials()]
    least, most = min(d.low for d in known) / _LEEWAY, max(d.high for d in known) * _LEEWAY
    if not least <= density <= most:
        yield _fault(
            row,
            "mass_kg",
            f"is {mass:g}, which makes {density:.0f} kg/m3; slabs have {least:.0f} to {most:.0f}. "
            f"It is the mass of one {row.values['unit']}",
        )


def _fault(row: Row, column: str, what: str) -> Fault:
    return Fault(GOODS.name, row.number, column, what)
