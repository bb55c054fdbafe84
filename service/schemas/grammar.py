"""The grammar of quantities on the wire.

A quantity is text: a number, an optional space, a unit from a closed list. Lengths may
also be feet and inches, inches may be fractions, gradients may be "1 in 60". One regular
expression per dimension is both what the contract publishes and what the parser matches.
pint never sees a client's text: it only gives the factors, once, at start.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cached_property, lru_cache

import pint

#: Exact rationals, so that a foot is 0.3048 m and not 0.30479999999999996.
REGISTRY: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)

NUMBER = r"(?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,12})?"
_FRACTION = r"[1-9][0-9]?/(?:2|4|8|16|32|64)"
_INCHES = rf"(?:{NUMBER}|(?:[1-9][0-9]{{0,3}} )?{_FRACTION})"
_WHOLE = r"(?:0|[1-9][0-9]{0,5})"
#: Significant figures of every number on the wire: past any site measurement, short of float noise.
FIGURES = 12
_AS_SHOWN = f"%.{FIGURES}g"
#: Texts and values that each dimension remembers: sizes come again and again, from client to client. What isn't a
#: quantity isn't kept, so that none is longer than the grammar allows.
KNOWN = 2048


def rounded(value: float) -> float:
    """A number as it leaves: twelve significant figures, never a negative zero."""
    return float(_AS_SHOWN % value) + 0.0


def decimal(number: float) -> str:
    """A number as text, digit for digit, without an exponent."""
    return f"{Decimal(repr(number)):f}".removesuffix(".0")


def plain(value: float) -> str:
    """A number as the grammar writes it: no exponent, at most twelve decimals."""
    return decimal(round(rounded(value), FIGURES) + 0.0)


@dataclass(frozen=True)
class Dimension:
    """One kind of quantity with its closed list of units.

    Parameters
    ----------
    name : str
        What it is called in a sentence.
    units : dict
        Unit as written on the wire to its name in pint.
    base : str
        SI base unit the trade works in, in pint's spelling.
    shown : str
        Unit of the list in which an answer repeats what was given.
    examples : tuple of str
        Right forms, for the contract and for refusals.
    """

    name: str
    units: dict[str, str]
    base: str
    shown: str
    examples: tuple[str, ...]

    @cached_property
    def factors(self) -> dict[str, float]:
        """What one of each unit is in the base unit, as pint has it."""
        return {unit: float(REGISTRY.Quantity(1, name).to(self.base).magnitude) for unit, name in self.units.items()}

    @cached_property
    def pattern(self) -> str:
        """The regular expression of the contract, without anchors."""
        return rf"{NUMBER} ?(?:{'|'.join(re.escape(unit) for unit in self.units)})".replace(r"\ ", " ")

    @cached_property
    def _parts(self) -> re.Pattern[str]:
        units = "|".join(re.escape(unit) for unit in self.units)
        return re.compile(rf"({NUMBER}) ?({units})", re.ASCII)

    def value(self, text: str) -> float | None:
        """The quantity in the base unit, or None if the text isn't one."""
        found = self._parts.fullmatch(text)
        return float(found[1]) * self.factors[found[2]] if found else None

    def text(self, value: float) -> str:
        """A value as this grammar writes it."""
        return f"{plain(value / self.factors[self.shown])} {self.shown}"

    @cached_property
    def read(self) -> Callable[[str], float]:
        """The value that a text stands for, settled; a ValueError if it isn't a quantity."""
        return lru_cache(maxsize=KNOWN)(self._read)

    def _read(self, text: str) -> float:
        value = self.value(text)
        if value is None:
            raise ValueError(text)
        return self.settled(value)

    @cached_property
    def written(self) -> Callable[[float], str]:
        """A value as this grammar writes it."""
        return lru_cache(maxsize=KNOWN)(self.text)

    def said(self, value: float) -> str:
        """A value as a sentence says it."""
        return self.text(value)

    def settled(self, value: float) -> float:
        """The value that its text stands for: what is worked with is what an answer repeats."""
        factor = self.factors[self.shown]
        return (round(rounded(value / factor), FIGURES) + 0.0) * factor


