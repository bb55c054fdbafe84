"""Loads, held against hand-worked orders and against every way to fill the vehicles."""

import math
from itertools import count as counting
from random import Random

import pytest

from service.catalogue import generic
from service.paving.ordering.goods import Good, Pack
from service.paving.ordering.loads import Delivery, Loads, loads, pack_mass, pallet_places
from service.paving.ordering.packs import PackCount
from service.paving.ordering.terms import Vehicle
from service.paving.slabs import Slab

LORRY = Vehicle("Lorry", payload=9000, pallets=10, lift=1500)
TIPPER = Vehicle("Tipper", payload=20000, tips=True)


def crates(mass: float, number: int, sku: str = "C") -> tuple[Good, list[PackCount]]:
    pack = Pack("crate", 40, sku, mass=mass, per_pallet=1)
    return Good(sku, "Crate", "slab", "each", (pack,)), [PackCount(pack, number)]


def bags(number: int, per_pallet: int = 40, sku: str = "B") -> tuple[Good, list[PackCount]]:
    pack = Pack("25 kg bag", 25, sku, per_pallet=per_pallet)
    return Good(sku, "Cement", "cement", "kg", (pack,)), [PackCount(pack, number)]


def loose(halves: int) -> tuple[Good, list[PackCount]]:
    pack = Pack("half tonne", 0.5, "L")
    return Good("L", "Stone", "type_1", "t", (pack,)), [PackCount(pack, halves)]


def carried(delivery: Delivery) -> tuple[str, int, float, int]:
    return delivery.vehicle.name, delivery.times, delivery.mass, delivery.pallets


def test_an_order_of_crates_bags_and_loose_stone_worked_by_hand() -> None:
    """12 crates of 985 kg: nine go on 9 t; 3 and 25 bags (0.625 t) on the next; 45 t loose is 20 + 20 + 5."""
    found = loads([bags(25), crates(985, 12), loose(90)], [LORRY, TIPPER])
    assert [carried(d) for d in found.deliveries] == [
        ("Lorry", 1, 9 * 985, 9),
        ("Lorry", 1, 3 * 985 + 625, 4),
        ("Tipper", 2, 20000, 0),
        ("Tipper", 1, 5000, 0),
    ]
    assert found.deliveries[1].carries == ("C", "B")
    assert found.mass == 12 * 985 + 625 + 45000
    assert found.pallets == 13
    assert [pallet_places(packs) for _, packs in (bags(25), crates(985, 12), loose(90))] == [25 / 40, 12, 0]
    assert found.left_over == ()


def test_odd_packs_share_a_pallet() -> None:
    found = loads([bags(10, sku="B1"), bags(50, sku="B2"), bags(20, sku="B3")], [LORRY])
    assert found.pallets == 2
    assert sum(d.times * d.mass for d in found.deliveries) == 80 * 25


def test_a_pallet_too_heavy_for_the_tail_lift_goes_on_the_vehicle_that_can() -> None:
    crane = Vehicle("Crane", payload=12000, pallets=12)
    found = loads([crates(1600, 2, "HEAVY"), crates(900, 1, "LIGHT")], [LORRY, crane])
    assert [(d.vehicle.name, d.carries) for d in found.deliveries] == [("Crane", ("HEAVY",)), ("Lorry", ("LIGHT",))]


def test_what_no_vehicle_can_take_is_named() -> None:
    found = loads([crates(1600, 1, "HEAVY"), loose(3)], [LORRY])
    assert found.deliveries == ()
    assert found.left_over == ("HEAVY", "L")
    assert found.mass == 3100


def test_a_loose_pack_heavier_than_the_tipper_is_named() -> None:
    assert loads([loose(3)], [Vehicle("Barrow", payload=120, tips=True)]).left_over == ("L",)


def test_without_vehicles_masses_are_told_all_the_same() -> None:
    found = loads([bags(4)], [])
    assert (found.mass, found.pallets, found.deliveries) == (100, 1, ())


