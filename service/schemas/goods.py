"""The wire of goods: the catalogue as it is shown, and goods that a request brings along."""

from decimal import Decimal
from typing import Any

from marshmallow import ValidationError

from service.paving.errors import OutOfRange, refuse_unknown, within
from service.paving.handling import slab_density, slab_mass, slab_materials
from service.paving.ordering.goods import Good, Pack
from service.paving.ordering.items import item_units
from service.paving.ordering.terms import Tax
from service.paving.slabs import Slab
from service.schemas.answers import Answer
from service.schemas.errors import Impossible
from service.schemas.fields import Choice, Count, Key, Name, Number, Quantity, Text
from service.schemas.figures import Figure, Figures, Money, Rows, Tally, Truth, Word
from service.schemas.nested import Object, Objects
from service.schemas.ordering import Share, Words
from service.schemas.quantities import LENGTH, MASS
from service.schemas.requests import Request

MOST_GOODS, MOST_PACKS, MOST_SUBSTITUTES = 100, 20, 20
_UNITS = tuple(dict.fromkeys(unit for units in item_units().values() for unit in units))
_SIZED = ("slab", "edging")


class Sku(Text):
    """A stock number."""

    PATTERN = "[A-Za-z0-9][A-Za-z0-9 ._/#+-]{0,39}"

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(self.PATTERN, "a stock number of letters, figures and . _ / # + -, not above 40", **kwargs)


class Amount(Text):
    """An amount of money as decimal text, above nothing."""

    def __init__(self, **kwargs: Any) -> None:
        form = "an amount such as '12.50', without a currency sign"
        super().__init__(r"(?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,6})?", form, **kwargs)

    def read(self, value: Any) -> Decimal:
        amount = Decimal(super().read(value))
        if not amount:
            raise ValidationError(Impossible("Leave a price out where there is none."))
        return amount

    def shown(self, value: Decimal) -> str:
        return str(value)


class OfferedPack(Request):
    """One way a good is sold."""

    name = Name(required=True, description="What the counter calls it.", example="bulk bag")
    sku = Sku(description="Its own stock number; the good's if left out.")
    content = Number(0.001, 100_000, required=True, description="What is in it, in the good's `unit`.")
    least = Count(1, 1_000_000, description="Fewest sold in one order.")
    step = Count(1, 1_000_000, default=1, description="Sold by so many at a time.")
    most = Count(1, 1_000_000, description="Most sold in one order.")
    price = Amount(description="Of one, before or with tax as the catalogue's prices are.", example="61.25")
    deposit = Amount(description="Returnable, on one.", example="5.00")
    mass = Quantity(MASS, "good_mass", description="Of one as delivered; else its content's.", example="870 kg")
    per_pallet = Count(1, 100_000, description="How many fill a pallet place; left out for a tipped load.")


class OfferedSlab(Request):
    """Size of a slab or edging that is sold."""

    length = Quantity(LENGTH, "slab_side", required=True, description="Length.", example="600 mm")
    width = Quantity(LENGTH, "slab_side", required=True, description="Width.", example="300 mm")
    thickness = Quantity(LENGTH, "slab_thickness", required=True, description="Of a kerb its height.", example="50 mm")


class OfferedGood(Request):
    """One thing that is sold, beside the catalogue's own goods and before them."""

    sku = Sku(required=True, description="Its stock number; it takes the place of the catalogue's.", example="SAND-1")
    name = Name(required=True, description="What it is called.", example="Sharp sand")
    item = Key(required=True, description="What it is in a bill: slab, edging, cement, membrane, or a material's key.")
    unit = Choice(_UNITS, required=True, description="What its packs are measured in.")
    packs = Objects(Object(OfferedPack()), least=1, most=MOST_PACKS, required=True, description="How it is sold.")
    mass = Quantity(MASS, "good_mass", description="Of one unit of it.", example="18 kg")
    slab = Object(OfferedSlab(), description="Size, of a slab or edging.")
    made_of = Choice(tuple(slab_materials()), default="concrete", description="What slabs are made of.")
    tax_percent = Number(0, 100, description="Rate of its tax; untaxed if left out.")
    substitutes = Objects(
        Sku(example="SAND-2"), most=MOST_SUBSTITUTES, description="Stock numbers of what may stand in for it."
    )

    def make(self, values: dict[str, Any]) -> tuple[Good, Tax | None]:
        _check(values)
        percent, slab = values["tax_percent"], values["slab"]
        tax = None if percent is None else Tax(f"{percent:g} %", f"Tax at {percent:g} %", Decimal(str(percent)))
        slabs = () if slab is None else (Slab(values["name"], **slab, made_of=values["made_of"]),)
        good = Good(
            sku=values["sku"],
            name=values["name"],
            item=values["item"],
            unit=values["unit"],
            packs=tuple(_pack(pack, values["sku"]) for pack in values["packs"]),
            mass=_mass(values, slabs),
            slabs=slabs,
            made_of=values["made_of"] if slabs else "",
            tax=tax.code if tax else "",
            substitutes=values["substitutes"] or (),
        )
        return good, tax


def offered_goods(**kwargs: Any) -> Objects:
    """The field of goods that a request brings along."""
    return Objects(
        Object(OfferedGood()), most=MOST_GOODS, description="Goods on offer before the catalogue's own.", **kwargs
    )


