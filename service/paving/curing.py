"""Curing: how long cement takes, and how much longer in the cold. More hands don't shorten it."""

from dataclasses import dataclass

from service.paving.errors import OutOfRange
from service.paving.formulas import formula
from service.paving.reference import Assumption, default
from service.paving.sheets import Sheet


@formula
def warmth(temperature: float, datum: float) -> float:
    """How far a temperature lies above the one at which cement stops setting.

    Parameters
    ----------
    temperature : float
        Of the mortar or concrete [kelvin].
    datum : float
        At which it stops [kelvin].

    Returns
    -------
    float
        Difference [kelvin].

    References
    ----------
    Nurse-Saul maturity (ASTM C1074, quoted from memory)

    Examples
    --------
    >>> warmth(5.0, -10.0)
    15.0
    """
    return temperature - datum


@formula
def curing_wait(usual_wait: float, usual_warmth: float, warmth: float) -> float:
    """Wait at some temperature that ripens as much as the usual wait does at the usual one.

    Parameters
    ----------
    usual_wait : float
        Wait at the usual temperature [s].
    usual_warmth, warmth : float
        Usual and expected temperature above the datum [kelvin].

    Returns
    -------
    float
        Wait [s].

    References
    ----------
    Nurse-Saul maturity (ASTM C1074, quoted from memory)

    Examples
    --------
    A day at 20 °C is two at 5 °C:

    >>> curing_wait(86400.0, 30.0, 15.0)
    172800.0
    """
    return usual_wait * usual_warmth / warmth


@dataclass(frozen=True, slots=True)
class Strength:
    """Share of the strength at 28 days that concrete has at some age [s]."""

    age: float
    share: float
    low: float
    high: float


def strengths() -> tuple[Strength, ...]:
    """How concrete gains strength, by common practice.

    Examples
    --------
    >>> [strength.share for strength in strengths()]
    [0.325, 0.675, 0.9]
    """
    ages = ((default("curing", name), default("curing", f"{name}_strength")) for name in _AGES)
    return tuple(Strength(age.value, share.value, share.low, share.high) for age, share in ages)


_AGES = ("three_days", "one_week", "two_weeks")


def wait_in(sheet: Sheet, figure: str, usual: Assumption, temperature: float | None) -> float:
    """A wait as it is at the temperature that is expected.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    figure : str
        What the wait is called there.
    usual : Assumption
        Wait at the usual temperature [s].
    temperature : float or None
        Mean temperature while it cures [degC]; the usual wait if None, or if it is warmer than usual.

    Raises
    ------
    OutOfRange
        If it is too cold for cement to set, at ``("temperature",)``.
    """
    wait = sheet.assume(usual)
    usual_temperature = default("curing", "usual_temperature")
    if temperature is None or wait == 0 or temperature >= usual_temperature.value:
        return wait
    coldest = default("curing", "coldest").value
    if temperature < coldest:
        raise OutOfRange(f"Below {coldest:g} °C cement hardly sets: wait for warmer weather.", "temperature")
    datum = sheet.assume(default("curing", "datum_temperature"))
    above = sheet.section(figure).work("warmth", warmth, temperature, datum)
    full = sheet.section(figure).work("usual_warmth", warmth, sheet.assume(usual_temperature), datum)
    return sheet.work(figure, curing_wait, wait, full, above)
