"""Workings: how each figure was come by, written as JSON at one stroke.

A whole job takes two hundred steps. What goes with a step whatever its numbers is made into a text with places once;
`format` fills the places in.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from math import isfinite

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
    filled : callable
        Puts in the values, what came out in SI, and what came out in its unit; fails at a value that is no number.
    spelled : callable
        Puts in the substitution as JSON text, and what came out in its unit.
    factor : float
        From SI into the unit.
    """

    filled: Callable[..., str]
    spelled: Callable[..., str]
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
                return row.filled(*step.inputs, step.value, value)
            except (TypeError, ValueError):  # a collection, or a word, among the values
                pass
        return row.spelled(_json(step.formula.substitution(step.inputs, step.value)), value)

    def _made_row(self, figure: str, formula: Formula[...]) -> _Row:
        key = self.keys.get(figure, figure)
        ending = ending_of(key) if key != figure else None
        factor, unit = (ending.factor, ending.text) if ending else (1.0, formula.unit)
        head = f'{{{{"figure":{_fixed(key)},"formula":{_fixed(formula.text)},"substitution":'
        tail = f',"unit":{_fixed(unit)},"source":{_fixed(formula.source)}}}}}'
        last = f"{{{len(formula.names) + 1}:.{FIGURES}g}}"
        filled = f'{head}{_json(formula.places)},"value":{last}{tail}'
        return _Row(filled.format, f'{head}{{0}},"value":{{1:.{FIGURES}g}}{tail}'.format, factor)


def _json(text: str) -> str:
    return orjson.dumps(text).decode()


def _fixed(text: str) -> str:
    """A text as JSON in which `format` finds no place to fill."""
    return _json(text).replace("{", "{{").replace("}", "}}")
