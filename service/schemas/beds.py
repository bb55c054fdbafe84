"""The wire of beds."""

from typing import Any

from service.paving.beds import Dabs, Method, Ribbons
from service.paving.errors import within
from service.paving.laying_courses import Bedding
from service.paving.materials import material
from service.paving.mixes import Consistence
from service.paving.reference import default
from service.schemas.answers import Answer
from service.schemas.depths import Depths, depth_of
from service.schemas.fields import Choice, Count, JointWidth, Key, Quantity
from service.schemas.fields import Parts as PartsField
from service.schemas.figures import Figure, Figures, Rows, Tally, Word
from service.schemas.mixes import Mixing, recipe_of
from service.schemas.nested import Object
from service.schemas.quantities import LENGTH
from service.schemas.requests import Question, Request
from service.schemas.shapes import area_field
from service.schemas.slabs import SlabFace


class DabsSchema(Request):
    """Dabs of a spot bed."""

    per_slab = Count(1, 100, description="How many.")
    diameter = Quantity(LENGTH, "dab", description="Of a dab as it is laid.", example="150 mm")
    depth = Quantity(
        LENGTH, "dab", description="Of a dab as it is laid, before the slab presses it down.", example="60 mm"
    )

    def make(self, values: dict[str, Any]) -> Dabs:
        return Dabs(**values)


class RibbonsSchema(Request):
    """Strips of a ribbon bed."""

    width = Quantity(LENGTH, "dab", description="Of a strip as it is laid.", example="75 mm")
    depth = Quantity(LENGTH, "dab", description="Of a strip as it is laid.", example="60 mm")

    def make(self, values: dict[str, Any]) -> Ribbons:
        return Ribbons(**values)


class BeddingFields(Depths, Mixing):
    """How slabs are bedded; the depth is the usual one of the method if it isn't given."""

    method = Choice(Method, required=True, description="How the slabs are bedded.")
    parts = PartsField(default="1:4", description="Bedding mortar, cement to sand by volume; not for a screeded bed.")
    consistence = Choice(Consistence, default="semi_dry", description="Of the mortar.")
    material = Key(
        default="sharp_sand", description="What is screeded: a key from /v1/materials.", example="sharp_sand"
    )
    dabs = Object(DabsSchema(), description="Dabs of a spot bed, where they differ from the usual.")
    ribbons = Object(RibbonsSchema(), description="Strips of a ribbon bed, where they differ from the usual.")

    def usual(self, data: dict[str, Any]) -> dict[str, Any]:
        """Fill in the depth that is usual for the method."""
        if all(data[name] is None for name in ("depth", "depth_from", "depth_to")):
            data["depth"] = usual_depth(data["method"])
        return data


def usual_depth(method: Method) -> float:
    """The usual depth of a bed [m]."""
    return default("beds", "screeded_bed_depth" if method is Method.SCREEDED else "mortar_bed_depth").value


def bedding_of(values: dict[str, Any]) -> Bedding:
    """Take the fields of a bed out of the values and make them the bedding."""
    with within("material"):
        screeded = material(values.pop("material"))
    method, dabs, ribbons = (values.pop(name) for name in ("method", "dabs", "ribbons"))
    return Bedding(method, depth_of(values), screeded, recipe_of(values), dabs, ribbons)


class BedQuestion(BeddingFields, Question):
    """A laying course."""

    area = area_field()
    slab = Object(SlabFace(), description="The slab: dabs and ribbons are counted by the slab.")
    joint = JointWidth(LENGTH, "joint", default="0 mm", description="Between slabs.", example="10 mm")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        kept = {name: values.pop(name) for name in ("area", "slab", "joint")}
        return {**kept, "bedding": bedding_of(values)}


class MethodRow(Figures):
    """What one method would use."""

    method = Word("How the slabs are bedded.")
    volume_m3 = Figure("In place.")
    support_percent = Figure("Share of the slab that is held.")


class BedFigures(Figures):
    """What a laying course takes."""

    volume_m3 = Figure("In place.", of="bed.volume")
    support_percent = Figure("Share of each slab that is held.", of="bed.support")
    mean_depth_mm = Figure("Mean depth over the area.", of="bed.mean_depth")
    surcharge_mm = Figure("How much higher the loose material is screeded; 0 for mortar.", of="bed.surcharge")
    loose_volume_m3 = Figure("Screeded material as delivered; 0 for mortar.", of="bed.loose_volume")
    mass_t = Figure("Likely mass of the screeded material; 0 for mortar.", of="bed.mass")
    mass_low_t = Figure("At the least density; 0 for mortar.", of="bed.mass_low")
    mass_high_t = Figure("At the greatest density; 0 for mortar.", of="bed.mass_high")
    cement_kg = Figure("Cement of the mortar.", of="mix.cement", optional=True)
    cement_bags = Tally("Whole bags of cement.", of="mix.cement_bags", optional=True)
    sand_m3 = Figure("Sand of the mortar as it is measured.", of="mix.sand_volume", optional=True)
    sand_t = Figure("Sand of the mortar as delivered.", of="mix.sand_mass", optional=True)
    water_l = Figure("Water to add at the mixer.", of="mix.water", optional=True)
    cement_kg_per_m3 = Figure("Cement in a cubic metre of mortar.", of="mix.cement_per_volume", optional=True)
    rule_of_thumb_cement_kg = Figure(
        "By the rule of thumb, as a cross-check.", of="mix.rule_of_thumb_cement", optional=True
    )
    batches = Tally("Mixer batches.", of="mix.batches", optional=True)
    batch_cement_kg = Figure("Cement in a full batch.", of="mix.batch_cement", optional=True)
    by_method = Rows(
        MethodRow(), description="What each method would use, side by side; needs the slab.", of="bed.by_method"
    )


class BedAnswer(BedFigures, Answer):
    """What a laying course takes."""
