"""Goods in front of a catalogue: what is found, and what stands behind."""

import pytest

from service.paving.errors import OutOfRange, UnknownName
from service.paving.ordering.browsing import goods_page
from service.paving.ordering.goods import Good, Goods, Pack
from service.paving.ordering.offers import offers
from service.paving.ordering.terms import Tax


def good(sku: str, name: str, item: str = "sharp_sand", **more: object) -> Good:
    return Good(sku, name, item, "t", (Pack("bag", 0.85, f"{sku}-BB"),), **more)  # type: ignore[arg-type]


CATALOGUE = Goods([good("A", "Sand"), good("B", "Coarse sand"), good("C", "Stone", "type_1")])
OWN = [(good("A", "Sand of our own"), None), (good("D", "Grit", "grit", tax="5 %"), Tax("5 %", "Tax", 5))]  # type: ignore[arg-type]
FOUND = offers(OWN, CATALOGUE)


def test_nothing_in_front_is_the_catalogue_itself() -> None:
    assert offers([], CATALOGUE) is CATALOGUE


def test_what_is_in_front_comes_first_and_takes_the_place_of_its_number() -> None:
    assert [each.name for each in FOUND] == ["Sand of our own", "Grit", "Coarse sand", "Stone"]
    assert len(FOUND) == 4
    assert FOUND.good("A").name == "Sand of our own"
    assert FOUND.pack("A-BB")[0].name == "Sand of our own"
    assert [each.sku for each in FOUND.of_item("sharp_sand")] == ["A", "B"]


def test_what_is_behind_is_found_as_well() -> None:
    assert FOUND.good("C").name == "Stone"
    assert FOUND.pack("B-BB")[0].sku == "B"
    assert [each.sku for each in FOUND.of_item("type_1")] == ["C"]
    assert [each.sku for each in FOUND.of_item("grit")] == ["D"]
    assert FOUND.items == ("sharp_sand", "grit", "type_1")
    assert set(FOUND.skus) == {"A", "B", "C", "D"}
    assert "C-BB" in FOUND
    assert "Z" not in FOUND
    assert goods_page(FOUND, "sharp_sand", None, 1, 1).pages == 2


def test_what_is_nowhere_is_refused_with_the_nearest_on_both_sides() -> None:
    assert {"A-BB", "C-BB"} <= set(FOUND.near("B"))
    with pytest.raises(UnknownName, match="No good is called 'E'"):
        FOUND.good("E")
    with pytest.raises(UnknownName, match="No pack is called 'E'"):
        FOUND.pack("E")
    with pytest.raises(UnknownName, match="No item in the catalogue is called 'gravel'"):
        FOUND.of_item("gravel")


def test_its_taxes_are_beside_the_catalogues() -> None:
    assert FOUND.terms.taxes["5 %"].percent == 5


def test_a_shared_number_and_a_stray_substitute_are_pointed_at() -> None:
    with pytest.raises(OutOfRange) as shared:
        offers([OWN[0], OWN[0]], CATALOGUE)
    assert shared.value.place == ("goods", 1, "sku")
    with pytest.raises(UnknownName) as stray:
        offers([(good("X", "Sand", substitutes=("B", "Y")), None)], CATALOGUE)
    assert stray.value.place == ("goods", 0, "substitutes", 1)
