"""The wire of excavations: also the ground of a whole job."""

import re
from dataclasses import replace
from typing import Any

from marshmallow import ValidationError

from service.paving.build_ups import BuildUp
from service.paving.diggings import Digging, FillFrom, Strip, Stripped, plain_dig
from service.paving.errors import ImpossibleShape, OutOfRange
from service.paving.falls import LEVEL, Fall
from service.paving.grounds import SpotLevel, Survey, survey
from service.paving.planes import Plane
from service.paving.reference import default, table
from service.paving.soils import Soil, soil, soils
from service.schemas.answers import Answer
from service.schemas.fields import Choice, Number, Quantity, Resolve, WireField
from service.schemas.figures import Figure, Figures, Rows, Section, Tally, Word
from service.schemas.grammar import rounded
from service.schemas.levels import BuildUpDepths, FallFields, datum_field
from service.schemas.nested import Object, OneOf
from service.schemas.quantities import DENSITY, LENGTH, MASS, POSITION
from service.schemas.requests import Question, Request
from service.schemas.shapes import PointSchema, area_field

#: Spot levels in one survey: a grid of twenty by twenty.
MOST_SPOTS = 400

_COORDINATE = r"-?(?:0|[1-9][0-9]{0,5})(?:\.[0-9]{1,6})?"
_SPOT = f"{_COORDINATE},{_COORDINATE},{_COORDINATE}"
_QUERY_SPOTS = re.compile(f"{_SPOT}(?: {_SPOT}){{2,199}}", re.ASCII)


class Spots(WireField):
    """Spot levels as triples of numbers in their own unit; in a query as "0,0,0.12 6,0,0.08 6,4,0.10"."""

    def read(self, value: Any) -> list[list[float]]:
        if type(value) is not list:
            raise ValidationError("Must be a list of [x, y, level] triples.")
        if not 3 <= len(value) <= MOST_SPOTS:
            raise ValidationError(f"Must hold 3 to {MOST_SPOTS} spots.")
        errors = {k: ["Must be three numbers [x, y, level]."] for k, spot in enumerate(value) if not _is_spot(spot)}
        if errors:
            raise ValidationError(errors)
        return [[float(n) for n in spot] for spot in value]

    def document(self, resolve: Resolve) -> dict[str, Any]:
        number = {"type": "number", "minimum": -1e6, "maximum": 1e6}
        spot = {"type": "array", "items": number, "minItems": 3, "maxItems": 3}
        return {"type": "array", "items": spot, "minItems": 3, "maxItems": MOST_SPOTS}

    def query_value(self, text: str) -> Any:
        if not _QUERY_SPOTS.fullmatch(text):
            return text
        return [[float(n) for n in spot.split(",")] for spot in text.split(" ")]

    def query_document(self) -> dict[str, Any]:
        return {"type": "string", "pattern": f"^{_QUERY_SPOTS.pattern}$", "examples": ["0,0,0.12 6,0,0.08 6,4,0.1"]}


def _is_spot(spot: Any) -> bool:
    return type(spot) is list and len(spot) == 3 and all(type(n) in (int, float) and abs(n) <= 1e6 for n in spot)


class LevelGround(Request):
    surface = Choice(("level",), required=True)
    level = Quantity(POSITION, "level", default="0 mm", description="Relative to the datum.")

    def make(self, values: dict[str, Any]) -> Plane:
        return Plane(values["level"])


class PlaneGround(Request):
    surface = Choice(("plane",), required=True)
    level = Quantity(POSITION, "level", default="0 mm", description="Relative to the datum, at one point.")
    at = Object(PointSchema(), description="That point; (0, 0) if left out.")
    fall = Object(FallFields(), required=True, description="How the ground falls.")

    def make(self, values: dict[str, Any]) -> Plane:
        fall: Fall = values["fall"]
        return fall.from_point(values["at"] or (0.0, 0.0), values["level"])


class SurveyedGround(Request):
    surface = Choice(("spot_levels",), required=True)
    unit = Choice(tuple(LENGTH.units), required=True, description="Unit of every number of the spots.")
    spots = Spots(required=True, description="Points on plan with the ground's level there, relative to the datum.")

    def make(self, values: dict[str, Any]) -> Survey:
        factor = LENGTH.factors[values["unit"]]
        spots = [SpotLevel(*(rounded(n * factor) for n in spot)) for spot in values["spots"]]
        _check_reach(spots)
        try:
            return survey(spots)
        except ImpossibleShape as error:
            error.place = ("spots", *error.place)
            raise


def _check_reach(spots: list[SpotLevel]) -> None:
    most, highest = table("limits")["position"]["most"], table("limits")["level"]["most"]
    for k, spot in enumerate(spots):
        if max(abs(spot.x), abs(spot.y)) > most or abs(spot.level) > highest:
            raise ImpossibleShape(
                f"Spot {k + 1} lies further out than {most:g} m, or higher than {highest:g} m. Is the unit right?",
                "spots",
                k,
            )


def ground_field() -> OneOf:
    """A field that wants to know how the ground lies."""
    return OneOf(
        "surface",
        {"level": LevelGround(), "plane": PlaneGround(), "spot_levels": SurveyedGround()},
        description="How the ground lies; at the finished level everywhere if left out.",
    )


