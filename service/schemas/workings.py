"""Workings: how each figure was come by, written as JSON at one stroke.

A whole job takes two hundred steps. What goes with a step whatever its numbers is made into a text with places once;
`%` fills the places in, in four fifths of the time `format` takes.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from math import isfinite
from operator import itemgetter
from string import Formatter

import orjson

from service.paving.formulas import Formula
from service.paving.sheets import Step
from service.schemas.figures import Figure, Figures, Word
from service.schemas.grammar import FIGURES
from service.schemas.quantities import ending_of


class WorkingRow(Figures):
    """How one figure was worked."""

    figure = Word("The figure, as its key in this answer where it has one.")
    formula = Word("The formula in words.")
    substitution = Word("With its values put in, in SI units.")
    value = Figure("What came out, in `unit`.")
    unit = Word("Unit of the value.")
    source = Word("Where the formula comes from.")


@dataclass(frozen=True)
class _Row:
    """The JSON of a step but for its numbers.

    Parameters
    ----------
    filled : str
        With places for numbers.
    order : callable
        Of the values, what came out in SI and what came out in its unit: those that go in the places, one by one.
    spelled : str
        With places for the substitution as JSON text and for what came out in its unit.
    factor : float
        From SI into the unit.
    """

    filled: str
    order: Callable[[tuple[object, ...]], tuple[object, ...]]
    spelled: str
    factor: float


class Workings:
    """Writes out steps.

    Parameters
    ----------
    keys : dict
        Key in the answer of each figure, by the trade's own name for it.
    """

    def __init__(self, keys: dict[str, str]) -> None:
        self.keys = keys
        self._row = lru_cache(maxsize=2048)(self._made_row)

    def written(self, steps: list[Step]) -> orjson.Fragment:
        """The steps as JSON.

        Raises
        ------
        ArithmeticError
            If a figure came out as no number, which is the service's own fault.
        """
        return orjson.Fragment(f"[{','.join([self._written(step) for step in steps])}]")

    def _written(self, step: Step) -> str:
        row = self._row(step.figure, step.formula)
        value = step.value * row.factor + 0.0  # never a negative zero
        if not isfinite(value):  # JSON has no such number, and nobody checks this text again
            raise ArithmeticError(f"{step.figure} came out as {value}.")
        if not step.formula.adds_up:
            try:
                return row.filled % row.order((*step.inputs, step.value, value))
            except TypeError:  # a collection, or a word, among the values
                pass
        return row.spelled % (_json(step.formula.substitution(step.inputs, step.value)), value)

    def _made_row(self, figure: str, formula: Formula[...]) -> _Row:
        key = self.keys.get(figure, figure)
        ending = ending_of(key) if key != figure else None
        factor, unit = (ending.factor, ending.text) if ending else (1.0, formula.unit)
        head = f'{{"figure":{_json(key)},"formula":{_json(formula.text)},"substitution":'
        tail = f',"unit":{_json(unit)},"source":{_json(formula.source)}}}'
        substitution, order = _numbered(_json(formula.places))
        last = f'"value":%.{FIGURES}g'
        return _Row(
            f"{_fixed(head)}{substitution},{last}{_fixed(tail)}",
            itemgetter(*order, len(formula.names) + 1),
            f"{_fixed(head)}%s,{last}{_fixed(tail)}",
            factor,
        )


def _json(text: str) -> str:
    return orjson.dumps(text).decode()


def _fixed(text: str) -> str:
    """A text in which `%` finds no place to fill."""
    return text.replace("%", "%%")


def _numbered(text: str) -> tuple[str, list[int]]:
    """A text whose places `format` fills as one whose places `%` fills, and which value goes in each."""
    parts = list(Formatter().parse(text))
    turned = "".join(_fixed(words) + (f"%{form}" if name else "") for words, name, form, _ in parts)
    return turned, [int(name) for _, name, _, _ in parts if name]
