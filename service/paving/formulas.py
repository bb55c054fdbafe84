"""A formula stated once: the code, the docstring and the workings are one definition.

A formula is a plain function with a numpydoc docstring and a single ``return`` of one
expression. Because the body is plain arithmetic, a pint quantity flows through it as
well as a float; because the text of the workings is printed from the body itself, it
can't say anything but what is computed.
"""

import ast
import inspect
import re
import textwrap
from collections.abc import Callable
from functools import cached_property
from typing import Generic, ParamSpec

Inputs = ParamSpec("Inputs")

_UNIT = re.compile(r"\[([^\]]+)\]")
_SUPERSCRIPTS = str.maketrans("0123456789-.", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻·")
_BINARY: dict[type[ast.operator], tuple[str, int]] = {
    ast.Add: (" + ", 1),
    ast.Sub: (" − ", 1),
    ast.Mult: (" × ", 2),
    ast.Div: (" ÷ ", 2),
    ast.FloorDiv: (" ÷ ", 2),
}
_BRACKETS = {"ceil": ("⌈", "⌉"), "floor": ("⌊", "⌋"), "abs": ("|", "|"), "sum": ("Σ ", "")}
_ATOM, _POWER = 9, 4


class Formula(Generic[Inputs]):
    """A function of the trade that can also say what it does.

    Parameters
    ----------
    function : callable
        Positional parameters only, a docstring with a unit in square brackets for each
        parameter and for the value returned, and a body of one ``return``.
    """

    def __init__(self, function: Callable[Inputs, float]) -> None:
        self.function = function
        self.__doc__ = function.__doc__
        self.__module__ = function.__module__
        self.__name__ = function.__name__
        self.__wrapped__ = function
        self.names = tuple(inspect.signature(function).parameters)

    def __call__(self, *args: Inputs.args, **kwargs: Inputs.kwargs) -> float:
        return self.function(*args, **kwargs)

    @cached_property
    def text(self) -> str:
        """The formula in words and signs, as printed from its body."""
        return self._printed({name: name.replace("_", " ") for name in self.names})

    @cached_property
    def sections(self) -> dict[str, str]:
        """The sections of the docstring by heading."""
        doc = inspect.cleandoc(self.function.__doc__ or "")
        parts = re.split(r"^([A-Z][A-Za-z ]+)\n-{3,}\n", doc, flags=re.M)
        return dict(zip(parts[1::2], parts[2::2], strict=True))

    @cached_property
    def parameter_units(self) -> dict[str, str]:
        """Unit of each parameter: the first square brackets of its description."""
        return {name: marks[0] for name, marks in self._marks.items()}

    @cached_property
    def collection_names(self) -> dict[str, str]:
        """What a collection holds, when it is shown by its number: the last square brackets."""
        return {name: marks[-1] for name, marks in self._marks.items()}

    @cached_property
    def _marks(self) -> dict[str, list[str]]:
        entries = re.findall(r"^(\w+(?:, \w+)*) : .*\n((?:    .*\n?)+)", self.sections.get("Parameters", ""), re.M)
        return {name: marks for names, text in entries if (marks := _UNIT.findall(text)) for name in names.split(", ")}

    @cached_property
    def unit(self) -> str:
        """Unit of the value returned."""
        found = _UNIT.search(self.sections.get("Returns", ""))
        return found.group(1) if found else ""

    @cached_property
    def source(self) -> str:
        """Where the formula comes from."""
        return " ".join(self.sections.get("References", "").split())

    def substitution(self, values: tuple[object, ...], result: float) -> str:
        """The formula with its values put in, and what comes out."""
        if self.adds_up:
            return self._spelled(values, result)
        try:
            return self.places.format(*values, result)
        except (TypeError, ValueError):  # a collection, or a word, among the values
            return self._spelled(values, result)

    @cached_property
    def adds_up(self) -> bool:
        """Whether it adds up a collection, which has no place of its own in the text."""
        return any(isinstance(node, ast.GeneratorExp) for node in ast.walk(self._expression))

    @cached_property
    def places(self) -> str:
        """The formula with a place for each number, its unit behind it, and one for the result: `format` fills them."""
        units = [_suffix(self.parameter_units.get(name, "")) for name in self.names]
        words = {name: f"{{{i}:.6g}}{unit}" for i, (name, unit) in enumerate(zip(self.names, units, strict=True))}
        return f"{self._printed(words)} = {{{len(words)}:.6g}}{_suffix(self.unit)}"

    def _spelled(self, values: tuple[object, ...], result: float) -> str:
        shown = (self._shown(name, value) for name, value in zip(self.names, values, strict=True))
        return self._template.format(*shown) + f" = {_number(result)}{_suffix(self.unit)}"

    def _shown(self, name: str, value: object) -> str:
        if isinstance(value, tuple | list):
            return f"{len(value)} {self.collection_names.get(name, 'terms')}"
        if isinstance(value, float | int):
            return _number(value) + _suffix(self.parameter_units.get(name, ""))
        return str(value)

    @cached_property
    def _template(self) -> str:
        if self.adds_up:
            return self.text + " over " + " and ".join(f"{{{i}}}" for i in range(len(self.names)))
        return self._printed({name: f"{{{i}}}" for i, name in enumerate(self.names)})

    @cached_property
    def _expression(self) -> ast.expr:
        tree = ast.parse(textwrap.dedent(inspect.getsource(self.function)))
        body = tree.body[0]
        assert isinstance(body, ast.FunctionDef)
        last = body.body[-1]
        if len(body.body) != 2 or not isinstance(last, ast.Return) or last.value is None:
            raise TypeError(f"{self.__name__} must be a docstring and one return")
        return last.value

    def _printed(self, words: dict[str, str]) -> str:
        return _Printer(words).text(self._expression)[0]


def formula(function: Callable[Inputs, float]) -> Formula[Inputs]:
    """Make a formula of a function."""
    return Formula(function)


class _Printer:
    """Print an expression the way it is written by hand."""

    def __init__(self, words: dict[str, str]) -> None:
        self.words = words

    def text(self, node: ast.expr) -> tuple[str, int]:
        match node:
            case ast.BinOp(left, ast.Pow(), right):
                return self._power(left, right)
            case ast.BinOp(left, op, right):
                sign, rank = _BINARY[type(op)]
                return self._at(left, rank) + sign + self._at(right, rank + 1), rank
            case ast.UnaryOp(ast.USub(), operand):
                return "−" + self._at(operand, _POWER), _POWER
            case ast.Constant(value):
                return str(value), _ATOM
            case ast.Name(name):
                return self.words.get(name, name), _ATOM
            case ast.Attribute(ast.Name("math"), "pi"):
                return "π", _ATOM
            case ast.Call(ast.Attribute(ast.Name("math"), name), args) | ast.Call(ast.Name(name), args):
                return self._call(name, [self.text(arg)[0] for arg in args]), _ATOM
            case ast.GeneratorExp(element):
                return self._at(element, 2), _ATOM
        raise TypeError(f"a formula can't hold {ast.unparse(node)}")

    def _at(self, node: ast.expr, rank: int) -> str:
        text, own = self.text(node)
        return text if own >= rank else f"({text})"

    def _power(self, base: ast.expr, exponent: ast.expr) -> tuple[str, int]:
        if ast.unparse(exponent) == "0.5":
            return f"√({self.text(base)[0]})", _ATOM
        inner = self._at(base, _ATOM)
        if inner.startswith("{"):
            inner = f"({inner})"
        return inner + ast.unparse(exponent).translate(_SUPERSCRIPTS), _POWER

    @staticmethod
    def _call(name: str, args: list[str]) -> str:
        listed = ", ".join(args)
        left, right = _BRACKETS.get(name, (f"{name}(", ")"))
        return left + listed + right


def _number(value: float) -> str:
    return f"{value:.6g}"


def _suffix(unit: str) -> str:
    return "" if unit in ("", "1") else f" {unit}"
