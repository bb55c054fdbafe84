"""The wire of layers."""

from dataclasses import replace
from typing import Any

from service.paving.errors import within
from service.paving.materials import material
from service.paving.reference import default
from service.paving.sub_bases import SubBase
from service.schemas.answers import Answer
from service.schemas.depths import Depths, depth_of
from service.schemas.fields import Key, Quantity
from service.schemas.figures import Figure, Figures, Tally
from service.schemas.quantities import DENSITY, LENGTH
from service.schemas.requests import Question
from service.schemas.shapes import area_field


class LayerFields(Depths):
    """What a layer is made of and how deep it is."""

    material = Key(required=True, description="A key from /v1/materials.", example="type_1")
    compacted_density = Quantity(DENSITY, "density", description="In place, if known better than the reference.")
    loose_density = Quantity(DENSITY, "density", description="As delivered, if known better than the reference.")
    greatest_lift = Quantity(LENGTH, "lift", description="Most that is compacted at once.", example="150 mm")


def sub_base_of(values: dict[str, Any]) -> SubBase:
    """Take the fields of a layer out of the values and make them one."""
    with within("material"):
        chosen = material(values.pop("material"))
    compacted, loose = values.pop("compacted_density"), values.pop("loose_density")
    known = replace(
        chosen,
        compacted_density=chosen.compacted_density.given(compacted),
        loose_density=chosen.loose_density.given(loose),
    )
    return SubBase(known, depth_of(values), default("layers", "greatest_lift").given(values.pop("greatest_lift")))


class LayerQuestion(LayerFields, Question):
    """A layer of unbound material."""

    area = area_field()

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        return {"area": values.pop("area"), "course": sub_base_of(values)}


class LayerFigures(Figures):
    """What a layer takes."""

    compacted_volume_m3 = Figure("In place.")
    loose_volume_m3 = Figure("As delivered.")
    mass_t = Figure("Likely mass: what to order on.")
    mass_low_t = Figure("Mass at the least density it is known to reach.")
    mass_high_t = Figure("Mass at the greatest.")
    mean_depth_mm = Figure("Mean depth over the area.")
    lifts = Tally("How many times it is spread and compacted.")


class LayerAnswer(LayerFigures, Answer):
    """What a layer takes."""
