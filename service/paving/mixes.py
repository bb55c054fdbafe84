"""Mortar and concrete by absolute volumes, with the rule of thumb beside it."""

from dataclasses import dataclass

from service.paving import gauging, mixer_loads, yields
from service.paving.cautions import caution
from service.paving.errors import BrokenIdentity, OutOfRange
from service.paving.handling import caution_bags, caution_cement
from service.paving.mix_bases import Consistence as Consistence
from service.paving.mix_bases import MixBasis as MixBasis
from service.paving.mix_bases import Parts as Parts
from service.paving.mix_bases import SandState as SandState
from service.paving.mix_bases import given_water_cement_ratio as given_water_cement_ratio
from service.paving.mix_bases import mix_basis as mix_basis
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet


@dataclass(frozen=True, slots=True)
class Mix:
    """What a mix takes: masses [kg], volumes [m3].

    Parameters
    ----------
    volume : float
        Volume of the mix in place [m3].
    cement : float
        Cement [kg].
    cement_bags : int
        Whole bags of cement.
    sand_volume, sand_mass : float
        Sand as it is measured [m3] and as it is delivered [kg]: bulked and with its moisture if damp.
    aggregate_volume, aggregate_mass : float
        Aggregate, loose and dry [m3], [kg]; 0 in mortar.
    water : float
        Water to add at the mixer [m3].
    water_in_mix : float
        All water, with what the sand brings [m3].
    cement_per_volume : float
        Cement in a volume of mix [kg/m3].
    rule_of_thumb_cement : float
        Cement by the rule of thumb [kg].
    batches : int
        Number of mixer batches.
    batch_cement : float
        Cement in a full batch [kg]; the last one may be smaller.
    """

    volume: float
    cement: float
    cement_bags: int
    sand_volume: float
    sand_mass: float
    aggregate_volume: float
    aggregate_mass: float
    water: float
    water_in_mix: float
    cement_per_volume: float
    rule_of_thumb_cement: float
    batches: int
    batch_cement: float


def mix(sheet: Sheet, volume: float, parts: Parts, consistence: Consistence, sand: SandState, basis: MixBasis) -> Mix:
    """Work out a mix.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    volume : float
        Volume in place [m3].
    parts : Parts
        Parts by volume, cement first.
    consistence, sand : Consistence, SandState
        How wet the mix is, and whether the sand is measured dry or damp.
    basis : MixBasis
        What it is worked from.

    Raises
    ------
    OutOfRange
        If the volume or the parts can't be mixed (at ``("volume",)``, ``("parts",)``), a bulk
        density is no less than that of the grains (at its name), or the sand brings more
        water than the mix takes (at ``("sand",)``).
    BrokenIdentity
        If the basis was made for another consistence or state of the sand.

    References
    ----------
    US Navy, Engineering Aid, chapter 17, absolute volume method
    """
    asked = _asked(volume, parts, consistence, sand, basis)
    dry_sand = _dry_sand(sheet, asked)
    made = _yield(sheet, asked, dry_sand)
    content, cement = _cement(sheet, asked, made)
    measured_sand = _sand(sheet, asked, dry_sand, made)
    aggregate_volume, aggregate_mass = _aggregate(sheet, asked, made)
    water_in_mix = _water_in_mix(sheet, asked, cement)
    loads = mixer_loads.loads(sheet, cement, content, basis)
    _cautions(sheet, asked)
    return Mix(
        volume=volume,
        cement=cement,
        cement_bags=loads.bags,
        sand_volume=measured_sand.volume,
        sand_mass=measured_sand.mass,
        aggregate_volume=aggregate_volume,
        aggregate_mass=aggregate_mass,
        water=_water(sheet, water_in_mix, measured_sand.water),
        water_in_mix=water_in_mix,
        cement_per_volume=content,
        rule_of_thumb_cement=_rule_of_thumb(sheet, asked),
        batches=loads.batches,
        batch_cement=loads.batch_cement,
    )