def test_an_unknown_mass_leaves_the_whole_unknown() -> None:
    pack = Pack("crate", 40, "U", per_pallet=1)
    found = loads([(Good("U", "Slab", "slab", "each", (pack,)), [PackCount(pack, 1)]), bags(4)], [LORRY])
    assert found.mass is None
    assert found.left_over == ("U",)
    assert found.pallets == 1


def test_a_pack_weighs_what_is_in_it_unless_the_catalogue_says_more() -> None:
    flag = Good("F", "Flag", "slab", "each", (), mass=32.0, slabs=(Slab("Flag", 0.6, 0.6, 0.038),))
    assert pack_mass(flag, Pack("crate", 30, "C")) == 960
    assert pack_mass(flag, Pack("crate", 30, "C", mass=985)) == 985


def test_a_great_order_is_counted_not_loaded_pallet_by_pallet() -> None:
    found = loads([crates(900, 1_000_003)], [LORRY])
    assert [carried(d) for d in found.deliveries] == [("Lorry", 100_000, 9000, 10), ("Lorry", 1, 2700, 3)]


def test_twenty_tonnes_of_half_tonnes_go_on_one_tipper() -> None:
    assert [carried(d) for d in loads([loose(40)], [TIPPER]).deliveries] == [("Tipper", 1, 20000, 0)]


def test_the_generic_catalogue_delivers_all_it_sells() -> None:
    catalogue = generic()
    every = [(good, [PackCount(pack, 1) for pack in good.packs]) for good in catalogue]
    assert loads(every, catalogue.terms.vehicles).left_over == ()


def fewest_loads(masses: list[int], payload: int, places: int) -> int:
    """Fewest loads of all ways to put each pallet on some load."""
    for number in counting(1):
        if _fits(sorted(masses, reverse=True), [payload] * number, [places] * number):
            return number
    raise AssertionError


def _fits(masses: list[int], left: list[int], places: list[int]) -> bool:
    if not masses:
        return True
    for k in range(len(left)):
        if (
            masses[0] <= left[k]
            and places[k]
            and (left[k], places[k]) not in list(zip(left[:k], places[:k], strict=True))
        ):
            left[k] -= masses[0]
            places[k] -= 1
            if _fits(masses[1:], left, places):
                return True
            left[k] += masses[0]
            places[k] += 1
    return False


def loads_of(masses: list[int], vehicle: Vehicle) -> Loads:
    return loads([crates(mass, 1, f"C{k}") for k, mass in enumerate(masses)], [vehicle])


def test_loads_are_within_payload_and_places_and_carry_all_of_it_once() -> None:
    random = Random(31)
    for _ in range(200):
        masses = [random.randint(200, 1500) for _ in range(random.randint(1, 30))]
        vehicle = Vehicle("V", payload=random.randint(1500, 9000), pallets=random.randint(1, 10))
        found = loads_of(masses, vehicle)
        assert all(d.mass <= vehicle.payload and d.pallets <= vehicle.pallets for d in found.deliveries)
        assert math.isclose(sum(d.mass * d.times for d in found.deliveries), sum(masses))
        assert sum(d.pallets * d.times for d in found.deliveries) == len(masses)


def test_the_number_of_loads_is_the_fewest_or_seldom_one_more() -> None:
    random, more = Random(32), 0
    for _ in range(200):
        masses = [random.randint(200, 1500) for _ in range(random.randint(1, 8))]
        vehicle = Vehicle("V", payload=random.randint(1500, 4000), pallets=random.randint(1, 5))
        taken = sum(d.times for d in loads_of(masses, vehicle).deliveries)
        fewest = fewest_loads(masses, int(vehicle.payload), vehicle.pallets)
        assert fewest <= taken <= fewest + 1
        more += taken > fewest
    assert more <= 10


@pytest.mark.parametrize("halves", [1, 39, 40, 41, 79, 80, 81])
def test_loose_loads_carry_all_of_it(halves: int) -> None:
    found = loads([loose(halves)], [TIPPER])
    assert sum(d.mass * d.times for d in found.deliveries) == halves * 500
    assert sum(d.times for d in found.deliveries) == math.ceil(halves / 40)
