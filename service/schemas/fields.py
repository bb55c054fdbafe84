"""Fields of a request: each reads one value, repeats it as understood, and documents itself.

`default` is written as the client would write it. A value that breaks the documented
schema raises a plain message (400); one that fits it but can't be raises `Impossible` (422).
"""

import math
import re
from collections.abc import Callable
from difflib import get_close_matches
from enum import StrEnum
from fractions import Fraction
from typing import Any

from marshmallow import ValidationError, fields

from service.paving.reference import table
from service.schemas.errors import Impossible
from service.schemas.grammar import Dimension, plain

Resolve = Callable[[Any], dict[str, Any]]


def _no_objects(schema: Any) -> dict[str, Any]:
    raise TypeError(f"{schema} can't stand in a query")


class WireField(fields.Field[Any]):
    """A field that can document itself and repeat what it read.

    Parameters
    ----------
    default : str, float, bool or None
        What stands for the field when it is left out, as a client would write it.
    description : str
        A sentence for the contract.
    required : bool
        Whether it must be there.
    """

    def __init__(
        self, *, default: Any = None, description: str = "", required: bool = False, example: Any = None
    ) -> None:
        super().__init__(required=required, allow_none=False, metadata={})
        self.default, self.description, self.example = default, description, example
        if not required:
            self.load_default = None if default is None else self.read(default)

    def read(self, value: Any) -> Any:
        """The value as the trade needs it."""
        raise NotImplementedError

    def shown(self, value: Any) -> Any:
        """The value as a client would write it."""
        return value

    def made(self, value: Any) -> Any:
        """What the trade is handed."""
        return value

    def document(self, resolve: Resolve) -> dict[str, Any]:
        """The field's JSON Schema."""
        raise NotImplementedError

    def query_value(self, text: str) -> Any:
        """The JSON value that a query's text stands for."""
        return text

    def query_document(self) -> dict[str, Any]:
        """The JSON Schema of the field in a query."""
        return self.document(_no_objects)

    def _deserialize(self, value: Any, attr: Any, data: Any, **kwargs: Any) -> Any:
        return self.read(value)


class Quantity(WireField):
    """Text with a unit; `limit` names its bounds in the reference table of limits."""

    def __init__(self, dimension: Dimension, limit: str, **kwargs: Any) -> None:
        self.dimension, self.limit = dimension, table("limits")[limit]
        super().__init__(**kwargs)

    def read(self, value: Any) -> float:
        if not isinstance(value, str):
            raise ValidationError(self._right_form(value))
        try:
            amount = self.dimension.read(value)
        except ValueError:
            raise ValidationError(self._right_form(value)) from None
        if not self.limit["least"] <= amount <= self.limit["most"]:
            raise ValidationError(Impossible(self._out_of_range(amount)))
        return amount

    def shown(self, value: float) -> str:
        return self.dimension.written(value)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {
            "type": "string",
            "pattern": f"^{self.dimension.pattern}$",
            "examples": [self.example or self.dimension.examples[0]],
        }

    def bounds(self) -> str:
        """The bounds in words."""
        return f"{self.dimension.said(self.limit['least'])} to {self.dimension.said(self.limit['most'])}"

    def _right_form(self, value: Any) -> str:
        name, right = self.dimension.name, " or ".join(f"'{example}'" for example in self.dimension.examples)
        if isinstance(value, int | float) and not isinstance(value, bool):
            return f"A {name} needs its unit: write {right}, not a bare number."
        if isinstance(value, str) and re.fullmatch(r"[0-9.,]{1,20}", value, re.ASCII):
            return f"A {name} needs its unit: write {right}, not '{value}' alone."
        return f"Not a {name}: write a number and one of {', '.join(self.dimension.units)}, such as {right}."

    def _out_of_range(self, amount: float) -> str:
        nearest = self.limit["least"] if amount < self.limit["least"] else self.limit["most"]
        return (
            f"{self.dimension.said(amount)} is outside {self.bounds()} for {self.limit['of']}; "
            f"the nearest that can be asked is {self.dimension.said(nearest)}."
        )


class JointWidth(Quantity):
    """A joint: none at all, or a width between the bounds."""

    def read(self, value: Any) -> float:
        return 0.0 if isinstance(value, str) and self.dimension.value(value) == 0 else super().read(value)

    def bounds(self) -> str:
        return f"0 mm, or {super().bounds()}"