@dataclass(frozen=True, slots=True)
class _Asked:
    volume: float
    parts: Parts
    consistence: Consistence
    sand: SandState
    basis: MixBasis


@dataclass(frozen=True, slots=True)
class _Sand:
    """Volume as measured [m3], mass as delivered [kg], the water it carries [m3]."""

    volume: float
    mass: float
    water: float


def _asked(volume: float, parts: Parts, consistence: Consistence, sand: SandState, basis: MixBasis) -> _Asked:
    if (basis.consistence, basis.sand) != (consistence, sand):
        raise BrokenIdentity(f"The basis is for {basis.consistence} with {basis.sand} sand.", "basis")
    limits = default("mixes", "mix_volume")
    if not limits.low <= volume <= limits.high:
        raise OutOfRange(f"A mix of {volume:g} m3 isn't made: give up to {limits.high:g} m3.", "volume")
    if min(parts.cement, parts.sand) <= 0 or (parts.aggregate or 0) < 0:
        raise OutOfRange("Every part must be above nothing: cement first, as in 1:4 or 1:2:4.", "parts")
    limits = default("mixes", "parts_to_cement")
    if not limits.low <= parts.to_cement <= limits.high:
        raise OutOfRange(
            f"{parts.to_cement:g} parts to one of cement isn't mixed: give {limits.low:g} to {limits.high:g} in all.",
            "parts",
        )
    return _Asked(volume, parts, consistence, sand, basis)


def _dry_sand(sheet: Sheet, asked: _Asked) -> float:
    """Parts of sand as if measured dry."""
    if asked.sand is SandState.DRY:
        return asked.parts.sand
    return sheet.work("dry_sand_parts", yields.dry_parts, asked.parts.sand, sheet.assume(asked.basis.sand_bulking))


def _yield(sheet: Sheet, asked: _Asked, dry_sand: float) -> float:
    """Parts of mix that all parts together make."""
    basis, parts = asked.basis, asked.parts
    solids, air = _all_solids(sheet, asked, dry_sand), sheet.assume(basis.air_content(parts))
    if basis.water_cement_ratio is None:
        water = sheet.assume(basis.water_content(parts))
        return sheet.work("yield_parts", yields.yield_by_content, solids, water, air)
    ratio, density = sheet.assume(basis.water_cement_ratio), sheet.assume(basis.water_density)
    bulk = basis.cement_bulk_density.value
    water = sheet.work("water_parts", yields.water_parts, parts.cement, ratio, bulk, density)
    return sheet.work("yield_parts", yields.yield_by_ratio, solids, water, air)


def _all_solids(sheet: Sheet, asked: _Asked, dry_sand: float) -> float:
    basis, parts = asked.basis, asked.parts
    cement = _solids(sheet, "cement_solids", parts.cement, basis.cement_bulk_density, basis.cement_particle_density)
    sand = _solids(sheet, "sand_solids", dry_sand, basis.sand_bulk_density, basis.sand_particle_density)
    if not parts.aggregate:
        return sheet.work("solids", yields.mortar_solids, cement, sand)
    bulk, particle = basis.aggregate_bulk_density, basis.aggregate_particle_density
    aggregate = _solids(sheet, "aggregate_solids", parts.aggregate, bulk, particle)
    return sheet.work("solids", yields.concrete_solids, cement, sand, aggregate)


def _solids(sheet: Sheet, figure: str, parts: float, bulk: Assumption, particle: Assumption) -> float:
    if bulk.value >= particle.value:
        raise OutOfRange(
            f"Loose it can't be as dense as its grains: below {particle.value:g} kg/m3, not {bulk.value:g}.", bulk.name
        )
    return sheet.work(figure, yields.solids, parts, sheet.assume(bulk), sheet.assume(particle))


