"""The built-in catalogue: what the counter can sell from it on the first day."""

import re

import pytest

from service.catalogue import FILES, faults, generic
from service.catalogue.readers import _GENERIC
from service.paving.errors import OutOfRange, UnknownName
from service.paving.materials import materials
from service.paving.ordering.goods import Good
from service.paving.ordering.packs import Cover, cover


def first_bought(item: str, quantity: float) -> tuple[Good, Cover]:
    """The first good of an item whose packs can hold a quantity, as a counter sells it."""
    for good in generic().of_item(item):
        try:
            return good, cover(quantity, good.packs)
        except OutOfRange:
            continue
    raise AssertionError(item)


def test_the_generic_catalogue_has_no_fault() -> None:
    assert faults(_GENERIC) == ()


def test_it_says_that_it_is_invented() -> None:
    assert "Invented" in generic().terms.note


def test_it_has_a_dozen_slabs_and_more_with_blocks_and_setts() -> None:
    slabs = generic().of_item("slab")
    sizes = {(good.slab.length, good.slab.width, good.slab.thickness) for good in slabs if good.slab}
    assert len(sizes) >= 12
    assert any("block" in good.name for good in slabs)
    assert any("sett" in good.name for good in slabs)


@pytest.mark.parametrize("item", ["edging", "cement", "membrane", "dried_sand", "jointing_compound", "type_1"])
def test_it_sells_what_a_job_needs(item: str) -> None:
    assert generic().of_item(item)


def test_it_sells_every_material_of_the_reference_but_what_is_mixed_on_site() -> None:
    sold = set(generic().items)
    assert {material.key for material in materials() if material.kind != "mixed"} <= sold


def test_every_good_can_be_bought_in_any_quantity_its_item_is_needed_in() -> None:
    for item in generic().items:
        for quantity in (1.0, 7.3, 26.0, 400.0):
            assert first_bought(item, quantity)[1].bought >= quantity


def test_every_good_has_a_mass() -> None:
    for good in generic():
        assert good.unit in ("t", "kg") or (good.mass is not None and good.mass > 0)


def test_no_pack_but_a_tipped_load_is_without_its_place_on_a_pallet() -> None:
    for good in generic():
        for pack in good.packs:
            assert (pack.per_pallet is None) == pack.name.startswith("loose"), pack


def test_a_pallet_place_holds_what_a_pallet_truck_can_lift() -> None:
    """Common practice: a loaded pallet weighs about a tonne, seldom above 1.25 t."""
    for good in generic():
        for pack in good.packs:
            if pack.per_pallet is not None:
                mass = pack.content * pack.per_pallet * (good.mass or {"t": 1000.0, "kg": 1.0}[good.unit])
                assert mass <= 1250, pack


def test_names_and_stock_numbers_can_be_printed_and_are_no_formulas() -> None:
    for good in generic():
        for text in (good.sku, good.name, *(p.sku for p in good.packs), *(p.name for p in good.packs)):
            assert re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9 ,./()-]*", text)


def test_stone_comes_in_bulk_bags_with_small_bags_to_top_up() -> None:
    bagged = generic().good("T1")
    assert [(b.count, b.pack.sku) for b in cover(1.8, bagged.packs).packs] == [(4, "T1-25"), (2, "T1-BB")]
    assert [(b.count, b.pack.sku) for b in cover(2.2, bagged.packs).packs] == [(3, "T1-BB")]


def test_much_stone_comes_loose() -> None:
    assert first_bought("type_1", 6.3)[0].sku == "T1"
    good, bought = first_bought("type_1", 12.3)
    assert (good.sku, bought.bought) == ("T1-L", 12.5)


def test_a_mixed_pack_shares_out_its_area() -> None:
    mixed = generic().good("SS-MIX-22")
    assert mixed.slab is None
    assert sum(slab.share or 0 for slab in mixed.slabs) == pytest.approx(1)
    largest = mixed.slabs[0]
    assert largest.share == pytest.approx(12 * 0.54 / (12 * 0.54 + 14 * 0.36 + 14 * 0.174 + 12 * 0.0841))


def test_a_standard_kerb_weighs_what_the_published_sheet_says() -> None:
    """HSE Construction Information Sheet 57: a kerb of 125 x 255 x 915 mm weighs about 67 kg."""
    assert generic().good("KB-915-255").mass == pytest.approx(67, rel=0.03)


def test_an_unknown_stock_number_is_answered_with_the_nearest() -> None:
    with pytest.raises(UnknownName, match="CF-600-38"):
        generic().good("CF-600-39")
    with pytest.raises(UnknownName, match="T1-BB"):
        generic().pack("T1-BX")
    with pytest.raises(UnknownName, match="edging"):
        generic().of_item("edgings")


def test_a_pack_is_found_with_its_good() -> None:
    good, pack = generic().pack("T1-BB")
    assert (good.sku, pack.content) == ("T1", 0.85)
    assert "T1-BB" in generic()
    assert "T1" in generic()
    assert "T9" not in generic()


def test_every_column_is_documented() -> None:
    for file in FILES:
        assert file.about.endswith(".")
        for column in file.columns:
            assert len(column.about) > 8, column.name
            assert column.about.endswith(".")
