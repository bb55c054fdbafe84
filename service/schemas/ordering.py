"""The wire of an order: what it costs, and how it is carried."""

from typing import Any

from service.schemas.figures import AnswerField, Figure, Figures, Money, Resolve, Rows, Tally, Word


class Words(AnswerField):
    """A list of texts."""

    def shown(self, value: Any) -> Any:
        return [str(word) for word in value]

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"type": "array", "items": {"type": "string"}}


class Share(AnswerField):
    """A number without a unit that isn't a count."""

    def shown(self, value: Any) -> Any:
        return None if value is None else round(value, 9)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"type": ["number", "null"] if self.optional else "number"}


class PackRow(Figures):
    """So many of one pack."""

    pack = Word("What the counter calls it.", of="pack.name")
    sku = Word("Its stock number.", of="pack.sku")
    count = Tally("How many.")


class TaxRow(Figures):
    """One rate of tax over the whole order."""

    code = Word("Code of the tax.", of="tax.code")
    name = Word("What it is called.", of="tax.name")
    percent = Money("Its rate, as decimal text.", of="tax.percent")
    net = Money("What is taxed, without the tax.")
    amount = Money("The tax.")


class CostFigures(Figures):
    """What an order costs: `net` and `tax` and `deposits` make `total`, to the last place."""

    net = Money("The lines without tax.")
    taxes = Rows(TaxRow(), description="Tax by rate.")
    tax = Money("Sum of the tax.")
    deposits = Money("Returnable deposits, untaxed.")
    total = Money("All there is to pay.")


class DeliveryRow(Figures):
    """Loads of one vehicle that are alike."""

    vehicle = Word("What the yard calls it.", of="vehicle.name")
    times = Tally("How many such loads.")
    mass_kg = Figure("Mass of one.")
    pallets = Tally("Pallets on one; 0 for a tipped load.")
    carries = Words("Stock numbers of the packs on it.")


class LoadFigures(Figures):
    """How an order is carried: pallets, heaviest first, then loose loads."""

    mass_t = Figure("Mass as delivered; none where the catalogue lacks one.", optional=True)
    pallets = Tally("Pallets it stands on, odd packs put together.")
    deliveries = Rows(DeliveryRow(), description="What carries it, by the catalogue's vehicles.")
    left_over = Words("Stock numbers of packs that no vehicle can carry or set down, or of unknown mass.")
