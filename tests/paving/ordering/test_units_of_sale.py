"""Quantities from one unit of sale into another, held against sizes and densities worked by hand."""

import pytest

from service.paving.errors import OutOfRange
from service.paving.ordering.goods import Good, Unit
from service.paving.ordering.units_of_sale import in_unit, unit_of_sale
from service.paving.ordering.written_quantities import Unclear
from service.paving.slabs import Slab

FLAG = Good("A", "Flag", "slab", "each", (), mass=43.0, slabs=(Slab("Flag", 0.9, 0.6, 0.038),))
BY_AREA = Good("B", "Flag", "slab", "m2", (), mass=80.0, slabs=(Slab("Flag", 0.9, 0.6, 0.038),))
KERB = Good("C", "Kerb", "edging", "each", (), slabs=(Slab("Kerb", 0.915, 0.125, 0.255),))
BY_LENGTH = Good("D", "Edging", "edging", "m", (), mass=20.0, slabs=(Slab("Edging", 0.5, 0.05, 0.15),))
STONE = Good("E", "Stone", "type_1", "t", (), loose_density=1700.0)
BY_VOLUME = Good("F", "Stone", "type_1", "m3", (), loose_density=1700.0)


@pytest.mark.parametrize(
    ("good", "quantity", "unit", "to", "expected"),
    [
        (FLAG, 10, "each", "m2", 5.4),
        (FLAG, 5.4, "m2", "each", 10),
        (FLAG, 2, "each", "kg", 86.0),
        (BY_AREA, 10, "each", "m2", 5.4),
        (BY_AREA, 1, "each", "kg", 43.2),
        (KERB, 10, "each", "m", 9.15),
        (KERB, 9.15, "m", "each", 10),
        (BY_LENGTH, 3, "each", "m", 1.5),
        (BY_LENGTH, 3, "each", "kg", 30.0),
        (STONE, 2, "m3", "t", 3.4),
        (STONE, 3400, "kg", "m3", 2),
        (STONE, 1000, "l", "t", 1.7),
        (BY_VOLUME, 1.7, "t", "m3", 1),
        (BY_VOLUME, 1, "m3", "l", 1000),
    ],
)
def test_a_good_is_turned_by_its_own_size_and_densities(
    good: Good, quantity: float, unit: Unit, to: Unit, expected: float
) -> None:
    assert in_unit(quantity, unit, to, good, {}) == pytest.approx(expected, rel=1e-12)


def test_the_goods_own_density_comes_before_the_jobs() -> None:
    assert in_unit(1.0, "m3", "t", STONE, {"t": 1.5, "m3": 1.0}) == pytest.approx(1.7)
    assert in_unit(1.0, "m3", "t", None, {"t": 1.5, "m3": 1.0}) == pytest.approx(1.5)


@pytest.mark.parametrize(("good", "unit", "to"), [(KERB, "each", "kg"), (FLAG, "each", "m"), (STONE, "m2", "t")])
def test_what_nothing_says_is_not_guessed(good: Good, unit: Unit, to: Unit) -> None:
    with pytest.raises(OutOfRange, match="can't be turned into"):
        in_unit(1.0, unit, to, good, {})


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("T", "t"),
        ("tonnes", "t"),
        ("KG", "kg"),
        ("cubic metres", "m3"),
        ("m\u00b2", "m2"),
        ("lin. m", "m"),
        ("Litres", "l"),
        ("No.", "each"),
        ("flags", "each"),
        ("roll", None),
        ("", None),
    ],
)
def test_common_words_are_units(text: str, unit: str | None) -> None:
    assert unit_of_sale(text) == unit


@pytest.mark.parametrize("text", ["ton", "Tons"])
def test_a_ton_is_not_taken_for_a_tonne(text: str) -> None:
    with pytest.raises(Unclear, match="two other tons"):
        unit_of_sale(text)
