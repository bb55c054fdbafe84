"""The wire of mixes: also the fields that other requests mix with."""

from dataclasses import replace
from typing import Any

from service.paving.laying_courses import Recipe
from service.paving.mixes import Consistence, MixBasis, Parts, SandState, given_water_cement_ratio, mix_basis
from service.schemas.answers import Answer
from service.schemas.fields import Choice, Number, Quantity
from service.schemas.fields import Parts as PartsField
from service.schemas.figures import Figure, Figures, Tally
from service.schemas.quantities import DENSITY, MASS, VOLUME
from service.schemas.requests import Question, Request

#: Fields of a request that replace a default of the same name in a mix's basis.
_OVERRIDES = ("cement_bulk_density", "sand_bulk_density", "aggregate_bulk_density", "bag_mass", "mixer_output")


class Mixing(Request):
    """How a mix is made up."""

    parts = PartsField(required=True, description="Parts by volume, cement first: cement to sand (to aggregate).")
    consistence = Choice(Consistence, default="plastic", description="How wet it is mixed.")
    sand = Choice(
        SandState, default="dry", description="Whether the parts of sand are measured dry, or damp and bulked."
    )
    bag_mass = Quantity(MASS, "bag", description="Mass of a bag of cement.", example="25 kg")
    mixer_output = Quantity(VOLUME, "volume", description="What the mixer turns out at once.", example="90 l")
    cement_bulk_density = Quantity(DENSITY, "density", description="Of loose cement.", example="1440 kg/m3")
    sand_bulk_density = Quantity(DENSITY, "density", description="Of loose dry sand.", example="1600 kg/m3")
    aggregate_bulk_density = Quantity(DENSITY, "density", description="Of loose aggregate.", example="1450 kg/m3")
    water_cement_ratio = Number(0.2, 1.5, description="Water to cement by mass, in place of the default water content.")
    air_percent = Number(0, 30, description="Air by volume of the mix, in place of the default.")


def recipe_of(values: dict[str, Any]) -> Recipe:
    """Take the fields of a mix out of the values and make them a recipe."""
    consistence, sand = values.pop("consistence"), values.pop("sand")
    return Recipe(Parts(*values.pop("parts")), consistence, sand, _basis(values, consistence, sand))


def _basis(values: dict[str, Any], consistence: Consistence, sand: SandState) -> MixBasis:
    basis = mix_basis(consistence, sand)
    changed: dict[str, Any] = {
        name: getattr(basis, name).given(value) for name in _OVERRIDES if (value := values.pop(name)) is not None
    }
    ratio, air = values.pop("water_cement_ratio"), values.pop("air_percent")
    if ratio is not None:
        changed["water_cement_ratio"] = given_water_cement_ratio(ratio)
    if air is not None:
        changed["mortar_air"] = basis.mortar_air.given(air / 100)
        changed["concrete_air"] = basis.concrete_air.given(air / 100)
    return replace(basis, **changed) if changed else basis


class MixQuestion(Mixing, Question):
    """A volume of mortar or concrete."""

    volume = Quantity(VOLUME, "volume", required=True, description="In place.")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        return {"volume": values.pop("volume"), "recipe": recipe_of(values)}


class MixFigures(Figures):
    """What a mix takes."""

    cement_kg = Figure("Cement.")
    cement_bags = Tally("Whole bags of cement.")
    sand_m3 = Figure("Sand as it is measured: loose, and bulked if damp.", of="sand_volume")
    sand_t = Figure("Sand as it is delivered: with its moisture if damp.", of="sand_mass")
    aggregate_m3 = Figure("Coarse aggregate, loose; 0 in mortar.", of="aggregate_volume")
    aggregate_t = Figure("Coarse aggregate; 0 in mortar.", of="aggregate_mass")
    water_l = Figure("Water to add at the mixer.")
    water_in_mix_l = Figure("All water, with what the sand brings.")
    cement_kg_per_m3 = Figure("Cement in a cubic metre of mix.", of="cement_per_volume")
    rule_of_thumb_cement_kg = Figure("Cement by the rule of thumb, as a cross-check.")
    batches = Tally("Mixer batches.")
    batch_cement_kg = Figure("Cement in a full batch.")


class MixAnswer(MixFigures, Answer):
    """What a mix takes."""