class Number(WireField):
    """A JSON number between finite bounds."""

    kind, wrong = "number", "Not a number."

    def __init__(self, least: float, most: float, **kwargs: Any) -> None:
        self.least, self.most = least, most
        super().__init__(**kwargs)

    def read(self, value: Any) -> float:
        if type(value) not in (int, float) or not math.isfinite(value):
            raise ValidationError(self.wrong)
        if not self.least <= value <= self.most:
            raise ValidationError(f"Must be from {plain(self.least)} to {plain(self.most)}.")
        return float(value) + 0.0

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"type": self.kind, "minimum": self.least, "maximum": self.most}

    def query_value(self, text: str) -> Any:
        return number_of(text)


class Count(Number):
    """A JSON integer between bounds; 4.0 is one too."""

    kind, wrong = "integer", "Not a whole number."

    def read(self, value: Any) -> int:
        number = super().read(value)
        if not number.is_integer():
            raise ValidationError(self.wrong)
        return int(number)


class Flag(WireField):
    """true or false, nothing that looks like it."""

    def read(self, value: Any) -> bool:
        if value is not True and value is not False:
            raise ValidationError("Must be true or false.")
        return bool(value)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"type": "boolean"}

    def query_value(self, text: str) -> Any:
        return {"true": True, "false": False}.get(text, text)


class Choice(WireField):
    """One of a closed list of words."""

    def __init__(self, choices: type[StrEnum] | tuple[str, ...], **kwargs: Any) -> None:
        self.choices: dict[str, Any] = {str(choice): choice for choice in choices}
        super().__init__(**kwargs)

    def read(self, value: Any) -> Any:
        if not isinstance(value, str):
            raise ValidationError(f"Must be one of {', '.join(self.choices)}.")
        if value not in self.choices:
            near = get_close_matches(value, self.choices, n=1, cutoff=0.5)
            hint = f" The nearest is '{near[0]}'." if near else ""
            raise ValidationError(f"Must be one of {', '.join(self.choices)}.{hint}")
        return self.choices[value]

    def shown(self, value: Any) -> str:
        return str(value)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"type": "string", "enum": list(self.choices)}


class Text(WireField):
    """Text that matches a pattern, fully."""

    def __init__(self, pattern: str, form: str, **kwargs: Any) -> None:
        self.pattern, self.form = re.compile(pattern, re.ASCII), form
        super().__init__(**kwargs)

    def read(self, value: Any) -> Any:
        if not isinstance(value, str) or not self.pattern.fullmatch(value):
            raise ValidationError(f"Must be {self.form}.")
        return value

    def document(self, resolve: Resolve) -> dict[str, Any]:
        example = {"examples": [self.example]} if self.example else {}
        return {"type": "string", "pattern": f"^(?:{self.pattern.pattern})$", **example}


class Key(Text):
    """The key of a list that may grow, such as a material: looked up by the trade."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(r"[a-z][a-z0-9_]{0,39}", "a key of small letters, figures and underscores", **kwargs)


class Name(Text):
    """A name that is repeated in answers and drawings: no control characters, no spreadsheet formula."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(
            "[A-Za-z0-9\u00c0-\u024f][A-Za-z0-9\u00c0-\u024f .,/()x_-]{0,59}",
            "a name of letters, figures, spaces and . , / ( ) _ -, not above 60 characters",
            **kwargs,
        )


class Ratio(Text):
    """A proper fraction such as "1/2"."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(r"0|[1-9][0-9]?/[1-9][0-9]?", "a fraction such as '1/2' or '1/3', or '0'", **kwargs)

    def read(self, value: Any) -> Fraction:
        fraction = Fraction(super().read(value))
        if fraction >= 1:
            raise ValidationError(Impossible("Must be below 1: a course moved by a whole slab isn't moved."))
        return fraction

    def shown(self, value: Fraction) -> str:
        return str(value)


class Parts(Text):
    """Mix by volume, cement first: "1:4" or "1:2:4"."""

    PART = r"(?:0\.[1-9]|[1-9][0-9]?(?:\.[0-9])?)"

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(
            rf"{self.PART}:{self.PART}(?::{self.PART})?", "parts by volume such as '1:4' or '1:2:4'", **kwargs
        )

    def read(self, value: Any) -> tuple[float, ...]:
        return tuple(float(part) for part in super().read(value).split(":"))

    def shown(self, value: tuple[float, ...]) -> str:
        return ":".join(f"{part:g}" for part in value)


#: A number as JSON writes it.
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?", re.ASCII)


def number_of(text: str) -> Any:
    """The JSON number a query's text is; any other text stays as it is, to be refused."""
    if len(text) > 40 or not _NUMBER.fullmatch(text):
        return text
    return int(text) if text.lstrip("-").isdigit() else float(text)
