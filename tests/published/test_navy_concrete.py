"""The US Navy's absolute volume example, whole.

Source: US Navy, Engineering Aid (NAVEDTRA 14071), chapter 17, absolute volume method; public domain
(read). One cubic yard of concrete holds 610 lb of cement (6.49 sacks of 94 lb), 305 lb of water, 1735 lb
of coarse aggregate at a specific gravity of 2.60, 5 % of air, and fine aggregate for the rest at 2.65.
Printed volumes: cement 3.10, water 4.89, coarse 10.69, air 1.35, fine 6.97 ft3.

The service mixes by loose volume, so the printed masses are turned into loose parts here, by loose
densities that cancel: 94 lb to the cubic foot of cement, 100 of sand, 102 of dry-rodded stone.
"""

from dataclasses import replace

import pint
import pytest

from service.paving.mixes import Consistence, Parts, SandState, given_water_cement_ratio, mix, mix_basis
from service.paving.sheets import Sheet

REGISTRY = pint.UnitRegistry()
WATER = 62.4  # lb/ft3, as the example has it


def metric(value: float, unit: str, into: str) -> float:
    return float(REGISTRY.Quantity(value, unit).to(into).magnitude)


def density(value: float) -> float:
    return metric(value, "lb/ft**3", "kg/m**3")


@pytest.fixture(scope="module")
def mixed():
    fine = 6.97 * 2.65 * WATER
    basis = mix_basis(Consistence.PLASTIC, SandState.DRY)
    basis = replace(
        basis,
        cement_bulk_density=basis.cement_bulk_density.given(density(94)),
        cement_particle_density=basis.cement_particle_density.given(density(3.15 * WATER)),
        sand_bulk_density=basis.sand_bulk_density.given(density(100)),
        sand_particle_density=basis.sand_particle_density.given(density(2.65 * WATER)),
        aggregate_bulk_density=basis.aggregate_bulk_density.given(density(102)),
        aggregate_particle_density=basis.aggregate_particle_density.given(density(2.60 * WATER)),
        water_density=basis.water_density.given(density(WATER)),
        concrete_air=basis.concrete_air.given(0.05),
        water_cement_ratio=given_water_cement_ratio(0.5),
    )
    parts = Parts(610 / 94, fine / 100, 1735 / 102)
    return mix(Sheet(), metric(1, "yard**3", "m**3"), parts, Consistence.PLASTIC, SandState.DRY, basis)


def test_the_volumes_fill_a_cubic_yard(mixed):
    assert mixed.cement == pytest.approx(metric(610, "lb", "kg"), rel=1e-3)


def test_the_water_is_305_pounds(mixed):
    assert mixed.water == pytest.approx(metric(4.89, "ft**3", "m**3"), abs=metric(0.005, "ft**3", "m**3"))


def test_the_fine_aggregate_is_1153_pounds(mixed):
    assert mixed.sand_mass == pytest.approx(metric(1153, "lb", "kg"), rel=1e-3)


def test_the_coarse_aggregate_is_17_01_cubic_feet_and_1735_pounds(mixed):
    assert mixed.aggregate_volume == pytest.approx(metric(17.01, "ft**3", "m**3"), rel=1e-3)
    assert mixed.aggregate_mass == pytest.approx(metric(1735, "lb", "kg"), rel=1e-3)


def test_the_order_for_63_7_cubic_yards_is_455_sacks_and_40_4_short_tons_of_sand(mixed):
    ordered = 63.7 * 1.10
    assert -(-mixed.cement / metric(94, "lb", "kg") * ordered // 1) == 455
    sand = REGISTRY.Quantity(mixed.sand_mass * ordered, "kg").to("short_ton").magnitude
    assert sand == pytest.approx(40.4, abs=0.05)
