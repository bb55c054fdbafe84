"""Columns of a catalogue: every file, every column, what it holds and how it is read.

This table is the catalogue's reference: the reader reads by it, and whoever prints the
documentation prints from it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from service.catalogue import cells
from service.paving.handling import slab_materials
from service.paving.ordering.items import item_units
from service.paving.ordering.terms import Prices, Rounding, TaxedBy
from service.paving.reference import table


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a file.

    Parameters
    ----------
    name : str
        Its heading.
    about : str
        What it holds, for the merchant's own hand.
    reads : callable
        Reads a cell that isn't empty.
    needed : bool
        Whether every row must have it.
    """

    name: str
    about: str
    reads: cells.Reader
    needed: bool = False


@dataclass(frozen=True)
class File:
    """One file of the catalogue.

    Parameters
    ----------
    name : str
        Its name in the folder.
    about : str
        What its rows are.
    columns : tuple of Column
        Its columns; the order in the file is free.
    needed : bool
        Whether the folder must have it.
    """

    name: str
    about: str
    columns: tuple[Column, ...]
    needed: bool = False

    @property
    def by_name(self) -> dict[str, Column]:
        """The columns by heading."""
        return {column.name: column for column in self.columns}

    @cached_property
    def needed_columns(self) -> tuple[str, ...]:
        """Headings of the columns that every row must have."""
        return tuple(column.name for column in self.columns if column.needed)


def _needed(name: str, about: str, reads: cells.Reader) -> Column:
    return Column(name, about, reads, needed=True)


def _side(limit: str) -> cells.Reader:
    bounds = table("limits")[limit]
    return cells.millimetres(bounds["least"], bounds["most"])


def _density() -> cells.Reader:
    bounds = table("limits")["density"]
    return cells.number(bounds["least"], bounds["most"])


_MASS, _LENGTH = cells.number(0.001, 100_000), cells.number(0.01, 1000)
_UNITS = tuple(dict.fromkeys(unit for units in item_units().values() for unit in units))
_NOTE = Column("note", "Anything you like; it isn't read.", str)

SETTINGS: Mapping[str, tuple[cells.Reader, str]] = {
    "title": (cells.text, "What the catalogue calls itself."),
    "note": (cells.text, "What to know of it, shown with it."),
    "currency": (cells.currency, "Currency of every price, three letters of ISO 4217. Needed where there are prices."),
    "places": (cells.count(0, 4), "Decimal places of an amount on an order; 2 unless said."),
    "prices": (cells.one_of([*Prices]), "Whether prices are 'before tax' (unless said) or 'with tax'."),
    "rounding": (cells.one_of([*Rounding]), "How a line's price is rounded: 'half up' unless said."),
    "tax_rounding": (
        cells.one_of([*Rounding]),
        "How an amount of tax is rounded: 'half up' unless said. By HMRC's VATREC12010 'down' is for whole orders.",
    ),
    "taxed_by": (cells.one_of([*TaxedBy]), "Tax worked and rounded on each 'line', or on the 'order' (unless said)."),
}

CATALOGUE = File(
    "catalogue.csv",
    "Settings of the whole catalogue, one a row.",
    (
        _needed("setting", "Which: " + ", ".join(SETTINGS) + ".", cells.text),
        _needed("value", "Its value.", cells.text),
        _NOTE,
    ),
)

TAXES = File(
    "taxes.csv",
    "Rates of tax, one a row.",
    (
        _needed("code", "What goods refer to it by.", cells.sku),
        _needed("name", "What it is called on an order.", cells.text),
        _needed("percent", "Rate in per cent, such as 20 or 5.5.", cells.percent),
        _NOTE,
    ),
)

