"""Mortar and concrete by absolute volumes, with the rule of thumb beside it."""

from dataclasses import dataclass
from enum import StrEnum

from service.paving import gauging, yields
from service.paving.cautions import caution
from service.paving.errors import OutOfRange
from service.paving.handling import caution_bags, caution_cement
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet


class Consistence(StrEnum):
    """How wet a mix is: plastic flows under the slab, semi-dry is trodden and screeded."""

    PLASTIC = "plastic"
    SEMI_DRY = "semi_dry"


class SandState(StrEnum):
    """How the sand is when its parts are measured: dry, or damp and bulked."""

    DRY = "dry"
    DAMP = "damp"


@dataclass(frozen=True, slots=True)
class Parts:
    """Parts of a mix by loose volume: cement to sand, to aggregate in concrete.

    Parameters
    ----------
    cement, sand : float
        Parts [1], above 0.
    aggregate : float or None
        Parts [1], above 0; none in mortar.
    """

    cement: float
    sand: float
    aggregate: float | None = None

    @property
    def all(self) -> float:
        """All parts together."""
        return self.cement + self.sand + (self.aggregate or 0)


@dataclass(frozen=True, slots=True)
class MixBasis:
    """What a mix is worked from; replace a field by its `given` to override it.

    Parameters
    ----------
    consistence, sand : Consistence, SandState
        What the defaults were chosen for.
    cement_bulk_density, sand_bulk_density, aggregate_bulk_density : Assumption
        Densities of the loose, dry materials [kg/m3].
    cement_particle_density, sand_particle_density, aggregate_particle_density : Assumption
        Densities of their grains [kg/m3].
    water_density : Assumption
        Density of water [kg/m3].
    mortar_water, mortar_air, concrete_water, concrete_air : Assumption
        Volume of water and of air in a volume of mortar or concrete [1].
    sand_bulking : Assumption
        How much more room damp sand takes than dry sand [1].
    sand_moisture : Assumption
        Mass of water to mass of dry sand, when damp [1].
    bag_mass : Assumption
        Mass of a bag of cement [kg].
    mixer_output : Assumption
        Volume of mix turned out at once [m3].
    placing_rate, working_time : Assumption
        How fast the mix is placed [m3/s] and how long it can be [s].
    water_cement_ratio : Assumption or None
        Mass of water to mass of cement [1]; if given it goes before the water content.
    """

    consistence: Consistence
    sand: SandState
    cement_bulk_density: Assumption
    cement_particle_density: Assumption
    sand_bulk_density: Assumption
    sand_particle_density: Assumption
    aggregate_bulk_density: Assumption
    aggregate_particle_density: Assumption
    water_density: Assumption
    mortar_water: Assumption
    mortar_air: Assumption
    concrete_water: Assumption
    concrete_air: Assumption
    sand_bulking: Assumption
    sand_moisture: Assumption
    bag_mass: Assumption
    mixer_output: Assumption
    placing_rate: Assumption
    working_time: Assumption
    water_cement_ratio: Assumption | None = None


_BY_CONSISTENCE = ("mortar_water", "mortar_air", "concrete_water", "concrete_air")
_ALWAYS = (
    "cement_bulk_density",
    "cement_particle_density",
    "sand_bulk_density",
    "sand_particle_density",
    "aggregate_bulk_density",
    "aggregate_particle_density",
    "water_density",
    "sand_bulking",
    "sand_moisture",
    "bag_mass",
    "mixer_output",
    "placing_rate",
    "working_time",
)


def mix_basis(consistence: Consistence, sand: SandState) -> MixBasis:
    """The defaults a mix is worked from.

    Examples
    --------
    >>> mix_basis(Consistence.SEMI_DRY, SandState.DAMP).mortar_water.value
    0.13
    """
    wet = {name: default("mixes", f"{name}_{consistence}") for name in _BY_CONSISTENCE}
    return MixBasis(consistence, sand, **{name: default("mixes", name) for name in _ALWAYS}, **wet)


