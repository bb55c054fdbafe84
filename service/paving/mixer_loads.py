"""Bags of cement, and the loads of the mixer that a mix is made in.

A load is no more than the mixer turns out, no more than is placed before it stiffens, and
if so much fits a whole number of half bags of cement: those need no weighing.
"""

from dataclasses import dataclass

from service.paving.counts import ceil, floor
from service.paving.formulas import formula
from service.paving.gauging import cement_mass
from service.paving.mix_bases import MixBasis
from service.paving.sheets import Sheet


@formula
def whole_bags(mass: float, bag_mass: float) -> float:
    """Whole bags that hold a mass.

    Parameters
    ----------
    mass : float
        Mass needed [kg].
    bag_mass : float
        Mass of a bag [kg].

    Returns
    -------
    float
        Whole number of bags [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> whole_bags(485.0, 25.0)
    20
    """
    return ceil(mass / bag_mass)


@formula
def greatest_batch(mixer_output: float, placing_rate: float, working_time: float) -> float:
    """Most that may be mixed at once: what the mixer holds and what is placed before it stiffens.

    Parameters
    ----------
    mixer_output : float
        Volume of mix the mixer turns out at once [m3].
    placing_rate : float
        Volume placed in a time [m3/s].
    working_time : float
        Time until the mix may no longer be used [s].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Common practice

    Examples
    --------
    >>> greatest_batch(0.09, 0.00002, 5000.0)
    0.09
    """
    return min(mixer_output, placing_rate * working_time)


@formula
def half_bags(greatest_cement: float, bag_mass: float) -> float:
    """Half bags of cement in the greatest batch: what can be measured without weighing.

    Parameters
    ----------
    greatest_cement : float
        Cement in the greatest batch [kg].
    bag_mass : float
        Mass of a bag [kg].

    Returns
    -------
    float
        Whole number of half bags [1].

    References
    ----------
    Common practice

    Examples
    --------
    >>> half_bags(35.0, 25.0)
    2
    """
    return floor(greatest_cement / (bag_mass / 2))


@formula
def half_bags_mass(half_bags: float, bag_mass: float) -> float:
    """Cement in a number of half bags.

    Parameters
    ----------
    half_bags : float
        Number of half bags [1].
    bag_mass : float
        Mass of a bag [kg].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    Geometry

    Examples
    --------
    >>> half_bags_mass(3, 25.0)
    37.5
    """
    return half_bags * bag_mass / 2


@formula
def lesser_mass(full_batch_cement: float, cement: float) -> float:
    """Cement in a batch: a full one, or all there is if that is less.

    Parameters
    ----------
    full_batch_cement : float
        Cement in a full batch [kg].
    cement : float
        Cement in all [kg].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    Geometry

    Examples
    --------
    >>> lesser_mass(37.5, 8.0)
    8.0
    """
    return min(full_batch_cement, cement)


@formula
def batches_needed(cement: float, batch_cement: float) -> float:
    """Number of batches a mix is made in.

    Parameters
    ----------
    cement : float
        Cement in all [kg].
    batch_cement : float
        Cement in one batch [kg].

    Returns
    -------
    float
        Whole number of batches [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> batches_needed(180.0, 37.5)
    5
    """
    return ceil(cement / batch_cement)


@dataclass(frozen=True, slots=True)
class Loads:
    """Whole bags of cement, number of batches, and the cement in a full batch [kg]."""

    bags: int
    batches: int
    batch_cement: float


def loads(sheet: Sheet, cement: float, cement_per_volume: float, basis: MixBasis) -> Loads:
    """Bags and batches of a mix.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    cement : float
        Cement in all [kg].
    cement_per_volume : float
        Cement in a volume of mix [kg/m3].
    basis : MixBasis
        Bag, mixer, placing rate and working time.

    References
    ----------
    Common practice
    """
    bag = sheet.assume(basis.bag_mass)
    output, rate = sheet.assume(basis.mixer_output), sheet.assume(basis.placing_rate)
    most = sheet.work("greatest_batch", greatest_batch, output, rate, sheet.assume(basis.working_time))
    most_cement = sheet.work("greatest_batch_cement", cement_mass, most, cement_per_volume)
    halves = sheet.work("batch_half_bags", half_bags, most_cement, bag)
    full = sheet.work("full_batch_cement", half_bags_mass, halves, bag) if halves else most_cement
    batch = sheet.work("batch_cement", lesser_mass, full, cement)
    return Loads(
        bags=int(sheet.work("cement_bags", whole_bags, cement, bag)),
        batches=int(sheet.work("batches", batches_needed, cement, batch)),
        batch_cement=batch,
    )
