"""The wire of joints."""

from typing import Any

from service.paving.errors import OutOfRange
from service.paving.joints import Filler
from service.paving.layouts import Detail, Pattern, Paving
from service.paving.mixes import Consistence
from service.paving.pointing import pointing_of
from service.schemas.answers import Answer
from service.schemas.fields import Choice, Quantity, Ratio
from service.schemas.fields import Parts as PartsField
from service.schemas.figures import Figure, Figures, Tally
from service.schemas.mixes import Mixing, recipe_of
from service.schemas.nested import Object
from service.schemas.quantities import ANGLE, DENSITY, LENGTH
from service.schemas.requests import Question
from service.schemas.shapes import area_field
from service.schemas.slabs import SlabFace


class FillerFields(Mixing):
    """What joints are filled with."""

    filler = Choice(Filler, default="mortar", description="What the joints are filled with.")
    density = Quantity(DENSITY, "density", description="Of the filler in place, if known better than the reference.")
    parts = PartsField(default="1:4", description="Pointing mortar, cement to sand by volume.")
    consistence = Choice(Consistence, default="semi_dry", description="Of the mortar.")


class JointQuestion(FillerFields, Question):
    """A run of joint, or the joints of an area."""

    length = Quantity(LENGTH, "run", description="Length of joint, each joint once.", example="120 m")
    area = area_field("The area paved, with `slab`; in place of a length.", required=False)
    slab = Object(SlabFace(), description="The slab laid on the area.")
    pattern = Choice(Pattern, default="stack_bond", description="How it is laid; exact where the area is a shape.")
    offset = Ratio(default="1/2", description="Stretcher bond: how far each course is moved.")
    angle = Quantity(ANGLE, "angle", default="0 deg", description="How far the pattern is turned.")
    width = Quantity(LENGTH, "joint", required=True, description="Of the joint.", example="8 mm")
    depth = Quantity(LENGTH, "joint_depth", required=True, description="That is filled.", example="40 mm")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        filler, depth, density = (values.pop(name) for name in ("filler", "depth", "density"))
        pointing = pointing_of(filler, depth, density, recipe_of(values))
        length, area, slab, width = (values.pop(name) for name in ("length", "area", "slab", "width"))
        if (length is None) == (area is None):
            raise OutOfRange("Give either the 'length' of the joints, or the 'area' with its slab.", "length")
        if area is not None and slab is None:
            raise OutOfRange("The joints of an area hang on its slab: give its length and width.", "slab")
        paving = area and Paving(
            slabs=(slab,),
            pattern=values["pattern"],
            joint=width,
            offset=values["offset"],
            angle=values["angle"],
            detail=Detail.counts,
        )
        return {"length": length, "area": area, "width": width, "paving": paving, "pointing": pointing}


class FillingFigures(Figures):
    """What fills the joints."""

    joint_length_m = Figure("Each joint once.", of="joints.joint_length")
    volume_l = Figure("In place.", of="joints.volume")
    mass_kg = Figure("Likely mass in place.", of="joints.mass")
    mass_low_kg = Figure("At the least density.", of="joints.mass_low")
    mass_high_kg = Figure("At the greatest.", of="joints.mass_high")
    cement_kg = Figure("Cement of the mortar.", of="mix.cement", optional=True)
    cement_bags = Tally("Whole bags of cement.", of="mix.cement_bags", optional=True)
    sand_m3 = Figure("Sand of the mortar as it is measured.", of="mix.sand_volume", optional=True)
    sand_t = Figure("Sand of the mortar as delivered.", of="mix.sand_mass", optional=True)
    water_l = Figure("Water to add at the mixer.", of="mix.water", optional=True)


class JointAnswer(FillingFigures, Answer):
    """What fills the joints."""
