"""Formulas: what they say is what they do, in the dimension they state."""

import ast
import importlib
import inspect
import math
import pkgutil
import re
from collections.abc import Sequence
from pathlib import Path

import pint
import pytest

import service.paving
from service.paving.areas import circle_area, polygon_area
from service.paving.formulas import Formula, _Printer, formula
from service.paving.sheets import Sheet

REGISTRY = pint.UnitRegistry()

#: What a collection holds where its description names only the things counted.
ITEM_UNITS = {("arcs_area", "arc_areas"): "m2"}

#: Values that make sense together, for formulas that refuse any three sides or any shares.
SENSIBLE = {
    "triangle_area": (6.0, 3.0, 4.0, 5.0),
    "yield_by_content": (3.0, 0.2, 0.05),
    "yield_by_ratio": (2.25, 0.75, 0.05),
}


def every_formula() -> list[Formula[...]]:
    found = []
    for module in pkgutil.walk_packages(service.paving.__path__, "service.paving."):
        names = vars(importlib.import_module(module.name)).values()
        found += [value for value in names if isinstance(value, Formula) and value.__module__ == module.name]
    return found


def named_after(each: Formula[...]) -> str:
    return f"{each.__module__.rpartition('.')[2]}.{each.__name__}"


FORMULAS = every_formula()
#: Those whose workings show every value; a collection is shown by its number.
PLAIN = [each for each in FORMULAS if set(inspect.get_annotations(each.function).values()) == {float}]
named = pytest.mark.parametrize("each", FORMULAS, ids=named_after)


def pint_unit(text: str) -> pint.Unit:
    """A unit as docstrings spell it: m2, kg/m3, 1."""
    return REGISTRY.Unit("" if text == "1" else re.sub(r"([a-z])(\d)", r"\1**\2", text))


def values_of(each: Formula[...]) -> list[float]:
    primes = (0.31, 0.17, 0.23, 0.13, 0.29, 0.19)
    return list(SENSIBLE.get(each.__name__, primes[: len(each.names)]))


def quantity_arguments(each: Formula[...]) -> list[object]:
    """One argument per parameter, each a pint quantity or a collection of them."""
    kinds = inspect.get_annotations(each.function)
    arguments: list[object] = []
    for name, value in zip(each.names, values_of(each), strict=True):
        unit = ITEM_UNITS.get((each.__name__, name)) or each.parameter_units[name]
        quantity = value * pint_unit(unit)
        if kinds[name] == Sequence[float]:
            arguments.append((quantity, quantity, quantity))
        elif kinds[name] is float:
            arguments.append(quantity)
        else:
            zero = 0 * quantity
            corners = [(zero, zero), (quantity, zero), (quantity, quantity)]
            arguments.append(tuple(zip(corners, [*corners[1:], corners[0]], strict=True)))
    return arguments


def test_the_walk_finds_the_formulas_of_every_trade_sum() -> None:
    modules = {each.__module__.removeprefix("service.paving.") for each in FORMULAS}
    assert {"areas", "depths", "layers", "spots", "yields", "gauging", "mixer_loads", "gaps", "handling"} <= modules
    assert len(FORMULAS) >= 50


@named
def test_a_formula_comes_out_in_the_dimension_it_states(each: Formula[...]) -> None:
    result = each(*quantity_arguments(each))
    assert REGISTRY.Quantity(result).dimensionality == pint_unit(each.unit).dimensionality


def test_a_formula_that_states_a_wrong_unit_is_caught() -> None:
    @formula
    def wrong(length: float, width: float) -> float:
        """Say metres for an area.

        Parameters
        ----------
        length, width : float
            Sides [m].

        Returns
        -------
        float
            Area [m].

        References
        ----------
        Geometry
        """
        return length * width

    with pytest.raises(AssertionError):
        test_a_formula_comes_out_in_the_dimension_it_states(wrong)


@named
def test_a_formula_states_a_unit_for_every_value_and_a_reference(each: Formula[...]) -> None:
    assert set(each.parameter_units) == set(each.names)
    assert each.unit
    assert each.source
    assert "Examples" in each.sections


def worked_by_hand(substitution: str) -> tuple[float, float]:
    """Work a line of workings as a reader would; both sides of its equals sign."""
    left, _, right = re.sub(r"(?<=\d) (?:1/s|[a-z]+\d?(?:/[a-z]+\d?)?)(?![a-z(])", "", substitution).rpartition(" = ")
    for sign, spelled in {"×": "*", "÷": "/", "−": "-", "π": "math.pi", "√": "math.sqrt"}.items():
        left, right = left.replace(sign, spelled), right.replace(sign, spelled)
    left = re.sub("⌈(.*)⌉", r"math.ceil(\1)", re.sub("⌊(.*)⌋", r"math.floor(\1)", left))
    left = re.sub(
        r"([⁰¹²³⁴⁵⁶⁷⁸⁹]+)", lambda found: "**" + found[0].translate(str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹", "0123456789")), left
    )
    return eval(left, {"math": math, "min": min, "max": max}), float(right)


@pytest.mark.parametrize("each", PLAIN, ids=named_after)
def test_the_workings_worked_by_hand_give_the_same_value(each: Formula[...]) -> None:
    values = values_of(each)
    line = each.substitution(tuple(values), each(*values))
    by_hand, shown = worked_by_hand(line)
    assert by_hand == pytest.approx(shown, rel=1e-5), line


def test_workings_that_lie_are_caught() -> None:
    by_hand, shown = worked_by_hand("2 m × (3 m + 1 m)² = 31 m3")
    assert by_hand == pytest.approx(32)
    assert shown == pytest.approx(31)


def printed(expression: str) -> str:
    """An expression of a, b, c as the workings print it."""
    return _Printer({}).text(ast.parse(expression, mode="eval").body)[0]


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("a + b - c", "a + b − c"),
        ("a - (b - c)", "a − (b − c)"),
        ("a - (b + c)", "a − (b + c)"),
        ("a / (b * c)", "a ÷ (b × c)"),
        ("a / b * c", "a ÷ b × c"),
        ("a * (b / c)", "a × (b ÷ c)"),
        ("(a + b) * c", "(a + b) × c"),
        ("a // b", "a ÷ b"),
        ("-a * b", "−a × b"),
        ("-(a + b)", "−(a + b)"),
        ("a**2 + b**3", "a² + b³"),
        ("(a + b)**2", "(a + b)²"),
        ("(a**2 + b**2)**0.5", "√(a² + b²)"),
        ("math.pi * a", "π × a"),
        ("math.ceil(a / b)", "⌈a ÷ b⌉"),
        ("ceil(a)", "⌈a⌉"),
        ("floor(a)", "⌊a⌋"),
        ("abs(a - b)", "|a − b|"),
        ("min(a, b)", "min(a, b)"),
        ("math.tan(a)", "tan(a)"),
        ("sum(x * y for x, y in a)", "Σ x × y"),
        ("sum(x - y for x, y in a)", "Σ (x − y)"),
        ("2 * a", "2 × a"),
    ],
)
def test_an_expression_is_printed_as_it_is_written_by_hand(expression: str, expected: str) -> None:
    assert printed(expression) == expected


