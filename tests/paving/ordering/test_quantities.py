"""Quantities in the unit of sale, worked by hand."""

from collections.abc import Callable

import pytest

from service.paving.errors import OutOfRange
from service.paving.ordering.goods import Good, Unit
from service.paving.ordering.items import item_units
from service.paving.ordering.quantities import (
    area_as_sold,
    count_as_sold,
    length_as_sold,
    mass_as_sold,
    unit_mass,
    volume_as_sold,
)
from service.paving.slabs import Slab

FLAG = Slab("Flag", 0.6, 0.5, 0.05)


def good(unit: Unit, mass: float | None = None, slab: Slab | None = None, density: float | None = None) -> Good:
    slabs = () if slab is None else (slab,)
    return Good("G", "Good", "sharp_sand", unit, (), mass=mass, slabs=slabs, loose_density=density)


@pytest.mark.parametrize(
    ("measure", "sold", "amount", "expected"),
    [
        (mass_as_sold, good("t"), 2100.0, 2.1),
        (mass_as_sold, good("kg"), 2100.0, 2100.0),
        (mass_as_sold, good("m3", mass=1500.0), 2100.0, 1.4),
        (mass_as_sold, good("m3", density=1500.0), 2100.0, 1.4),
        (mass_as_sold, good("l", density=1500.0), 30.0, 20.0),
        (mass_as_sold, good("each", mass=32.0), 320.0, 10.0),
        (volume_as_sold, good("m3"), 1.4, 1.4),
        (volume_as_sold, good("l"), 1.4, 1400.0),
        (volume_as_sold, good("t", density=1500.0), 1.4, 2.1),
        (area_as_sold, good("m2"), 3.0, 3.0),
        (area_as_sold, good("each", slab=FLAG), 3.0, 10.0),
        (count_as_sold, good("each"), 10, 10.0),
        (count_as_sold, good("m2", slab=FLAG), 10, 3.0),
        (count_as_sold, good("m", slab=FLAG), 10, 6.0),
        (length_as_sold, good("m"), 4.5, 4.5),
        (length_as_sold, good("each", slab=FLAG), 4.5, 7.5),
    ],
)
def test_a_need_in_the_unit_of_sale(
    measure: Callable[[Good, float], float], sold: Good, amount: float, expected: float
) -> None:
    assert measure(sold, amount) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("measure", "sold", "missing"),
    [
        (mass_as_sold, good("each"), "the mass of one each"),
        (mass_as_sold, good("m3"), "the mass of one m3"),
        (volume_as_sold, good("t"), "its loose density"),
        (area_as_sold, good("each"), "the size of a slab"),
        (area_as_sold, good("t", slab=FLAG), "the size of a slab"),
        (count_as_sold, good("m2"), "the size of one"),
        (count_as_sold, good("t", slab=FLAG), "the size of one"),
        (length_as_sold, good("each"), "the size of a piece"),
    ],
)
def test_a_need_that_cannot_be_turned_into_the_unit_of_sale_says_what_is_missing(
    measure: Callable[[Good, float], float], sold: Good, missing: str
) -> None:
    with pytest.raises(OutOfRange, match=missing):
        measure(sold, 3)


def test_a_litre_is_a_thousandth_of_a_cubic_metre() -> None:
    assert unit_mass(good("l", density=1500.0)) == pytest.approx(unit_mass(good("m3", density=1500.0)) / 1000)


def test_every_item_has_units_of_sale() -> None:
    units = item_units()
    assert units["membrane"] == ("m2",)
    assert "t" in units["type_1"]
    assert all(units.values())
