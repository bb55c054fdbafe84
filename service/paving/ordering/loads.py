"""Loads: what an order weighs, the pallets it stands on, and the deliveries it takes."""

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from service.paving.errors import OutOfRange
from service.paving.ordering.goods import Good, Pack
from service.paving.ordering.packs import PackCount
from service.paving.ordering.quantities import unit_mass
from service.paving.ordering.terms import Vehicle

#: Packs with the mass of one [kg]; None where the catalogue doesn't know it.
_Weighed = tuple[float | None, PackCount]

#: What sums of masses and shares may be off by, relative.
_ROUNDING = 1e-9


class Delivery(NamedTuple):
    """A load that leaves the yard, the same several times over.

    Parameters
    ----------
    vehicle : Vehicle
        What carries it.
    times : int
        How many such loads.
    mass : float
        Mass of one [kg].
    pallets : int
        Pallets on one.
    carries : tuple of str
        Stock numbers of the packs on it.
    """

    vehicle: Vehicle
    times: int
    mass: float
    pallets: int
    carries: tuple[str, ...]


class Loads(NamedTuple):
    """How an order is carried.

    Parameters
    ----------
    mass : float or None
        Mass of all of it [kg]; None where one isn't known.
    pallets : int
        Pallets it stands on, odd packs put together.
    deliveries : tuple of Delivery
        What carries it: pallets, heaviest first, then loose loads.
    left_over : tuple of str
        Stock numbers of packs that no vehicle can carry or set down, or of unknown mass.
    """

    mass: float | None
    pallets: int
    deliveries: tuple[Delivery, ...]
    left_over: tuple[str, ...]


class _Pallet(NamedTuple):
    """Pallets that are alike."""

    mass: float
    number: int
    carries: tuple[str, ...]


class _Part(NamedTuple):
    """Packs of one kind that don't fill a pallet."""

    share: float
    mass: float
    sku: str


def loads(lines: Sequence[tuple[Good, Sequence[PackCount]]], vehicles: Sequence[Vehicle]) -> Loads:
    """What an order weighs, and the deliveries it takes.

    Parameters
    ----------
    lines : sequence of (Good, sequence of PackCount)
        What is bought of each good.
    vehicles : sequence of Vehicle
        Vehicles, the one sent first before others.

    Returns
    -------
    Loads
        Masses, pallets and deliveries.

    Notes
    -----
    Each pallet goes on the first vehicle listed that can carry it and set it down; each
    vehicle is filled heaviest pallet first, which is how a yard loads and seldom takes a load
    more than the fewest. Goods tipped loose are never mixed.

    References
    ----------
    Common practice
    """
    weighed = [(pack_mass(good, one.pack), one) for good, packs in lines for one in packs]
    pallets, tipped, unknown = _stacked(weighed)
    by_pallet, left = _by_vehicle(pallets, vehicles)
    loose, left_loose = _tipped_by_vehicle(tipped, vehicles)
    masses = [mass * one.count for mass, one in weighed if mass is not None]
    return Loads(
        mass=None if unknown else math.fsum(masses),
        pallets=sum(pallet.number for pallet in pallets),
        deliveries=(*by_pallet, *loose),
        left_over=tuple(dict.fromkeys([*unknown, *left, *left_loose])),
    )


def pack_mass(good: Good, pack: Pack) -> float | None:
    """Mass of one pack as delivered [kg]; None where the catalogue doesn't know it."""
    if pack.mass is not None:
        return pack.mass
    try:
        return pack.content * unit_mass(good)
    except OutOfRange:
        return None


def pallet_places(packs: Sequence[PackCount]) -> float:
    """Pallet places that packs fill, parts of one included; 0 for what is tipped."""
    return math.fsum([bought.count / bought.pack.per_pallet for bought in packs if bought.pack.per_pallet])


