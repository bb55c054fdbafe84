"""Shapes on plan as they are asked for: five kinds, as an area, as an opening, or alone."""

import re
from collections.abc import Callable, Sequence
from typing import Any

from marshmallow import ValidationError

from service.paving import areas as trade
from service.paving.errors import ImpossibleShape
from service.schemas.fields import Choice, Count, Quantity, Resolve, WireField
from service.schemas.grammar import rounded
from service.schemas.nested import Either, Object, Objects, OneOf
from service.schemas.quantities import AREA, LENGTH, POSITION
from service.schemas.requests import Question, Request

#: Corners in one polygon: more than any site survey by tape, few enough to check every pair.
MOST_POINTS, MOST_OPENINGS = 500, 50

_COORDINATE = r"-?(?:0|[1-9][0-9]{0,5})(?:\.[0-9]{1,6})?"
#: Corners as in the `points` of an SVG polygon.
_QUERY_POINTS = re.compile(rf"{_COORDINATE},{_COORDINATE}(?: {_COORDINATE},{_COORDINATE}){{2,199}}", re.ASCII)


class PointSchema(Request):
    """A point on plan."""

    x = Quantity(POSITION, "position", required=True, description="To the right.")
    y = Quantity(POSITION, "position", required=True, description="Upwards on paper.")

    def make(self, values: dict[str, Any]) -> tuple[float, float]:
        return values["x"], values["y"]


class ArcSchema(Request):
    """A side of a polygon that is an arc."""

    side = Count(
        1, MOST_POINTS, required=True, description="Which side: the first runs from the first point to the second."
    )
    rise = Quantity(
        POSITION, "arc_rise", required=True, description="Height of the arc over its chord; negative if hollow."
    )


class Points(WireField):
    """Corners as pairs of numbers in the polygon's own unit; in a query as "0,0 6,0 6,3"."""

    def read(self, value: Any) -> list[list[float]]:
        if type(value) is not list:
            raise ValidationError("Must be a list of [x, y] pairs.")
        if len(value) > MOST_POINTS:
            raise ValidationError(f"Must hold at most {MOST_POINTS} points.")
        errors = {k: ["Must be a pair of numbers [x, y]."] for k, pair in enumerate(value) if not _is_pair(pair)}
        if errors:
            raise ValidationError(errors)
        if len(value) < 3:
            raise ValidationError("A polygon needs three points or more.")
        return [[float(x), float(y)] for x, y in value]

    def document(self, resolve: Resolve) -> dict[str, Any]:
        number = {"type": "number", "minimum": -1e6, "maximum": 1e6}
        pair = {"type": "array", "items": number, "minItems": 2, "maxItems": 2}
        return {"type": "array", "items": pair, "minItems": 3, "maxItems": MOST_POINTS}

    def query_value(self, text: str) -> Any:
        if not _QUERY_POINTS.fullmatch(text):
            return text
        return [[float(n) for n in pair.split(",")] for pair in text.split(" ")]

    def query_document(self) -> dict[str, Any]:
        return {"type": "string", "pattern": f"^{_QUERY_POINTS.pattern}$", "examples": ["0,0 6,0 6,3 4,3 4,5 0,5"]}


def _is_pair(pair: Any) -> bool:
    return type(pair) is list and len(pair) == 2 and all(type(n) in (int, float) and abs(n) <= 1e6 for n in pair)


def _side(description: str) -> Quantity:
    return Quantity(LENGTH, "side", required=True, description=description)


class Rectangle(Request):
    shape = Choice(("rectangle",), required=True)
    length = _side("Along x.")
    width = _side("Along y.")

    def drawn(self, values: dict[str, Any]) -> trade.Shape:
        return trade.rectangle(values["length"], values["width"])


class Circle(Request):
    shape = Choice(("circle",), required=True)
    diameter = _side("Across.")

    def drawn(self, values: dict[str, Any]) -> trade.Shape:
        return trade.circle(values["diameter"])


