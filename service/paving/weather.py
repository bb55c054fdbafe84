"""Cold: when published rules say to stop laying, and when to start again.

              stop, falling        start again, rising
    NHBC 2023    below 3 °C            from 1 °C, if more than 3 °C is to come
    NBS cement   at or below 3 °C      from 1 °C
    NBS lime     at or below 5 °C      from 3 °C

The rules differ at exactly 3 °C and falling; the answer gives each.
"""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.cautions import caution
from service.paving.durations import DAY
from service.paving.reference import cited, default, table
from service.paving.sheets import Sheet


class Trend(StrEnum):
    """Which way the temperature goes."""

    FALLING = "falling"
    RISING = "rising"


class Binder(StrEnum):
    """What binds the mortar."""

    CEMENT = "cement"
    HYDRAULIC_LIME = "hydraulic_lime"


class ColdRule(StrEnum):
    """Whose rule."""

    NHBC_2023 = "nhbc_2023"
    NHBC_2020 = "nhbc_2020"
    NBS_CEMENT = "nbs_cement"
    NBS_LIME = "nbs_lime"


class Work(StrEnum):
    """What a rule says."""

    GO_ON = "go on"
    STOP = "stop"


_RULES = {
    Binder.CEMENT: (ColdRule.NHBC_2023, ColdRule.NHBC_2020, ColdRule.NBS_CEMENT),
    Binder.HYDRAULIC_LIME: (ColdRule.NBS_LIME,),
}
#: Rules that stop at their temperature; the others stop below it.
_AT_OR_BELOW = (ColdRule.NBS_CEMENT, ColdRule.NBS_LIME)
#: What is said by whether it is too cold.
_SAID = {True: Work.STOP, False: Work.GO_ON}


@dataclass(frozen=True, slots=True)
class Air:
    """The air over the work.

    Parameters
    ----------
    temperature : float
        Now [degC].
    trend : Trend
        Which way it goes.
    expected : float or None
        What it is to reach [degC], if that is known.
    """

    temperature: float
    trend: Trend
    expected: float | None = None

    @property
    def lowest(self) -> float:
        """The lower of now and what is to come [degC]."""
        return self.temperature if self.expected is None else min(self.temperature, self.expected)

    @property
    def highest(self) -> float:
        """The higher of the two [degC]."""
        return self.temperature if self.expected is None else max(self.temperature, self.expected)


@dataclass(frozen=True, slots=True)
class Decision:
    """What one rule says, why, and whose it is."""

    rule: ColdRule
    work: Work
    because: str
    source: str


@dataclass(frozen=True, slots=True)
class ColdWork:
    """What the strictest rule says, what each says, and how long new work is kept from frost [s]."""

    work: Work
    decisions: tuple[Decision, ...]
    protection: float

    @property
    def agreed(self) -> bool:
        """Whether all rules say the same."""
        return len({decision.work for decision in self.decisions}) == 1


def cold_work(sheet: Sheet, air: Air, binder: Binder) -> ColdWork:
    """Ask every rule whether to lay or point in the cold.

    Parameters
    ----------
    sheet : Sheet
        Where the cautions go.
    air : Air
        The air over the work.
    binder : Binder
        What binds the mortar.

    Returns
    -------
    ColdWork
        Stop if any rule says so.

    References
    ----------
    NHBC Standards 3.2.5; NBS masonry clause on adverse weather

    Examples
    --------
    >>> found = cold_work(Sheet(), Air(3.0, Trend.FALLING), Binder.CEMENT)
    >>> [(decision.rule.value, decision.work.value) for decision in found.decisions]
    [('nhbc_2023', 'go on'), ('nhbc_2020', 'go on'), ('nbs_cement', 'stop')]
    """
    decisions = tuple(_decision(rule, air) for rule in _RULES[binder])
    stop = any(decision.work is Work.STOP for decision in decisions)
    found = ColdWork(Work.STOP if stop else Work.GO_ON, decisions, sheet.assume(default("weather", "frost_protection")))
    sheet.assume(default("weather", "concrete_as_delivered"))
    if stop:
        said = "Every rule says stop" if found.agreed else "The rules differ"
        sheet.caution(caution("stop_for_cold", f"It is {_degrees(air.temperature)} and {air.trend}. {said}."))
    if air.lowest <= 0:
        days = f"{found.protection / DAY:g} days"
        sheet.caution(caution("protect_from_frost", f"{_degrees(air.lowest)} is to come; the time is up to {days}."))
    return found


def _decision(rule: ColdRule, air: Air) -> Decision:
    source = cited(table("weather")[f"{rule}_stop"]["source"])
    work, because = _falling(rule, air) if air.trend is Trend.FALLING else _rising(rule, air)
    return Decision(rule, work, because, source)


def _falling(rule: ColdRule, air: Air) -> tuple[Work, str]:
    limit = default("weather", f"{rule}_stop").value
    if rule in _AT_OR_BELOW:
        return _SAID[air.temperature <= limit], f"It stops at or below {_degrees(limit)} and falling."
    if rule is ColdRule.NHBC_2020:
        return _SAID[air.lowest < limit], f"It stops below {_degrees(limit)}, or if that is likely."
    return _SAID[air.temperature < limit], f"It stops below {_degrees(limit)} and falling."


def _rising(rule: ColdRule, air: Air) -> tuple[Work, str]:
    start, stop = (default("weather", f"{rule}_{name}").value for name in ("start", "stop"))
    if rule is not ColdRule.NHBC_2023:
        return _SAID[air.temperature < start], f"It starts again at {_degrees(start)} and rising."
    because = f"It starts again at {_degrees(start)} and rising, if more than {_degrees(stop)} is to come."
    return _SAID[air.temperature < start or air.highest <= stop], because


def _degrees(temperature: float) -> str:
    return f"{temperature:g} °C"
