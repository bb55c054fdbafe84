"""Figures: what leaves, with the unit in each key.

A figure's unit is the ending of its key (`_mm _m _m2 _m3 _l _kg _t _h _l_s _percent`);
the trade's SI value is turned into it and rounded once, here.
"""

from collections.abc import Callable
from functools import cached_property
from operator import attrgetter
from typing import Any

from marshmallow import Schema, fields

from service.schemas.grammar import rounded
from service.schemas.quantities import Ending, ending_of

Resolve = Any
Show = Callable[[Any], Any]


class AnswerField(fields.Field[Any]):
    """A field of an answer: reads the trade's result, documents itself.

    Parameters
    ----------
    description : str
        A sentence for the contract.
    of : str
        Attribute of the trade's result; the key without its unit if left out.
    optional : bool
        Whether it may be null.
    absent : bool
        Whether it is left out when there is nothing to say.
    """

    def __init__(self, description: str = "", of: str = "", optional: bool = False, absent: bool = False) -> None:
        super().__init__(required=not absent)
        self.description, self.of, self.optional, self.absent = description, of, optional, absent

    @cached_property
    def ending(self) -> Ending | None:
        """The unit its key ends in, if it is a quantity."""
        return ending_of(self.name or "")

    @cached_property
    def factor(self) -> float:
        """From the trade's SI into the unit of the key."""
        return self.ending.factor if self.ending else 1.0

    @cached_property
    def attribute_name(self) -> str:
        """What the trade calls it."""
        key = self.name or ""
        return self.of or (key.removesuffix(f"_{self.ending.text}") if self.ending else key)

    def shown(self, value: Any) -> Any:
        """The trade's value as it leaves."""
        return value

    def document(self, resolve: Resolve) -> dict[str, Any]:
        """The field's JSON Schema."""
        return {"type": ["string", "null"] if self.optional else "string"}


class Figure(AnswerField):
    """A physical quantity, in the unit its key ends in."""

    def shown(self, value: Any) -> Any:
        return None if value is None else rounded(value * self.factor)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"type": ["number", "null"] if self.optional else "number"}


class Tally(AnswerField):
    """A count."""

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"type": ["integer", "null"] if self.optional else "integer"}


class Word(AnswerField):
    """Text."""

    def shown(self, value: Any) -> Any:
        return None if value is None else str(value)


class Money(AnswerField):
    """An amount of money as decimal text: never a float."""

    def shown(self, value: Any) -> Any:
        return None if value is None else str(value)


class Truth(AnswerField):
    """Yes or no."""

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"type": "boolean"}


class Numbers(AnswerField):
    """Nested lists of numbers in the unit the key ends in, such as rings of points.

    Parameters
    ----------
    depth : int
        How many lists deep.
    """

    def __init__(self, depth: int, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.depth = depth

    def shown(self, value: Any) -> Any:
        return self._turned(value)

    def _turned(self, value: Any) -> Any:
        return [self._turned(v) for v in value] if isinstance(value, (list, tuple)) else rounded(value * self.factor)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        inner: dict[str, Any] = {"type": "number"}
        for _ in range(self.depth):
            inner = {"type": "array", "items": inner}
        return inner


class Section(AnswerField):
    """A part of an answer with figures of its own."""

    def __init__(self, schema: "Figures", **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.schema = schema

    def shown(self, value: Any) -> Any:
        return None if value is None else self.schema.shown(value)

    def document(self, resolve: Resolve) -> dict[str, Any]:
        ref: dict[str, Any] = resolve(self.schema)
        return {"anyOf": [ref, {"type": "null"}]} if self.optional else dict(ref)


class Rows(AnswerField):
    """A list of parts, each with the same figures."""

    def __init__(self, schema: "Figures", **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.schema = schema

    def shown(self, value: Any) -> Any:
        return [self.schema.shown(row) for row in value]

    def document(self, resolve: Resolve) -> dict[str, Any]:
        return {"type": "array", "items": resolve(self.schema)}


def _reached(result: Any, path: tuple[str, ...]) -> Any:
    """What a path leads to; None where a part on the way is missing."""
    for name in path:
        result = None if result is None else getattr(result, name)
    return result


class Figures(Schema):
    """Figures read off one result of the trade."""

    @cached_property
    def plan(self) -> list[tuple[str, str, AnswerField]]:
        """Key, attribute and field of everything that leaves."""
        return [(key, f.attribute_name, f) for key, f in self.fields.items() if isinstance(f, AnswerField)]

    @cached_property
    def _steps(self) -> list[tuple[str, tuple[str, ...], Show, bool]]:
        """Key, the attributes after the first, how it is shown, and whether it may be absent, of all that leaves."""
        return [(key, tuple(path.split(".")[1:]), field.shown, field.absent) for key, path, field in self.plan]

    @cached_property
    def _read(self) -> Callable[[Any], tuple[Any, ...]]:
        """Reads the first attribute of everything that leaves off a result, all at once."""
        names = [path.partition(".")[0] for _, path, _ in self.plan]
        # Of one name alone `attrgetter` would hand the value back without a tuple round it.
        return attrgetter(*names, names[0])

    def shown(self, result: Any) -> dict[str, Any]:
        """The figures of a result as they leave."""
        shown = {}
        for value, (key, rest, show, absent) in zip(self._read(result), self._steps, strict=False):
            reached = _reached(value, rest) if rest else value
            if reached or not absent:
                shown[key] = show(reached)
        return shown

    @cached_property
    def keys(self) -> dict[str, str]:
        """Key of each figure by the trade's own name for it."""
        found: dict[str, str] = {}
        for key, attribute, field in self.plan:
            last = attribute.rpartition(".")[2]
            if isinstance(field, Section | Rows):
                found |= {f"{last}.{inner}": f"{key}.{full}" for inner, full in field.schema.keys.items()}
            found.setdefault(last, key)
        return found

    @cached_property
    def singles(self) -> list[str]:
        """Keys of the figures that are one number each."""
        return [key for key, _, field in self.plan if isinstance(field, Figure | Tally)]
