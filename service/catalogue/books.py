"""Books: the tables of one catalogue side by side, and the goods made of them."""

from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal
from functools import cache, cached_property
from pathlib import Path
from typing import Any

from service.catalogue.cells import Unreadable
from service.catalogue.columns import FILES, GOODS, PACKS, SETTINGS, SLABS, TAXES, VEHICLES, File
from service.catalogue.tables import Row, Table, read_table
from service.paving.handling import slab_density
from service.paving.ordering.goods import Good, Goods, Pack
from service.paving.ordering.terms import Prices, Rounding, Tax, TaxedBy, Terms, Vehicle
from service.paving.slabs import Slab


@dataclass(frozen=True)
class Book:
    """The tables of one catalogue by the name of their file."""

    tables: dict[str, Table]

    def rows(self, file: File) -> list[Row]:
        """Rows of a file whose needed cells could all be read."""
        return [row for row in self.tables[file.name].rows if row.whole]

    @cached_property
    def goods(self) -> dict[str, Row]:
        """Rows of goods by stock number; of two with one number the first."""
        return {row.values["sku"]: row for row in reversed(self.rows(GOODS))}

    @cached_property
    def packs_by_good(self) -> dict[str, list[Row]]:
        """Rows of packs by the good they hold."""
        return _by_good(self.rows(PACKS))

    @cached_property
    def sizes_by_good(self) -> dict[str, list[Row]]:
        """Rows of sizes by the good they are of."""
        return _by_good(self.rows(SLABS))

    @cached_property
    def goods_with_packs(self) -> set[str]:
        """Goods that packs are given for, faulty ones too."""
        return {row.values["good"] for row in self.tables[PACKS.name].rows if "good" in row.values}

    @cached_property
    def goods_with_sizes(self) -> set[str]:
        """Goods that sizes are given for, faulty ones too."""
        return {row.values["good"] for row in self.tables[SLABS.name].rows if "good" in row.values}

    @cached_property
    def skus(self) -> set[str]:
        """Stock numbers of goods, faulty ones too."""
        return {row.values["sku"] for row in self.tables[GOODS.name].rows if "sku" in row.values}

    @cached_property
    def sorted_skus(self) -> list[str]:
        """Stock numbers of goods in the order of the alphabet."""
        return sorted(self.skus)

    @cached_property
    def tax_codes(self) -> set[str]:
        """Codes of taxes, faulty ones too."""
        return {row.values["code"] for row in self.tables[TAXES.name].rows if "code" in row.values}


def read_book(folder: Path) -> Book:
    """Read every file of a catalogue."""
    return Book({file.name: read_table(folder, file) for file in FILES})


def settings(table: Table) -> dict[str, Any]:
    """The settings of a catalogue; what is wrong with them is noted in the table."""
    found: dict[str, Any] = {}
    for row in table.rows:
        name, value = row.values.get("setting", ""), row.values.get("value")
        if not name:
            continue
        if name not in SETTINGS:
            table.fault(row.number, "setting", f"'{name}' isn't a setting; there are {', '.join(SETTINGS)}")
        elif name in found:
            table.fault(row.number, "setting", f"'{name}' stands twice")
        elif value is not None:
            found[name] = _setting(table, row, name, value)
    return {name: value for name, value in found.items() if value is not None}


def goods_of(book: Book, given: dict[str, Any]) -> Goods:
    """The goods of a book without faults, and the settings given in it."""
    return Goods((_good(book, row.values) for row in book.rows(GOODS)), _terms(book, given))


def sizes(good: dict[str, Any], rows: list[Row]) -> tuple[Slab, ...]:
    """The sizes of a good, with their shares of the area when there are several."""
    made_of = {"made_of": good["made_of"]} if "made_of" in good else {}
    pieces = [row.values.get("pieces", 1) * row.values["length_mm"] * row.values["width_mm"] for row in rows]
    mixed = len(rows) > 1
    return tuple(
        Slab(
            name=row.values.get("name", good["name"]),
            length=row.values["length_mm"],
            width=row.values["width_mm"],
            thickness=row.values["thickness_mm"],
            share=piece / sum(pieces) if mixed else None,
            **made_of,
        )
        for row, piece in zip(rows, pieces, strict=True)
    )


