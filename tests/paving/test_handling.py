"""Handling: what slabs weigh and when lifting them is cautioned."""

import pytest

from service.paving.errors import UnknownName
from service.paving.handling import (
    caution_bags,
    caution_cement,
    caution_cutting,
    caution_lifting,
    slab_density,
    slab_mass,
    slab_materials,
)
from service.paving.sheets import Sheet


def test_a_standard_kerb_weighs_67_kg() -> None:
    """HSE Construction Information Sheet 57: about 67 kg; 125 x 255 x 915 mm (size from memory)."""
    assert slab_mass(0.915, 0.255, 0.125, slab_density("concrete").low) == pytest.approx(67.1, abs=0.1)


@pytest.mark.parametrize(("made_of", "low", "high"), [("granite", 27, 30), ("basalt", 27, 31)])
def test_the_density_of_stone_spans_the_weights_of_the_eurocode(made_of: str, low: float, high: float) -> None:
    """EN 1991-1-1 Annex A, in kN/m3."""
    density = slab_density(made_of)
    assert (density.low, density.high) == pytest.approx((low * 1000 / 9.80665, high * 1000 / 9.80665), abs=1)


def test_slabs_are_made_of_concrete_stone_clay_or_porcelain() -> None:
    assert {"concrete", "sandstone", "granite", "clay", "porcelain"} <= set(slab_materials())


def test_slabs_of_an_unknown_material_are_refused() -> None:
    with pytest.raises(UnknownName, match="granite"):
        slab_density("granit")


@pytest.mark.parametrize(
    ("mass", "codes"),
    [(19.9, []), (20.0, ["repeated_lifting"]), (24.9, ["repeated_lifting"]), (25.0, ["lifting"]), (67.0, ["lifting"])],
)
def test_lifting_is_cautioned_from_20_kg_again_and_again_and_from_25_kg_alone(
    sheet: Sheet, mass: float, codes: list[str]
) -> None:
    """HSE: 25 kg is the filter for one person in the best position; 20 kg for repeated single-handed blocks."""
    caution_lifting(sheet, mass, "A kerb")
    assert list(sheet.cautions) == codes
    assert all("A kerb weighs" in found.because for found in sheet.cautions.values())


def test_the_heaviest_cause_of_the_first_caution_is_not_overwritten(sheet: Sheet) -> None:
    caution_lifting(sheet, 40.0, "A flag")
    caution_lifting(sheet, 26.0, "A kerb")
    assert sheet.cautions["lifting"].because.startswith("A flag weighs 40.0 kg")


@pytest.mark.parametrize(("mass", "codes"), [(20.0, []), (25.0, ["bag_lifting"]), (50.0, ["bag_lifting"])])
def test_bags_are_cautioned_from_25_kg(sheet: Sheet, mass: float, codes: list[str]) -> None:
    caution_bags(sheet, mass)
    assert list(sheet.cautions) == codes


def test_cement_is_cautioned_for_skin_and_for_cold(sheet: Sheet) -> None:
    caution_cement(sheet, "Mortar")
    assert list(sheet.cautions) == ["wet_cement", "cold"]
    assert "3.2.5" in sheet.cautions["cold"].source


@pytest.mark.parametrize(("cuts", "because"), [(1, "1 slab is cut."), (7, "7 slabs are cut.")])
def test_cutting_is_cautioned_for_its_dust(sheet: Sheet, cuts: int, because: str) -> None:
    caution_cutting(sheet, cuts)
    assert sheet.cautions["silica_dust"].because == because


def test_nothing_cut_raises_no_dust(sheet: Sheet) -> None:
    caution_cutting(sheet, 0)
    assert not sheet.cautions