def _stacked(bought: Sequence[_Weighed]) -> tuple[list[_Pallet], list[tuple[float, PackCount]], list[str]]:
    """Pallets heaviest first, loose packs with their mass, and stock numbers of unknown mass."""
    pallets: list[_Pallet] = []
    parts: list[_Part] = []
    tipped: list[tuple[float, PackCount]] = []
    unknown: list[str] = []
    for mass, one in bought:
        per_pallet, sku = one.pack.per_pallet, one.pack.sku
        if mass is None:
            unknown.append(sku)
        elif per_pallet is None:
            tipped.append((mass, one))
        else:
            full, odd = divmod(one.count, per_pallet)
            if full:
                pallets.append(_Pallet(mass * per_pallet, full, (sku,)))
            if odd:
                parts.append(_Part(odd / per_pallet, mass * odd, sku))
    pallets += _shared_pallets(parts)
    pallets.sort(key=lambda pallet: (-pallet.mass, pallet.carries))
    return pallets, tipped, unknown


def _shared_pallets(parts: list[_Part]) -> Iterator[_Pallet]:
    """Odd packs put together, largest share first, each on the first pallet with room."""
    shared: list[list[_Part]] = []
    rooms: list[float] = []
    for part in sorted(parts, key=lambda part: (-part.share, part.sku)):
        place = next((k for k, room in enumerate(rooms) if part.share <= room), None)
        if place is None:
            shared.append([part])
            rooms.append(1 + _ROUNDING - part.share)
        else:
            shared[place].append(part)
            rooms[place] -= part.share
    for on in shared:
        yield _Pallet(math.fsum([part.mass for part in on]), 1, tuple([part.sku for part in on]))


def _by_vehicle(pallets: Sequence[_Pallet], vehicles: Sequence[Vehicle]) -> tuple[list[Delivery], list[str]]:
    """Deliveries of pallets, and the stock numbers that no vehicle takes."""
    left: list[str] = []
    given: dict[int, list[_Pallet]] = {}
    for pallet in pallets:
        place = next((k for k, vehicle in enumerate(vehicles) if _takes(vehicle, pallet)), None)
        if place is None:
            left += pallet.carries
        else:
            given.setdefault(place, []).append(pallet)
    return [delivery for place, own in given.items() for delivery in _deliveries(vehicles[place], own)], left


def _takes(vehicle: Vehicle, pallet: _Pallet) -> bool:
    liftable = vehicle.lift is None or pallet.mass <= vehicle.lift
    return vehicle.pallets > 0 and liftable and pallet.mass <= vehicle.payload


def _deliveries(vehicle: Vehicle, pallets: Sequence[_Pallet]) -> Iterator[Delivery]:
    """Loads filled heaviest pallet first; a load that can be sent again is counted, not worked again."""
    left = [pallet.number for pallet in pallets]
    while any(left):
        load = _load(vehicle, pallets, left)
        times = min([there // taken for there, taken in zip(left, load, strict=True) if taken])
        left = [there - times * taken for there, taken in zip(left, load, strict=True)]
        on = [(pallet, taken) for pallet, taken in zip(pallets, load, strict=True) if taken]
        yield Delivery(
            vehicle=vehicle,
            times=times,
            mass=math.fsum([pallet.mass * taken for pallet, taken in on]),
            pallets=sum(load),
            carries=tuple(dict.fromkeys([sku for pallet, _ in on for sku in pallet.carries])),
        )


def _load(vehicle: Vehicle, pallets: Sequence[_Pallet], left: Sequence[int]) -> list[int]:
    payload, places, load = vehicle.payload * (1 + _ROUNDING), vehicle.pallets, []
    for pallet, there in zip(pallets, left, strict=True):
        taken = min(there, places, int(payload // pallet.mass) if pallet.mass else places)
        payload -= taken * pallet.mass
        places -= taken
        load.append(taken)
    return load


def _tipped_by_vehicle(
    tipped: Sequence[tuple[float, PackCount]], vehicles: Sequence[Vehicle]
) -> tuple[list[Delivery], list[str]]:
    """Deliveries of loose goods, each on its own, and the stock numbers that no vehicle takes."""
    deliveries: list[Delivery] = []
    left: list[str] = []
    for mass, one in tipped:
        vehicle = next((v for v in vehicles if v.tips and mass <= v.payload), None)
        if vehicle is None:
            left.append(one.pack.sku)
            continue
        most = int(vehicle.payload * (1 + _ROUNDING) // mass)
        for times, count in ((one.count // most, most), (1, one.count % most)):
            if times and count:
                deliveries.append(Delivery(vehicle, times, mass * count, 0, (one.pack.sku,)))
    return deliveries, left
