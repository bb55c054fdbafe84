"""The wire of trees."""

from typing import Any

from service.paving.errors import OutOfRange
from service.paving.trees import Tree
from service.schemas.answers import Answer
from service.schemas.fields import Quantity
from service.schemas.figures import Figure, Figures
from service.schemas.nested import Object, Objects
from service.schemas.quantities import AREA, LENGTH
from service.schemas.requests import Question
from service.schemas.shapes import PointSchema, shape_field

MOST_STEMS = 50


class TreeQuestion(Question):
    """A tree near an area."""

    area = shape_field("What is paved.")
    at = Object(PointSchema(), required=True, description="Where the tree stands on plan.")
    stem = Quantity(LENGTH, "stem", description="Diameter of its stem 1.5 m above the ground.", example="300 mm")
    stems = Objects(
        Quantity(LENGTH, "stem", example="120 mm"),
        least=1,
        most=MOST_STEMS,
        description="Diameter of each stem, where it has several.",
    )
    surfaced = Quantity(
        AREA, "surfaced", default="0 m2", description="Hard surface over its roots already.", example="4 m2"
    )

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        stem, stems = values["stem"], values["stems"]
        if (stem is None) == (stems is None):
            raise OutOfRange("Give either the 'stem', or all 'stems'.", "stem")
        return {"area": values["area"], "tree": Tree(stems or (stem,), values["at"], values["surfaced"])}


class TreeFigures(Figures):
    """What must be kept of a tree's roots, and how much of it is paved."""

    stem_diameter_mm = Figure("Of the stem, or of one that stands for all.")
    radius_m = Figure("Of the root protection area.")
    protection_area_m2 = Figure("Root protection area.")
    overlap_m2 = Figure("Paving inside it, openings left out.")
    share_percent = Figure("Share of its open ground that is paved.")


class TreeAnswer(TreeFigures, Answer):
    """What must be kept of a tree's roots, and how much of it is paved."""
