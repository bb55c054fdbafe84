"""The wire of lifting."""

from typing import Any

from service.paving.errors import OutOfRange
from service.paving.handling import slab_materials
from service.paving.lifting import Height, Lift, Lifter, Reach
from service.paving.slabs import Slab
from service.schemas.answers import Answer
from service.schemas.fields import Choice, Quantity
from service.schemas.figures import Figure, Word
from service.schemas.nested import Object
from service.schemas.quantities import FREQUENCY, LENGTH, MASS
from service.schemas.requests import Question
from service.schemas.slabs import SlabFace


class LiftedSlab(SlabFace):
    """A slab to lift."""

    thickness = Quantity(LENGTH, "slab_thickness", required=True, description="Thickness.", example="40 mm")
    made_of = Choice(slab_materials(), default="concrete", description="What it is made of.")

    def make(self, values: dict[str, Any]) -> Slab:
        return Slab("slab", values["length"], values["width"], values["thickness"], made_of=values["made_of"])


class LiftingQuestion(Question):
    """Something to lift."""

    mass = Quantity(MASS, "lifted_mass", description="What is lifted.", example="34 kg")
    slab = Object(LiftedSlab(), description="The slab that is lifted, in place of a mass.")
    lifter = Choice(Lifter, default="man", description="For whom the filter is drawn.")
    height = Choice(Height, default="elbow", description="How high it is held, at the worst.")
    reach = Choice(Reach, default="close", description="How far from the body.")
    frequency = Quantity(FREQUENCY, "lifts", default="0 /h", description="How often.", example="2 /min")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        mass, slab = values["mass"], values["slab"]
        if (mass is None) == (slab is None):
            raise OutOfRange("Give either the 'mass' that is lifted, or the 'slab'.", "mass")
        lift = Lift(**{name: values[name] for name in ("lifter", "height", "reach", "frequency")})
        return {"load": slab if mass is None else mass, "lift": lift}


class LiftingAnswer(Answer):
    """What may be lifted, and by whom this is."""

    mass_kg = Figure("What is lifted.")
    one_person_kg = Figure("What one person may lift so.")
    two_people_kg = Figure("What two may lift together.")
    three_people_kg = Figure("What three may.")
    means = Word("The fewest that may lift it, or a lifting aid.")