@pytest.mark.parametrize("expression", ["a if b else c", "a[0]", "lambda: a", "not a"])
def test_an_expression_no_one_writes_by_hand_is_refused(expression: str) -> None:
    with pytest.raises(TypeError, match="a formula can't hold"):
        printed(expression)


def test_a_formula_of_two_statements_is_refused() -> None:
    def rambling(a: float) -> float:
        """Ramble."""
        b = a
        return b + b

    with pytest.raises(TypeError, match="a docstring and one return"):
        _ = formula(rambling).text


def test_a_value_that_is_squared_is_shown_in_brackets() -> None:
    assert circle_area.substitution((4.2,), 13.854) == "π × (4.2 m)² ÷ 4 = 13.854 m2"


def test_a_collection_is_shown_by_its_number_and_what_it_holds() -> None:
    square = (((0, 0), (2, 0)), ((2, 0), (2, 2)), ((2, 2), (0, 2)), ((0, 2), (0, 0)))
    assert polygon_area.substitution((square,), 4.0) == "Σ (x0 × y1 − x1 × y0) ÷ 2 over 4 sides = 4 m2"


def test_a_value_that_is_neither_a_number_nor_a_collection_is_shown_as_it_is() -> None:
    assert circle_area.substitution(("d",), 1.0) == "π × (d)² ÷ 4 = 1 m2"


def test_a_formula_without_a_docstring_has_no_units_and_no_source() -> None:
    @formula
    def bare(a: float) -> float:
        return a

    assert (bare.parameter_units, bare.unit, bare.source) == ({}, "", "")


def test_a_sheet_writes_down_what_it_works_under_its_headings() -> None:
    sheet = Sheet()
    value = sheet.section("sub_base").section("edge").work("area", circle_area, diameter=2.0)
    (step,) = sheet.steps
    assert (step.figure, step.inputs, step.value) == ("sub_base.edge.area", (2.0,), value)
    assert value == pytest.approx(3.14159265)


#: Pure numbers: counts, halves, powers, turns. Nothing physical is known by these alone.
PURE = {0, 1, 2, 3, 4, 5, 6, 10, 0.5}
#: Rounding of floats, as a share of one.
ROUNDING = {1e-9, 1e-12}
#: Display in mm or l, and in percent: only inside a sentence.
DISPLAY = {100, 1000}
#: Fineness of a drawing, ranks of a printer, the definition of the tonne, the name of a skip: nothing of a material.
EXCEPTIONS = {
    ("outlines.py", 0.0005),
    ("openings.py", 1e-4),
    ("formulas.py", 9),
    ("wants.py", 1000),
    ("cartings.py", 8),
}


def is_spoken(node: ast.AST) -> bool:
    """Whether a piece of code is filled into a sentence."""
    filled = isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "format"
    return filled or isinstance(node, ast.FormattedValue)


def bare_constants(code: str, file: str = "") -> list[str]:
    """Numbers in a module that belong into the reference tables."""
    tree = ast.parse(code)
    spoken = {id(node) for text in ast.walk(tree) if is_spoken(text) for node in ast.walk(text)}
    return [
        f"{file}:{node.lineno}: {node.value}"
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, int | float | complex)
        and node.value not in PURE | ROUNDING | (DISPLAY if id(node) in spoken else set())
        and (file, node.value) not in EXCEPTIONS
    ]


TRADE = sorted(Path(service.paving.__file__).parent.glob("*.py"))


@pytest.mark.parametrize("path", TRADE, ids=lambda path: path.name)
def test_no_module_of_the_trade_holds_a_bare_physical_constant(path: Path) -> None:
    assert bare_constants(path.read_text("utf-8"), path.name) == []


@pytest.mark.parametrize(
    "code",
    [
        "DENSITY = 2100",
        "mass = volume * 2.1",
        "water = mass / 1000",
        "def volume(depth=0.15): return depth",
        "limit = {'kg': 25}",
        "share = area * 1.05",
    ],
)
def test_a_bare_physical_constant_is_caught(code: str) -> None:
    assert len(bare_constants(code)) == 1


def test_a_number_that_only_turns_metres_into_millimetres_in_a_sentence_is_let_through() -> None:
    assert bare_constants("f'{depth * 1000:g} mm'") == []
    assert bare_constants("'{:g} mm'.format(depth * 1000)") == []