GOODS = File(
    "goods.csv",
    "Goods, one a row. Of several goods for one item the first that can be sold in the quantity needed is taken.",
    (
        _needed("sku", "Your stock number; no two goods or packs share one.", cells.sku),
        _needed("name", "What you call it.", cells.text),
        _needed(
            "item",
            "What it is in a bill: slab, edging, cement, membrane, or the key of a material such as type_1.",
            cells.one_of(item_units()),
        ),
        _needed("unit", "What its packs are measured in: t, kg, m3, l, m2, m or each.", cells.one_of(_UNITS)),
        Column("mass_kg", "Mass of one unit; empty for goods sold by mass and for slabs with made_of.", _MASS),
        Column("loose_density_kg_m3", "Density as delivered, where you know better than the reference.", _density()),
        Column("compacted_density_kg_m3", "Density in place, where you know better than the reference.", _density()),
        Column("range", "Family of slabs it belongs to.", cells.text),
        Column(
            "made_of", "What slabs are made of: " + ", ".join(slab_materials()) + ".", cells.one_of(slab_materials())
        ),
        Column(
            "made_edges",
            "yes where a slab's own edges differ from sawn ones and belong outside; no unless said.",
            cells.yes_no,
        ),
        Column("tax", "Code of its tax in taxes.csv.", cells.sku),
        Column("gtin", "Global Trade Item Number, digits only.", cells.gtin),
        Column(
            "lead_days",
            "Working days until it can be had; 0 from stock, empty where you don't know.",
            cells.count(0, 365),
        ),
        Column("substitutes", "Stock numbers of goods that may stand in for it, with semicolons between.", cells.skus),
        _NOTE,
    ),
    needed=True,
)

SLABS = File(
    "slabs.csv",
    "Sizes of slabs and edgings: one row for a good of one size, one for each size of a mixed pack. A mixed pack is "
    "bought where just its sizes are laid together and one of them isn't sold by itself.",
    (
        _needed("good", "Stock number of the good.", cells.sku),
        Column("name", "What the size is called; the good's name unless said.", cells.text),
        _needed("length_mm", "Length in millimetres, without joint.", _side("slab_side")),
        _needed("width_mm", "Width in millimetres, without joint.", _side("slab_side")),
        _needed("thickness_mm", "Thickness in millimetres; of a kerb its height.", _side("slab_thickness")),
        Column(
            "pieces", "Pieces of this size in a mixed pack; only for a good of several sizes.", cells.count(1, 10_000)
        ),
        _NOTE,
    ),
)

PACKS = File(
    "packs.csv",
    "Packs, one a row: every way each good is sold, at least one.",
    (
        _needed("good", "Stock number of the good.", cells.sku),
        _needed("name", "What the counter calls it: 25 kg bag, bulk bag, loose by the half tonne, crate.", cells.text),
        _needed(
            "content",
            "What is in it, in the good's unit: 0.85 for a bulk bag of a good sold by t.",
            cells.number(0.001, 100_000),
        ),
        Column("sku", "Its own stock number; the good's unless said.", cells.sku),
        Column(
            "least",
            "Fewest sold in one order: the least order of a loose load. Any number unless said.",
            cells.count(1, 1_000_000),
        ),
        Column("step", "Sold by so many at a time, counted from least; 1 unless said.", cells.count(1, 1_000_000)),
        Column(
            "most",
            "Most sold in one order: keeps small bags to topping up. No limit unless said.",
            cells.count(1, 1_000_000),
        ),
        Column(
            "price",
            "Price of one pack, before tax or with tax as catalogue.csv says; empty where it isn't known.",
            cells.money,
        ),
        Column("deposit", "Returnable deposit on one pack (pallet, bag), untaxed.", cells.money),
        Column("mass_kg", "Mass of one pack as delivered, with its pallet; its content's unless said.", _MASS),
        Column(
            "per_pallet",
            "How many fill one pallet place: 1 for a crate or bulk bag; empty for a tipped load.",
            cells.count(1, 100_000),
        ),
        Column("roll_length_m", "Length of a roll in metres.", _LENGTH),
        Column("roll_width_m", "Width of a roll in metres.", _LENGTH),
        Column("gtin", "Global Trade Item Number of the pack, digits only.", cells.gtin),
        _NOTE,
    ),
    needed=True,
)

VEHICLES = File(
    "vehicles.csv",
    "Vehicles that deliver, one a row, the one sent first before others.",
    (
        _needed("name", "What the yard calls it.", cells.text),
        _needed("payload_kg", "Greatest load.", cells.number(1, 100_000)),
        Column("pallets", "Pallet places; empty when it only tips.", cells.count(1, 1000)),
        Column("tips", "yes when it carries loose loads; no unless said.", cells.yes_no),
        Column(
            "lift_kg",
            "Greatest mass its tail lift or crane sets down at once; empty without a limit.",
            cells.number(1, 100_000),
        ),
        _NOTE,
    ),
)

FILES = (CATALOGUE, TAXES, GOODS, SLABS, PACKS, VEHICLES)