class StripFields(Request):
    """Turf or topsoil taken off first and kept apart."""

    what = Choice(Stripped, required=True, description="What is stripped.")
    depth = Quantity(LENGTH, "strip_depth", description="How deep; the usual depth if left out.", example="40 mm")

    def make(self, values: dict[str, Any]) -> Strip:
        what = values["what"]
        return Strip(what, default("excavations", f"{what}_depth").given(values["depth"]))


class DiggingFields(Request):
    """What is dug and how."""

    soil = Choice(tuple(each.key for each in soils()), default="common_earth", description="What is dug.")
    bulking = Number(1, 2.5, description="Loose volume to volume in place, if known better than the reference.")
    density = Quantity(DENSITY, "density", description="In place, if known better than the reference.")
    over_dig = Quantity(
        LENGTH, "over_dig", default="0 mm", description="How far the dig goes beyond the paved edge.", example="150 mm"
    )
    strip = Object(StripFields(), description="Turf or topsoil taken off first and kept apart.")
    fill_from = Choice(FillFrom, default="imported", description="Where fill comes from, if any is needed.")
    tipper_payload = Quantity(MASS, "payload", description="What one tipper carries.", example="20 t")


def digging_of(values: dict[str, Any]) -> Digging:
    """Take the fields of a dig out of the values and make them one."""
    payload = default("excavations", "tipper_payload").given(values.pop("tipper_payload"))
    return Digging(
        soil=_soil_of(values),
        tipper_payload=payload,
        over_dig=values.pop("over_dig"),
        strip=values.pop("strip"),
        fill_from=values.pop("fill_from"),
    )


def _soil_of(values: dict[str, Any]) -> Soil:
    dug = soil(values.pop("soil"))
    loose, density = values.pop("bulking"), values.pop("density")
    return replace(dug, loose_factor=dug.loose_factor.given(loose), density=dug.density.given(density))


class ExcavationQuestion(DiggingFields, Question):
    """A dig."""

    area = area_field()
    depth = Quantity(
        LENGTH, "dig_depth", description="Formation below the finished level; or give `build_up`.", example="230 mm"
    )
    build_up = Object(BuildUpDepths(), description="What lies between the finished level and the formation.")
    fall = Object(FallFields(), description="How the finished surface falls; level if left out.")
    datum = datum_field()
    ground = ground_field()

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        kept = {name: values.pop(name) for name in ("area", "datum", "ground")}
        return {
            **kept,
            "fall": values.pop("fall") or LEVEL,
            "build_up": _build_up_of(values),
            "digging": digging_of(values),
        }


def _build_up_of(values: dict[str, Any]) -> BuildUp:
    depth, build_up = values.pop("depth"), values.pop("build_up")
    if (depth is None) == (build_up is None):
        raise OutOfRange("Give either 'depth' or 'build_up'.", "depth")
    return build_up or plain_dig(depth)


class SkipRow(Figures):
    """How many skips of one size would take all of it."""

    capacity_yd3 = Tally("Cubic yards the skip is named by.")
    capacity_m3 = Figure("What it holds, filled level.")
    count = Tally("Skips of this size, in place of the other sizes.")


class StripFigures(Figures):
    """Turf or topsoil, kept apart."""

    what = Word("turf or topsoil.")
    depth_mm = Figure("How deep it is stripped.")
    area_m2 = Figure("Over what area.")
    volume_in_place_m3 = Figure("In the ground.")
    volume_loose_m3 = Figure("Once it is stripped.")
    mass_t = Figure("Likely mass.")
    skips = Rows(SkipRow(), description="If it is carted away.")


class ExcavationFigures(Figures):
    """What a dig comes to."""

    dig_area_m2 = Figure("Area of the dig, over-dig included.")
    dig_depth_mean_mm = Figure("Mean depth where anything is dug, strip included.")
    dig_depth_greatest_mm = Figure("Greatest depth, strip included.")
    volume_in_place_m3 = Figure("Dug, measured in the ground; the strip apart.")
    volume_loose_m3 = Figure("The same once it is dug.")
    mass_t = Figure("Likely mass of it.")
    mass_low_t = Figure("At the least density.")
    mass_high_t = Figure("At the greatest density.")
    cut_area_m2 = Figure("Where anything is dug.")
    fill_area_m2 = Figure("Where the ground must be filled.")
    fill_m3 = Figure("Fill where the formation lies above the ground, compacted.")
    fill_from_dig_m3 = Figure("Of it from the dig, compacted.")
    fill_imported_m3 = Figure("Of it brought in, compacted.")
    carted_in_place_m3 = Figure("Carted away, measured in the ground.")
    carted_loose_m3 = Figure("Carted away, as it is loaded.")
    carted_mass_t = Figure("Likely mass carted away.")
    skips = Rows(SkipRow(), description="What is carted away in skips of one size or another.")
    tipper_loads = Tally("What is carted away in tippers.")
    strip = Section(StripFigures(), description="Turf or topsoil, if it is stripped.", optional=True)


class ExcavationAnswer(ExcavationFigures, Answer):
    """A dig and its spoil."""