class Triangle(Request):
    shape = Choice(("triangle",), required=True)
    side_a = _side("The side along x, from (0, 0).")
    side_b = _side("From the far end of side a.")
    side_c = _side("Back to (0, 0).")

    def drawn(self, values: dict[str, Any]) -> trade.Shape:
        return trade.triangle(values["side_a"], values["side_b"], values["side_c"])


class LShape(Request):
    shape = Choice(("l_shape",), required=True)
    length = _side("Of the whole, along x.")
    width = _side("Of the whole, along y.")
    notch_length = _side("Of the missing corner at the upper right, along x.")
    notch_width = _side("Of the missing corner, along y.")

    def drawn(self, values: dict[str, Any]) -> trade.Shape:
        return trade.l_shape(values["length"], values["width"], values["notch_length"], values["notch_width"])


class Polygon(Request):
    shape = Choice(("polygon",), required=True)
    unit = Choice(tuple(LENGTH.units), required=True, description="Unit of the points.")
    points = Points(required=True, description="Corners in order, not closed.")
    arcs = Objects(Object(ArcSchema()), most=MOST_POINTS, description="Sides that are arcs.")

    def drawn(self, values: dict[str, Any]) -> trade.Shape:
        factor = LENGTH.factors[values["unit"]]
        points = [(rounded(x * factor), rounded(y * factor)) for x, y in values["points"]]
        _check_reach(points)
        arcs = values.get("arcs") or ()
        _check_arcs(arcs)
        return trade.polygon(points, {arc["side"] - 1: arc["rise"] for arc in arcs})


def _check_arcs(arcs: Sequence[dict[str, Any]]) -> None:
    sides = [arc["side"] for arc in arcs]
    for k, side in enumerate(sides):
        if side in sides[:k]:
            raise ImpossibleShape(f"Side {side} has an arc already; give it one rise.", "arcs", k, "side")


def _check_reach(points: list[tuple[float, float]]) -> None:
    for k, point in enumerate(points):
        if max(map(abs, point)) > 1000:
            raise ImpossibleShape(
                f"Point {k + 1} lies {max(map(abs, point)):g} m out; 1000 m is the most. Is the unit right?",
                "points",
                k,
            )


SHAPES: dict[str, type[Request]] = {
    "rectangle": Rectangle,
    "circle": Circle,
    "triangle": Triangle,
    "l_shape": LShape,
    "polygon": Polygon,
}


#: What each of the five does with its fields.
_Draw = Callable[[dict[str, Any]], trade.Shape]


class _Opening(Request):
    drawn: _Draw  # the shape's, whose class this one is put before
    at = Object(PointSchema(), required=True, description="Where the opening's own (0, 0) stands.")

    def make(self, values: dict[str, Any]) -> trade.Shape:
        return self.drawn(values).at(*values["at"])


def _in_role(role: str, base: type[Request]) -> dict[str, Request]:
    """The five shapes with the fields of a role added: distinct classes, so that the contract names them."""
    return {word: type(f"{shape.__name__}{role}", (base, shape), {})() for word, shape in SHAPES.items()}


class _Paved(Request):
    drawn: _Draw  # likewise
    openings = Objects(
        OneOf("shape", _in_role("Opening", _Opening)),
        most=MOST_OPENINGS,
        description="Tree pits, gullies, manhole covers: taken out of the area.",
    )

    def make(self, values: dict[str, Any]) -> Any:
        return trade.area(self.drawn(values), values.get("openings") or ())


class _AreaQuestion(_Paved, Question):
    def make(self, values: dict[str, Any]) -> Any:
        return {"area": super().make(values)}


#: A shape with openings, alone as a whole request.
AREA_QUESTION = OneOf("shape", _in_role("Question", _AreaQuestion))

_AREA = _in_role("Area", _Paved)


def shape_field(description: str = "The plan shape.", required: bool = True) -> OneOf:
    """A field that wants a shape."""
    return OneOf("shape", _AREA, required=required, description=description)


def area_field(description: str = "The plan shape, or its area.", required: bool = True) -> Either:
    """A field that wants a shape, or no more than its measure."""
    return Either(
        Quantity(AREA, "area"), OneOf("shape", _AREA), trade.MeasuredArea, required=required, description=description
    )