def unit_volume(unit: str, slabs: tuple[Slab, ...]) -> float:
    """Solid volume of one unit of slabs [m3]."""
    if unit == "m2":
        return sum((slab.share or 1.0) * slab.thickness for slab in slabs)
    length = 1.0 if unit == "m" else slabs[0].length
    return length * slabs[0].width * slabs[0].thickness


def unit_mass(values: dict[str, Any], slabs: tuple[Slab, ...]) -> float | None:
    """Mass of one unit of a good, given or of what its slabs are made of [kg]; None where it can't be known."""
    mass: float | None = values.get("mass_kg")
    if mass is None and slabs and "made_of" in values:
        return unit_volume(values["unit"], slabs) * _density(values["made_of"])
    return mass


def _by_good(rows: list[Row]) -> dict[str, list[Row]]:
    found: dict[str, list[Row]] = defaultdict(list)
    for row in rows:
        found[row.values["good"]].append(row)
    return found


def _setting(table: Table, row: Row, name: str, value: str) -> object:
    try:
        return SETTINGS[name][0](value)
    except Unreadable as error:
        table.fault(row.number, "value", str(error))
        return None


def _good(book: Book, values: dict[str, Any]) -> Good:
    rows = book.sizes_by_good.get(values["sku"], [])
    slabs = sizes(values, rows)
    return Good(
        sku=values["sku"],
        name=values["name"],
        item=values["item"],
        unit=values["unit"],
        packs=tuple(_pack(row.values) for row in book.packs_by_good[values["sku"]]),
        mass=unit_mass(values, slabs),
        slabs=slabs,
        pieces=tuple([row.values["pieces"] for row in rows]) if len(rows) > 1 else (),
        made_of=values.get("made_of", ""),
        made_edges=values.get("made_edges", False),
        loose_density=values.get("loose_density_kg_m3"),
        compacted_density=values.get("compacted_density_kg_m3"),
        range=values.get("range", ""),
        tax=values.get("tax", ""),
        gtin=values.get("gtin", ""),
        lead=values.get("lead_days"),
        substitutes=values.get("substitutes", ()),
    )


def _pack(values: dict[str, Any]) -> Pack:
    return Pack(
        name=values["name"],
        content=values["content"],
        sku=values.get("sku", values["good"]),
        least=values.get("least", 0),
        step=values.get("step", 1),
        most=values.get("most"),
        price=values.get("price"),
        deposit=values.get("deposit"),
        mass=values.get("mass_kg"),
        per_pallet=values.get("per_pallet"),
        length=values.get("roll_length_m"),
        width=values.get("roll_width_m"),
        gtin=values.get("gtin", ""),
    )


def _terms(book: Book, given: dict[str, Any]) -> Terms:
    plain = {name: given[name] for name in ("title", "note", "currency", "places") if name in given}
    return Terms(
        **plain,
        prices=Prices(given.get("prices", Prices.BEFORE_TAX)),
        rounding=Rounding(given.get("rounding", Rounding.HALF_UP)),
        tax_rounding=Rounding(given.get("tax_rounding", Rounding.HALF_UP)),
        taxed_by=TaxedBy(given.get("taxed_by", TaxedBy.ORDER)),
        taxes={row.values["code"]: _tax(row.values) for row in book.rows(TAXES)},
        vehicles=tuple(_vehicle(row.values) for row in book.rows(VEHICLES)),
    )


def _tax(values: dict[str, Any]) -> Tax:
    percent: Decimal = values["percent"]
    return Tax(values["code"], values["name"], percent)


def _vehicle(values: dict[str, Any]) -> Vehicle:
    return Vehicle(
        name=values["name"],
        payload=values["payload_kg"],
        pallets=values.get("pallets", 0),
        tips=values.get("tips", False),
        lift=values.get("lift_kg"),
    )


@cache
def _density(made_of: str) -> float:
    return slab_density(made_of).value