#: Lengths from here on are said in metres: nobody reads a hundred thousand millimetres.
_SAID_IN_METRES = 10.0


class Length(Dimension):
    """Lengths: also feet and inches together, and inches in fractions."""

    @cached_property
    def pattern(self) -> str:
        metric = "|".join(unit for unit in self.units if unit != "in")
        return rf"(?:{NUMBER} ?(?:{metric})|(?:{_WHOLE} ?ft )?{_INCHES} ?in)"

    @cached_property
    def _parts(self) -> re.Pattern[str]:
        metric = "|".join(unit for unit in self.units if unit != "in")
        return re.compile(rf"(?:({NUMBER}) ?({metric})|(?:({_WHOLE}) ?ft )?({_INCHES}) ?in)", re.ASCII)

    def said(self, value: float) -> str:
        return f"{plain(value)} m" if abs(value) >= _SAID_IN_METRES else self.text(value)

    def value(self, text: str) -> float | None:
        found = self._parts.fullmatch(text)
        if not found:
            return None
        number, unit, feet, inches = found.groups()
        if unit:
            return float(number) * self.factors[unit]
        return (int(feet or 0) * 12 + sum(map(_fraction, inches.split()))) * self.factors["in"]


class Negatable(Dimension):
    """A quantity that a minus sign turns round: mixed in before what it is a quantity of."""

    @cached_property
    def pattern(self) -> str:
        return "-?" + super().pattern

    def value(self, text: str) -> float | None:
        value = super().value(text.removeprefix("-"))
        return -value if value is not None and text.startswith("-") else value


class Signed(Negatable, Length):
    """Lengths that may lie left of or below the origin."""


class Angle(Negatable):
    """Angles: counter-clockwise, or clockwise with a minus sign."""


class Gradient(Dimension):
    """Slopes: "1 in 60" beside the units of a ratio."""

    @cached_property
    def pattern(self) -> str:
        return rf"(?:1 in {NUMBER}|{super().pattern})"

    def value(self, text: str) -> float | None:
        if text.startswith("1 in "):
            found = re.fullmatch(NUMBER, text[5:], re.ASCII)
            return (1 / float(found[0]) if float(found[0]) else float("inf")) if found else None
        return super().value(text)

    def text(self, value: float) -> str:
        """In per cent where that is exact, else as "1 in 60"."""
        slope = super().text(value)
        run = plain(1 / value) if value else ""
        return f"1 in {run}" if run.strip("0") and super().value(slope) != value == 1 / float(run) else slope

    def settled(self, value: float) -> float:
        return value if "1 in " in self.text(value) else super().settled(value)


class Slope(Negatable, Gradient):
    """Gradients that may rise, with a minus sign, instead of fall."""

    def text(self, value: float) -> str:
        return f"-{super().text(-value)}" if value < 0 else super().text(value)

    def settled(self, value: float) -> float:
        return -super().settled(-value) if value < 0 else super().settled(value)


class Temperature(Dimension):
    """Temperatures: each scale has a zero of its own, and a minus sign below it."""

    @cached_property
    def factors(self) -> dict[str, float]:
        """What a degree of each scale is, as pint has the difference."""
        steps = {unit: REGISTRY.Quantity(1, f"delta_{name}") for unit, name in self.units.items()}
        return {unit: float(step.to(f"delta_{self.base}").magnitude) for unit, step in steps.items()}

    @cached_property
    def zeros(self) -> dict[str, float]:
        """Where the zero of each scale lies in the base unit, as pint has it."""
        return {unit: float(REGISTRY.Quantity(0, name).to(self.base).magnitude) for unit, name in self.units.items()}

    @cached_property
    def pattern(self) -> str:
        return "-?" + super().pattern

    def value(self, text: str) -> float | None:
        found = self._parts.fullmatch(text.removeprefix("-"))
        if not found:
            return None
        degrees = -float(found[1]) if text.startswith("-") else float(found[1])
        return degrees * self.factors[found[2]] + self.zeros[found[2]]


def _fraction(text: str) -> float:
    over, _, under = text.partition("/")
    return float(over) / float(under or 1)
