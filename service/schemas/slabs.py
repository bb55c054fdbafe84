"""Slabs as they are asked for."""

from typing import Any

from service.paving.handling import slab_materials
from service.paving.slabs import Slab
from service.schemas.fields import Choice, Name, Number, Quantity
from service.schemas.quantities import LENGTH
from service.schemas.requests import Request


class SlabFace(Request):
    """The face of a slab."""

    length = Quantity(
        LENGTH, "slab_side", required=True, description="Along x before the pattern is turned.", example="600 mm"
    )
    width = Quantity(LENGTH, "slab_side", required=True, description="Along y.", example="300 mm")

    def make(self, values: dict[str, Any]) -> Slab:
        return Slab("slab", values["length"], values["width"], 0.0)


class SlabSize(SlabFace):
    """One size of slab."""

    name = Name(default="slab", description="What it is called in the answer.", example="600 x 300")
    thickness = Quantity(LENGTH, "slab_thickness", default="40 mm", description="Thickness.", example="40 mm")
    made_of = Choice(slab_materials(), default="concrete", description="What it is made of, for its mass.")
    share = Number(0, 100, description="Share of the area in this size, in per cent, for mixed sizes.")

    def make(self, values: dict[str, Any]) -> Slab:
        share = values["share"]
        return Slab(
            values["name"],
            values["length"],
            values["width"],
            values["thickness"],
            None if share is None else share / 100,
            values["made_of"],
        )