def given_water_cement_ratio(value: float) -> Assumption:
    """The asker's own ratio of water to cement by mass [1]."""
    return default("mixes", "water_cement_ratio").given(value)


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
        If the volume or the parts can't be mixed (at ``("volume",)``, ``("parts",)``), or
        the sand brings more water than the mix takes (at ``("sand",)``).

    References
    ----------
    US Navy, Engineering Aid, chapter 17, absolute volume method
    """
    _refuse(volume, parts)
    dry_sand = parts.sand
    if sand is SandState.DAMP:
        dry_sand = sheet.work("dry_sand_parts", yields.dry_parts, parts.sand, sheet.assume(basis.sand_bulking))
    made = _yield(sheet, parts, dry_sand, basis)
    cement_per_volume = sheet.work(
        "cement_per_volume", yields.cement_in_mix, parts.cement, basis.cement_bulk_density.value, made
    )
    cement = sheet.work("cement", gauging.cement_mass, volume, cement_per_volume)
    sand_volume, sand_mass, carried = _sand(sheet, volume, parts, dry_sand, made, sand, basis)
    water_in_mix = _water(sheet, volume, cement, parts, basis)
    batches, batch_cement = _batches(sheet, cement, cement_per_volume, basis)
    _cautions(sheet, parts, basis)
    return Mix(
        volume=volume,
        cement=cement,
        cement_bags=int(sheet.work("cement_bags", gauging.whole_bags, cement, basis.bag_mass.value)),
        sand_volume=sand_volume,
        sand_mass=sand_mass,
        **_aggregate(sheet, volume, parts, made, basis),
        water=_water_to_add(sheet, water_in_mix, carried),
        water_in_mix=water_in_mix,
        cement_per_volume=cement_per_volume,
        rule_of_thumb_cement=_rule_of_thumb(sheet, volume, parts, basis),
        batches=batches,
        batch_cement=batch_cement,
    )


def _refuse(volume: float, parts: Parts) -> None:
    limits = default("mixes", "mix_volume")
    if not limits.low <= volume <= limits.high:
        raise OutOfRange(f"A mix of {volume:g} m3 isn't made: give up to {limits.high:g} m3.", "volume")
    if min(parts.cement, parts.sand, parts.all - parts.cement - parts.sand) < 0 or not parts.cement or not parts.sand:
        raise OutOfRange("Every part must be above nothing: cement first, as in 1:4 or 1:2:4.", "parts")
    limits = default("mixes", "parts_to_cement")
    others = (parts.all - parts.cement) / parts.cement
    if not limits.low <= others <= limits.high:
        raise OutOfRange(
            f"{others:g} parts to one of cement isn't mixed: give {limits.low:g} to {limits.high:g} in all.", "parts"
        )


def _yield(sheet: Sheet, parts: Parts, dry_sand: float, basis: MixBasis) -> float:
    """Parts of mix that all parts together make."""
    cement = _solids(sheet, "cement_solids", parts.cement, basis.cement_bulk_density, basis.cement_particle_density)
    sand = _solids(sheet, "sand_solids", dry_sand, basis.sand_bulk_density, basis.sand_particle_density)
    if parts.aggregate:
        bulk, particle = basis.aggregate_bulk_density, basis.aggregate_particle_density
        stone = _solids(sheet, "aggregate_solids", parts.aggregate, bulk, particle)
        grains = sheet.work("solids", yields.concrete_solids, cement, sand, stone)
    else:
        grains = sheet.work("solids", yields.mortar_solids, cement, sand)
    air = sheet.assume(basis.concrete_air if parts.aggregate else basis.mortar_air)
    if basis.water_cement_ratio is None:
        water = sheet.assume(basis.concrete_water if parts.aggregate else basis.mortar_water)
        return sheet.work("yield_parts", yields.yield_by_content, grains, water, air)
    water = sheet.work(
        "water_parts",
        yields.water_parts,
        parts.cement,
        sheet.assume(basis.water_cement_ratio),
        basis.cement_bulk_density.value,
        sheet.assume(basis.water_density),
    )
    return sheet.work("yield_parts", yields.yield_by_ratio, grains, water, air)


def _solids(sheet: Sheet, figure: str, parts: float, bulk: Assumption, particle: Assumption) -> float:
    return sheet.work(figure, yields.solids, parts, sheet.assume(bulk), sheet.assume(particle))


def _sand(
    sheet: Sheet, volume: float, parts: Parts, dry_sand: float, made: float, sand: SandState, basis: MixBasis
) -> tuple[float, float, float]:
    """Volume as measured, mass as delivered, and the water it carries."""
    measured = sheet.work("sand_volume", gauging.part_volume, volume, parts.sand, made)
    if sand is SandState.DRY:
        return measured, sheet.work("sand_mass", gauging.part_mass, measured, basis.sand_bulk_density.value), 0.0
    dry_volume = sheet.work("dry_sand_volume", gauging.part_volume, volume, dry_sand, made)
    dry_mass = sheet.work("dry_sand_mass", gauging.part_mass, dry_volume, basis.sand_bulk_density.value)
    moisture = sheet.assume(basis.sand_moisture)
    mass = sheet.work("sand_mass", gauging.damp_mass, dry_mass, moisture)
    carried = sheet.work("carried_water", gauging.carried_water, dry_mass, moisture, sheet.assume(basis.water_density))
    return measured, mass, carried


def _aggregate(sheet: Sheet, volume: float, parts: Parts, made: float, basis: MixBasis) -> dict[str, float]:
    if not parts.aggregate:
        return {"aggregate_volume": 0.0, "aggregate_mass": 0.0}
    loose = sheet.work("aggregate_volume", gauging.part_volume, volume, parts.aggregate, made)
    mass = sheet.work("aggregate_mass", gauging.part_mass, loose, basis.aggregate_bulk_density.value)
    return {"aggregate_volume": loose, "aggregate_mass": mass}


def _water(sheet: Sheet, volume: float, cement: float, parts: Parts, basis: MixBasis) -> float:
    """All water in the mix [m3]."""
    if basis.water_cement_ratio is not None:
        density = basis.water_density.value
        return sheet.work("water_in_mix", gauging.water_by_ratio, cement, basis.water_cement_ratio.value, density)
    content = basis.concrete_water if parts.aggregate else basis.mortar_water
    return sheet.work("water_in_mix", gauging.water_by_content, volume, content.value)


def _water_to_add(sheet: Sheet, water_in_mix: float, carried: float) -> float:
    if carried > water_in_mix:
        raise OutOfRange(
            f"The damp sand alone brings {carried * 1000:.3g} l of water and the mix takes "
            f"{water_in_mix * 1000:.3g} l: use drier sand, or a wetter mix.",
            "sand",
        )
    return sheet.work("water", gauging.water_to_add, water_in_mix, carried)


def _rule_of_thumb(sheet: Sheet, volume: float, parts: Parts, basis: MixBasis) -> float:
    factor = default("mixes", "concrete_dry_volume" if parts.aggregate else "mortar_dry_volume")
    bulk = basis.cement_bulk_density.value
    return sheet.work(
        "rule_of_thumb_cement", gauging.rule_of_thumb, sheet.assume(factor), volume, parts.cement, parts.all, bulk
    )


def _batches(sheet: Sheet, cement: float, cement_per_volume: float, basis: MixBasis) -> tuple[int, float]:
    """Number of batches and the cement in a full one, in half bags if so much fits."""
    bag = sheet.assume(basis.bag_mass)
    output, rate = sheet.assume(basis.mixer_output), sheet.assume(basis.placing_rate)
    most = sheet.work("greatest_batch", gauging.greatest_batch, output, rate, sheet.assume(basis.working_time))
    most_cement = sheet.work("greatest_batch_cement", gauging.cement_mass, most, cement_per_volume)
    halves = sheet.work("batch_half_bags", gauging.half_bags, most_cement, bag)
    batch = sheet.work("batch_cement", gauging.half_bags_mass, halves, bag) if halves else most_cement
    batch = min(batch, cement)
    return int(sheet.work("batches", gauging.batches_needed, cement, batch)), batch


def _cautions(sheet: Sheet, parts: Parts, basis: MixBasis) -> None:
    what = "Concrete" if parts.aggregate else "Mortar"
    usual = default("mixes", "concrete_parts" if parts.aggregate else "mortar_parts")
    others = (parts.all - parts.cement) / parts.cement
    because = f"{what} with {others:g} parts to one of cement; {usual.low:g} to {usual.high:g} is usual."
    if others > usual.high:
        sheet.caution(caution("lean_mix", because))
    if others < usual.low:
        sheet.caution(caution("rich_mix", because))
    caution_cement(sheet, what)
    caution_bags(sheet, basis.bag_mass.value)