def _cement(sheet: Sheet, asked: _Asked, made: float) -> tuple[float, float]:
    """Cement in a volume of mix [kg/m3], and in all [kg]."""
    parts, bulk = asked.parts.cement, asked.basis.cement_bulk_density.value
    content = sheet.work("cement_per_volume", yields.cement_in_mix, parts, bulk, made)
    return content, sheet.work("cement", gauging.cement_mass, asked.volume, content)


def _sand(sheet: Sheet, asked: _Asked, dry_sand: float, made: float) -> _Sand:
    volume, bulk = asked.volume, asked.basis.sand_bulk_density.value
    measured = sheet.work("sand_volume", gauging.part_volume, volume, asked.parts.sand, made)
    if asked.sand is SandState.DRY:
        return _Sand(measured, sheet.work("sand_mass", gauging.part_mass, measured, bulk), 0.0)
    dry_volume = sheet.work("dry_sand_volume", gauging.part_volume, volume, dry_sand, made)
    dry_mass = sheet.work("dry_sand_mass", gauging.part_mass, dry_volume, bulk)
    moisture, density = sheet.assume(asked.basis.sand_moisture), sheet.assume(asked.basis.water_density)
    mass = sheet.work("sand_mass", gauging.damp_mass, dry_mass, moisture)
    return _Sand(measured, mass, sheet.work("carried_water", gauging.carried_water, dry_mass, moisture, density))


def _aggregate(sheet: Sheet, asked: _Asked, made: float) -> tuple[float, float]:
    """Volume, loose [m3], and mass [kg]."""
    if not asked.parts.aggregate:
        return 0.0, 0.0
    volume = sheet.work("aggregate_volume", gauging.part_volume, asked.volume, asked.parts.aggregate, made)
    return volume, sheet.work("aggregate_mass", gauging.part_mass, volume, asked.basis.aggregate_bulk_density.value)


def _water_in_mix(sheet: Sheet, asked: _Asked, cement: float) -> float:
    """All water in the mix [m3]."""
    basis = asked.basis
    if basis.water_cement_ratio is None:
        content = basis.water_content(asked.parts).value
        return sheet.work("water_in_mix", gauging.water_by_content, asked.volume, content)
    ratio, density = basis.water_cement_ratio.value, basis.water_density.value
    return sheet.work("water_in_mix", gauging.water_by_ratio, cement, ratio, density)


def _water(sheet: Sheet, water_in_mix: float, carried: float) -> float:
    """Water to add at the mixer [m3]."""
    if carried > water_in_mix:
        raise OutOfRange(
            f"The damp sand alone brings {carried * 1000:.3g} l of water and the mix takes "
            f"{water_in_mix * 1000:.3g} l: use drier sand, or a wetter mix.",
            "sand",
        )
    return sheet.work("water", gauging.water_to_add, water_in_mix, carried)


def _rule_of_thumb(sheet: Sheet, asked: _Asked) -> float:
    parts, bulk = asked.parts, asked.basis.cement_bulk_density.value
    factor = sheet.assume(default("mixes", "concrete_dry_volume" if parts.aggregate else "mortar_dry_volume"))
    figure = "rule_of_thumb_cement"
    return sheet.work(figure, gauging.rule_of_thumb, factor, asked.volume, parts.cement, parts.all, bulk)


def _cautions(sheet: Sheet, asked: _Asked) -> None:
    kind, name = ("concrete", "concrete_parts") if asked.parts.aggregate else ("mortar", "mortar_parts")
    what = f"{asked.consistence.replace('_', '-').capitalize()} {kind}"
    usual, others = default("mixes", name), asked.parts.to_cement
    because = f"{what} with {others:g} parts to one of cement; {usual.low:g} to {usual.high:g} is usual."
    if others > usual.high:
        sheet.caution(caution("lean_mix", because))
    if others < usual.low:
        sheet.caution(caution("rich_mix", because))
    caution_cement(sheet, what)
    caution_bags(sheet, asked.basis.bag_mass.value)
