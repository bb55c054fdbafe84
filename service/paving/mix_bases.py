"""What a mix is asked by, and what it is worked from: parts, consistence, densities, water, bags."""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.reference import Assumption, default


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

    @property
    def to_cement(self) -> float:
        """All other parts to one of cement."""
        return (self.all - self.cement) / self.cement


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

    def water_content(self, parts: Parts) -> Assumption:
        """Volume of water in a volume of this mortar or concrete [1]."""
        return self.concrete_water if parts.aggregate else self.mortar_water

    def air_content(self, parts: Parts) -> Assumption:
        """Volume of air in a volume of this mortar or concrete [1]."""
        return self.concrete_air if parts.aggregate else self.mortar_air


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
