"""Lifting: what one person, or a few together, may lift where the load is held.

head          10 |  5         kg, a man's; close to the body | at arm's length
shoulder      20 | 10
elbow         25 | 15
knuckle       20 | 10
lower leg     10 |  5
"""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.cautions import caution
from service.paving.formulas import formula
from service.paving.handling import slab_density, slab_mass
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet
from service.paving.slabs import Slab


class Lifter(StrEnum):
    """For whom the filter is drawn."""

    MAN = "man"
    WOMAN = "woman"


class Height(StrEnum):
    """How high the load is held; the lowest or highest it passes through counts."""

    HEAD = "head"
    SHOULDER = "shoulder"
    ELBOW = "elbow"
    KNUCKLE = "knuckle"
    LOWER_LEG = "lower_leg"


class Reach(StrEnum):
    """How far from the body it is held."""

    CLOSE = "close"
    ARMS_LENGTH = "arms_length"


class Means(StrEnum):
    """What a load is lifted by."""

    ONE = "one person"
    TWO = "two people"
    THREE = "three people"
    AID = "a lifting aid"


@dataclass(frozen=True, slots=True)
class Lift:
    """How something is lifted.

    Parameters
    ----------
    lifter : Lifter
        By whom.
    height, reach : Height, Reach
        Where the load is held.
    frequency : float
        How often [1/s].
    """

    lifter: Lifter = Lifter.MAN
    height: Height = Height.ELBOW
    reach: Reach = Reach.CLOSE
    frequency: float = 0.0


@formula
def reduced_weight(filter_weight: float, reduction: float) -> float:
    """Weight of the lifting filter for lifts that come often.

    Parameters
    ----------
    filter_weight : float
        Weight of the filter for up to thirty lifts an hour [kg].
    reduction : float
        Share it is reduced by [1].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    HSE, INDG143 (quoted from memory)

    Examples
    --------
    25 kg, twice a minute:

    >>> reduced_weight(25.0, 0.3)
    17.5
    """
    return filter_weight * (1 - reduction)


@formula
def team_weight(one_person: float, people: float, share: float) -> float:
    """Weight that a few people may lift together.

    Parameters
    ----------
    one_person : float
        What each may lift alone [kg].
    people : float
        How many lift [1].
    share : float
        Share of the sum that a team of so many can use [1].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    HSE, L23 (quoted from memory)

    Examples
    --------
    >>> team_weight(24.0, 2, 0.75)
    36.0
    """
    return one_person * people * share


@dataclass(frozen=True, slots=True)
class Lifting:
    """What may be lifted, and by whom this is.

    Parameters
    ----------
    mass : float
        What is lifted [kg].
    one_person, two_people, three_people : float
        The filter's weights [kg].
    means : Means
        The fewest people that may lift the mass asked for, or a lifting aid.
    """

    mass: float
    one_person: float
    two_people: float
    three_people: float
    means: Means


def lifting(sheet: Sheet, load: Slab | float, lift: Lift) -> Lifting:
    """Hold a slab, or any mass, against the lifting filter.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    load : Slab or float
        The slab, or the mass [kg], that is lifted.
    lift : Lift
        How.

    Notes
    -----
    The guidance names no reduction from two to five lifts a minute and from eight to twelve; the
    next stricter one is taken there.

    References
    ----------
    HSE, INDG143 and L23 (quoted from memory)
    """
    mass = _mass(sheet, load) if isinstance(load, Slab) else load
    weight = default("lifting", f"{lift.lifter}_{lift.height}_{lift.reach}")
    reduction = sheet.assume(_reduction(lift.frequency))
    one = sheet.work("one_person", reduced_weight, sheet.assume(weight._replace(name="filter_weight")), reduction)
    shares = (sheet.assume(default("lifting", name)) for name in ("share_of_two", "share_of_three"))
    two, three = (
        sheet.work(figure, team_weight, one, people, share)
        for figure, people, share in zip(("two_people", "three_people"), (2, 3), shares, strict=True)
    )
    limits = dict(zip(Means, (one, two, three), strict=False))
    means = next((who for who, limit in limits.items() if mass <= limit * (1 + 1e-9)), Means.AID)
    if means is not Means.ONE:
        sheet.caution(caution("heavy_lift", f"It weighs {mass:.1f} kg; one person's limit here is {one:.1f} kg."))
    return Lifting(mass, one, two, three, means)


def _mass(sheet: Sheet, slab: Slab) -> float:
    density = sheet.assume(slab_density(slab.made_of))
    return sheet.work("mass", slab_mass, slab.length, slab.width, slab.thickness, density)


def _reduction(frequency: float) -> Assumption:
    """By how much lifts so often [1/s] reduce the filter."""
    for name in ("seldom", "often", "very_often"):
        if frequency <= default("lifting", f"{name}_frequency").value * (1 + 1e-9):
            return default("lifting", f"{name}_reduction")
    return default("lifting", "constantly_reduction")
