"""Materials: their keys, and densities that make sense beside each other."""

import pytest

from service.paving.errors import UnknownName
from service.paving.materials import Material, material, materials

NEEDED = [
    "type_1",
    "scalpings",
    "crushed_concrete",
    "sharp_sand",
    "grit",
    "building_sand",
    "gravel",
    "aggregate_20mm",
    "dried_sand",
    "jointing_compound",
    "blinding_sand",
    "concrete",
    "mortar",
]
KINDS = {"sub_base", "bedding", "aggregate", "jointing", "mixed"}

each_material = pytest.mark.parametrize("each", materials(), ids=lambda each: each.key)


def test_the_list_holds_every_material_the_trade_asks_for() -> None:
    assert set(NEEDED) <= {each.key for each in materials()}


def test_a_material_is_found_by_its_key() -> None:
    assert [material(each.key) for each in materials()] == list(materials())


def test_the_densities_of_type_1_are_those_of_common_practice() -> None:
    """Compacted 2.0 to 2.3 t/m3, loose 1.6 to 1.8 t/m3 (common practice)."""
    stone = material("type_1")
    assert (stone.compacted_density.low, stone.compacted_density.high) == (2000, 2300)
    assert (stone.loose_density.low, stone.loose_density.high) == (1600, 1800)


def test_the_density_of_mortar_is_that_of_the_eurocode() -> None:
    """EN 1991-1-1 Annex A: cement mortar 19 to 23 kN/m3, at 9.80665 m/s2."""
    density = material("mortar").compacted_density
    assert (density.low, density.high) == pytest.approx((19000 / 9.80665, 23000 / 9.80665), abs=1)
    assert "EN 1991-1-1" in density.source


def test_the_density_of_concrete_is_that_of_the_eurocode() -> None:
    """EN 1991-1-1 Annex A: normal weight concrete 24 kN/m3."""
    assert material("concrete").compacted_density.value == pytest.approx(24000 / 9.80665, abs=1)


@each_material
def test_a_material_is_no_denser_loose_than_compacted(each: Material) -> None:
    for end in ("low", "value", "high"):
        assert getattr(each.loose_density, end) <= getattr(each.compacted_density, end)


@each_material
def test_a_material_says_what_its_densities_are_of(each: Material) -> None:
    assert each.compacted_density.name == f"{each.key} compacted density"
    assert each.loose_density.name == f"{each.key} loose density"
    assert each.compacted_density.unit == each.loose_density.unit == "kg/m3"


@each_material
def test_a_material_has_a_kind_a_name_a_note_and_stones(each: Material) -> None:
    assert each.kind in KINDS
    assert each.name
    assert each.note.endswith(".")
    assert 0 < each.largest_stone <= 0.1


@each_material
def test_a_material_weighs_more_than_water_and_less_than_solid_rock(each: Material) -> None:
    assert each.loose_density.low > 1000
    assert each.compacted_density.high < 2650


def test_an_unknown_material_is_refused_with_the_nearest_names() -> None:
    with pytest.raises(UnknownName, match="sharp_sand") as refusal:
        material("sharp_sad")
    assert refusal.value.place == ()
