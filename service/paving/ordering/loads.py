"""Loads: what an order weighs, the pallets it stands on, and the deliveries it takes."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from service.paving.errors import OutOfRange
from service.paving.ordering.goods import Good, Pack
from service.paving.ordering.packs import PackCount
from service.paving.ordering.quantities import unit_mass
from service.paving.ordering.terms import Vehicle

#: What sums of masses and shares may be off by, relative.
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class LineLoad:
    """What one line weighs and stands on.

    Parameters
    ----------
    mass : float or None
        Mass [kg]; None where the catalogue doesn't know it.
    pallets : float
        Pallet places it fills, parts of one included.
    tipped : float
        How much of the mass is tipped loose [kg].
    """

    mass: float | None
    pallets: float
    tipped: float


@dataclass(frozen=True, slots=True)
class Delivery:
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


@dataclass(frozen=True, slots=True)
class Loads:
    """How an order is carried.

    Parameters
    ----------
    lines : tuple of LineLoad
        Its lines, in order.
    mass : float or None
        Mass of all of it [kg]; None where one isn't known.
    pallets : int
        Pallets it stands on, odd packs put together.
    deliveries : tuple of Delivery
        What carries it: pallets, heaviest first, then loose loads.
    left_over : tuple of str
        Stock numbers of packs that no vehicle can carry or set down, or of unknown mass.
    """

    lines: tuple[LineLoad, ...]
    mass: float | None
    pallets: int
    deliveries: tuple[Delivery, ...]
    left_over: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Pallet:
    """Pallets that are alike."""

    mass: float
    count: int
    carries: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Part:
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
    each = tuple(_line_load(good, packs) for good, packs in lines)
    bought = [(good, one) for good, packs in lines for one in packs]
    pallets, tipped, unknown = _stacked(bought)
    carried = [_by_vehicle(pallets, vehicles), _tipped_by_vehicle(tipped, vehicles)]
    masses = [line.mass for line in each if line.mass is not None]
    return Loads(
        lines=each,
        mass=math.fsum(masses) if len(masses) == len(each) else None,
        pallets=sum(pallet.count for pallet in pallets),
        deliveries=tuple(delivery for deliveries, _ in carried for delivery in deliveries),
        left_over=tuple(dict.fromkeys([*unknown, *(sku for _, left in carried for sku in left)])),
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
    return math.fsum(bought.count / bought.pack.per_pallet for bought in packs if bought.pack.per_pallet)


def _line_load(good: Good, packs: Sequence[PackCount]) -> LineLoad:
    masses = [(pack_mass(good, bought.pack), bought) for bought in packs]
    known = [(mass * bought.count, bought.pack) for mass, bought in masses if mass is not None]
    return LineLoad(
        mass=math.fsum(mass for mass, _ in known) if len(known) == len(masses) else None,
        pallets=pallet_places(packs),
        tipped=math.fsum(mass for mass, pack in known if pack.per_pallet is None),
    )


def _stacked(
    bought: Sequence[tuple[Good, PackCount]],
) -> tuple[list[_Pallet], list[tuple[float, PackCount]], list[str]]:
    """Pallets heaviest first, loose packs with their mass, and stock numbers of unknown mass."""
    pallets: list[_Pallet] = []
    parts: list[_Part] = []
    tipped: list[tuple[float, PackCount]] = []
    unknown: list[str] = []
    for good, one in bought:
        mass, per_pallet, sku = pack_mass(good, one.pack), one.pack.per_pallet, one.pack.sku
        if mass is None:
            unknown.append(sku)
        elif per_pallet is None:
            tipped.append((mass, one))
        else:
            full, odd = divmod(one.count, per_pallet)
            pallets += [_Pallet(mass * per_pallet, full, (sku,))] if full else []
            parts += [_Part(odd / per_pallet, mass * odd, sku)] if odd else []
    pallets += _shared_pallets(parts)
    return sorted(pallets, key=lambda pallet: (-pallet.mass, pallet.carries)), tipped, unknown


def _shared_pallets(parts: Iterable[_Part]) -> Iterator[_Pallet]:
    """Odd packs put together, largest share first, each on the first pallet with room."""
    shared: list[list[_Part]] = []
    for part in sorted(parts, key=lambda part: (-part.share, part.sku)):
        room = (on for on in shared if math.fsum(p.share for p in on) + part.share <= 1 + _ROUNDING)
        on = next(room, None)
        if on is None:
            shared.append([part])
        else:
            on.append(part)
    for on in shared:
        yield _Pallet(math.fsum(part.mass for part in on), 1, tuple(part.sku for part in on))


def _by_vehicle(pallets: Sequence[_Pallet], vehicles: Sequence[Vehicle]) -> tuple[list[Delivery], list[str]]:
    """Deliveries of pallets, and the stock numbers that no vehicle takes."""
    left: list[str] = []
    given: dict[Vehicle, list[_Pallet]] = {}
    for pallet in pallets:
        able = (vehicle for vehicle in vehicles if _takes(vehicle, pallet))
        vehicle = next(able, None)
        if vehicle is None:
            left += pallet.carries
        else:
            given.setdefault(vehicle, []).append(pallet)
    return [delivery for vehicle, own in given.items() for delivery in _deliveries(vehicle, own)], left


def _takes(vehicle: Vehicle, pallet: _Pallet) -> bool:
    liftable = vehicle.lift is None or pallet.mass <= vehicle.lift
    return vehicle.pallets > 0 and liftable and pallet.mass <= vehicle.payload


def _deliveries(vehicle: Vehicle, pallets: Sequence[_Pallet]) -> Iterator[Delivery]:
    """Loads filled heaviest pallet first; a load that can be sent again is counted, not worked again."""
    left = [pallet.count for pallet in pallets]
    while any(left):
        load = _load(vehicle, pallets, left)
        times = min(there // taken for there, taken in zip(left, load, strict=True) if taken)
        left = [there - times * taken for there, taken in zip(left, load, strict=True)]
        yield Delivery(
            vehicle=vehicle,
            times=times,
            mass=math.fsum(pallet.mass * taken for pallet, taken in zip(pallets, load, strict=True)),
            pallets=sum(load),
            carries=tuple(
                dict.fromkeys(
                    sku for pallet, taken in zip(pallets, load, strict=True) if taken for sku in pallet.carries
                )
            ),
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