def _check(values: dict[str, Any]) -> None:
    """Refuse what a catalogue couldn't say either.

    Raises
    ------
    UnknownName, OutOfRange
        If item, unit, size and packs don't go together.
    """
    item, unit, units = values["item"], values["unit"], item_units()
    if item not in units:
        refuse_unknown("item", item, units, "item")
    if unit not in units[item]:
        raise OutOfRange(f"{item} isn't sold by {unit}; use {' or '.join(units[item])}.", "unit")
    if (values["slab"] is not None) != (item in _SIZED):
        raise OutOfRange("A slab or edging has its size under 'slab', and nothing else has.", "slab")
    for k, pack in enumerate(values["packs"]):
        with within("packs", k):
            _check_pack(pack, unit)
    skus = [pack["sku"] or values["sku"] for pack in values["packs"]]
    if len(set(skus)) < len(skus):
        raise OutOfRange("Each of several packs needs a stock number of its own.", "packs")


def _check_pack(pack: dict[str, Any], unit: str) -> None:
    if unit == "each" and not pack["content"].is_integer():
        raise OutOfRange("Goods sold by each come in whole numbers.", "content")
    least = pack["least"] or pack["step"]
    if pack["most"] is not None and pack["most"] < least:
        raise OutOfRange(f"Below the fewest sold, {least}: the pack could never be bought.", "most")


def _pack(values: dict[str, Any], sku: str) -> Pack:
    return Pack(**{**values, "sku": values["sku"] or sku, "least": values["least"] or 0})


def _mass(values: dict[str, Any], slabs: tuple[Slab, ...]) -> float | None:
    """Mass of one unit, given or of what its slab is made of [kg]."""
    mass: float | None = values["mass"]
    if mass is not None or not slabs:
        return mass
    (slab,) = slabs
    length, width = (1.0 if values["unit"] in units else side for side, units in _sides(slab))
    return slab_mass(length, width, slab.thickness, slab_density(slab.made_of).value)


def _sides(slab: Slab) -> tuple[tuple[float, tuple[str, ...]], ...]:
    """Sides of a slab, each with the units of sale that take a metre of it instead."""
    return (slab.length, ("m2", "m")), (slab.width, ("m2",))


class CatalogueQuestion(Request):
    """Which goods of the catalogue."""

    item = Key(description="Only goods that are this in a bill: slab, edging, cement, a material's key.")
    text = Name(description="Only goods with all of these words in stock number, name or range.")
    page = Count(1, 100_000, default=1, description="Which page.")
    per_page = Count(1, 500, default=20, description="Goods on a page.")


class SizeRow(Figures):
    """One size of a slab."""

    name = Word("What it is called.")
    length_mm = Figure("Length, without joint.")
    width_mm = Figure("Width, without joint.")
    thickness_mm = Figure("Thickness; of a kerb its height.")
    share_percent = Figure("Share of the area in this size, in a mixed pack.", optional=True)


class OfferRow(Figures):
    """One way a good is sold."""

    sku = Word("Its stock number.")
    name = Word("What the counter calls it.")
    content = Share("What is in it, in the good's `unit`.")
    least = Tally("Fewest sold in one order; 0 when any number will do.")
    step = Tally("Sold by so many at a time.")
    most = Tally("Most sold in one order.", optional=True)
    price = Money("Of one, where it is known.", optional=True)
    deposit = Money("Returnable, on one.", optional=True)
    mass_kg = Figure("Of one as delivered; its content's where none.", optional=True)
    per_pallet = Tally("How many fill a pallet place; none for a tipped load.", optional=True)
    roll_length_m = Figure("Length of a roll.", of="length", optional=True)
    roll_width_m = Figure("Width of a roll.", of="width", optional=True)
    gtin = Word("Global Trade Item Number, or empty.")


class GoodFigures(Figures):
    """One thing a merchant sells."""

    sku = Word("Its stock number.")
    name = Word("What it is called.")
    item = Word("What it is in a bill.")
    unit = Word("What its packs are measured in.")
    mass_kg = Figure("Mass of one unit.", optional=True)
    loose_kg_per_m3 = Figure("Density as delivered, where the merchant knows it.", of="loose_density", optional=True)
    compacted_kg_per_m3 = Figure("Density in place, where known.", of="compacted_density", optional=True)
    range = Word("Family of slabs it belongs to, or empty.")
    made_of = Word("What slabs are made of, or empty.")
    made_edges = Truth("Whether its own edges belong outside.")
    tax = Word("Code of its tax, or empty.")
    gtin = Word("Global Trade Item Number, or empty.")
    lead_days = Tally("Working days until it can be had; 0 from stock.", of="lead", optional=True)
    substitutes = Words("Stock numbers of what may stand in for it.")
    slabs = Rows(SizeRow(), description="Its sizes.")
    packs = Rows(OfferRow(), description="How it is sold.")


class GoodAnswer(GoodFigures, Answer):
    """One good of the catalogue."""


class CatalogueAnswer(Answer):
    """Goods of the catalogue, a page of them."""

    table = "goods"
    title = Word("What the catalogue calls itself.", of="terms.title")
    note = Word("What to know of it.", of="terms.note")
    currency = Word("Currency of every price (ISO 4217), or empty.", of="terms.currency")
    prices = Word("Whether prices are before tax or with tax.", of="terms.prices")
    count = Tally("Goods found.")
    page = Tally("This page.")
    pages = Tally("Pages there are.")
    goods = Rows(GoodFigures(), description="In the order of the catalogue.")
