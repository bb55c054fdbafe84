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
from functools import cache, cached_property, lru_cache

import pint

#: Exact rationals, so that a foot is 0.3048 m and not 0.30479999999999996.
_REGISTRY: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)

NUMBER = r"(?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,12})?"
_FRACTION = r"[1-9][0-9]?/(?:2|4|8|16|32|64)"
_INCHES = rf"(?:{NUMBER}|(?:[1-9][0-9]{{0,3}} )?{_FRACTION})"
_WHOLE = r"(?:0|[1-9][0-9]{0,5})"
#: Significant figures of every number on the wire: past any site measurement, short of float noise.
FIGURES = 12
#: Texts and values that each dimension remembers: sizes come again and again, from client to client. What isn't a
#: quantity isn't kept, so that none is longer than the grammar allows.
KNOWN = 2048


def rounded(value: float) -> float:
    """A number as it leaves: twelve significant figures, never a negative zero."""
    return float(f"{value:.{FIGURES}g}") + 0.0


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
        return {unit: float(_REGISTRY.Quantity(1, name).to(self.base).magnitude) for unit, name in self.units.items()}

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


class _Length(Dimension):
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


class _Signed(_Length):
    """Lengths that may lie left of or below the origin."""

    @cached_property
    def pattern(self) -> str:
        return "-?" + super().pattern

    def value(self, text: str) -> float | None:
        value = super().value(text.removeprefix("-"))
        return -value if value is not None and text.startswith("-") else value


class _Angle(Dimension):
    """Angles: counter-clockwise, or clockwise with a minus sign."""

    @cached_property
    def pattern(self) -> str:
        return "-?" + super().pattern

    def value(self, text: str) -> float | None:
        value = super().value(text.removeprefix("-"))
        return -value if value is not None and text.startswith("-") else value


class _Gradient(Dimension):
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


class _Slope(_Gradient):
    """Gradients that may rise, with a minus sign, instead of fall."""

    @cached_property
    def pattern(self) -> str:
        return "-?" + super().pattern

    def value(self, text: str) -> float | None:
        value = super().value(text.removeprefix("-"))
        return -value if value is not None and text.startswith("-") else value

    def text(self, value: float) -> str:
        return f"-{super().text(-value)}" if value < 0 else super().text(value)

    def settled(self, value: float) -> float:
        return -super().settled(-value) if value < 0 else super().settled(value)


class _Temperature(Dimension):
    """Temperatures: each scale has a zero of its own, and a minus sign below it."""

    @cached_property
    def factors(self) -> dict[str, float]:
        """What a degree of each scale is, as pint has the difference."""
        steps = {unit: _REGISTRY.Quantity(1, f"delta_{name}") for unit, name in self.units.items()}
        return {unit: float(step.to(f"delta_{self.base}").magnitude) for unit, step in steps.items()}

    @cached_property
    def zeros(self) -> dict[str, float]:
        """Where the zero of each scale lies in the base unit, as pint has it."""
        return {unit: float(_REGISTRY.Quantity(0, name).to(self.base).magnitude) for unit, name in self.units.items()}

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


_LENGTHS = {"mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch", "ft": "foot", "yd": "yard"}

LENGTH = _Length("length", _LENGTHS, "meter", "mm", ("4.8 m", "450 mm", "15 ft 9 in"))
POSITION = _Signed("position", _LENGTHS, "meter", "mm", ("1.2 m", "-300 mm", "4 ft 6 in"))
AREA = Dimension(
    "area",
    {"m2": "meter**2", "ft2": "foot**2", "yd2": "yard**2"},
    "meter**2",
    "m2",
    ("17.3 m2", "186 ft2"),
)
VOLUME = Dimension(
    "volume",
    {
        "m3": "meter**3",
        "l": "liter",
        "ml": "milliliter",
        "ft3": "foot**3",
        "yd3": "yard**3",
        "US gal": "US_liquid_gallon",
        "UK gal": "imperial_gallon",
    },
    "meter**3",
    "m3",
    ("0.45 m3", "90 l", "1.5 yd3"),
)
MASS = Dimension(
    "mass",
    {"kg": "kilogram", "g": "gram", "t": "metric_ton", "lb": "pound", "US ton": "short_ton", "UK ton": "long_ton"},
    "kilogram",
    "kg",
    ("25 kg", "2.1 t", "94 lb"),
)
DENSITY = Dimension(
    "density",
    {
        "kg/m3": "kilogram/meter**3",
        "t/m3": "metric_ton/meter**3",
        "kg/l": "kilogram/liter",
        "lb/ft3": "pound/foot**3",
        "lb/yd3": "pound/yard**3",
    },
    "kilogram/meter**3",
    "kg/m3",
    ("2.1 t/m3", "1440 kg/m3", "94 lb/ft3"),
)
RATE = Dimension(
    "rate",
    {"mm/h": "millimeter/hour", "in/h": "inch/hour", "l/s/m2": "liter/second/meter**2", "m/s": "meter/second"},
    "meter/second",
    "mm/h",
    ("50 mm/h", "0.014 l/s/m2"),
)
ANGLE = _Angle("angle", {"deg": "degree", "rad": "radian"}, "radian", "deg", ("30 deg",))
_GRADIENTS = {"%": "percent", "mm/m": "millimeter/meter", "in/ft": "inch/foot"}

GRADIENT = _Gradient("gradient", _GRADIENTS, "dimensionless", "%", ("1 in 60", "2 %"))
SLOPE = _Slope("slope", _GRADIENTS, "dimensionless", "%", ("1 in 60", "-1 in 60", "2 %"))

DURATION = Dimension(
    "duration", {"s": "second", "min": "minute", "h": "hour", "d": "day"}, "second", "h", ("24 h", "30 min", "7 d")
)
TEMPERATURE = _Temperature(
    "temperature",
    {"degC": "degree_Celsius", "degF": "degree_Fahrenheit"},
    "degree_Celsius",
    "degC",
    ("3 degC", "37 degF"),
)
VIBRATION = Dimension("vibration", {"m/s2": "meter/second**2"}, "meter/second**2", "m/s2", ("6 m/s2",))
VOLUME_OUTPUT = Dimension(
    "output by volume", {"m3/h": "meter**3/hour", "yd3/h": "yard**3/hour"}, "meter**3/second", "m3/h", ("0.5 m3/h",)
)
AREA_OUTPUT = Dimension(
    "output by area", {"m2/h": "meter**2/hour", "ft2/h": "foot**2/hour"}, "meter**2/second", "m2/h", ("2.5 m2/h",)
)
LENGTH_OUTPUT = Dimension(
    "output by length", {"m/h": "meter/hour", "ft/h": "foot/hour"}, "meter/second", "m/h", ("6 m/h", "20 ft/h")
)
FREQUENCY = Dimension("frequency", {"/min": "1/minute", "/h": "1/hour"}, "1/second", "/h", ("8 /h", "2 /min"))

DIMENSIONS = (
    LENGTH,
    POSITION,
    AREA,
    VOLUME,
    MASS,
    DENSITY,
    RATE,
    ANGLE,
    GRADIENT,
    SLOPE,
    DURATION,
    TEMPERATURE,
    VIBRATION,
    VOLUME_OUTPUT,
    AREA_OUTPUT,
    LENGTH_OUTPUT,
    FREQUENCY,
)

#: Units in which a figure leaves, by the ending of its key; pint gives the factor from the trade's SI.
_ENDINGS: dict[str, tuple[str, str]] = {
    "mm": ("meter", "millimeter"),
    "m": ("meter", "meter"),
    "m2": ("meter**2", "meter**2"),
    "m3": ("meter**3", "meter**3"),
    "l": ("meter**3", "liter"),
    "kg": ("kilogram", "kilogram"),
    "t": ("kilogram", "metric_ton"),
    "h": ("second", "hour"),
    "l_s": ("meter**3/second", "liter/second"),
    "kg_per_m3": ("kilogram/meter**3", "kilogram/meter**3"),
    "mm_per_h": ("meter/second", "millimeter/hour"),
    "percent": ("dimensionless", "percent"),
    "deg": ("radian", "degree"),
}


@dataclass(frozen=True)
class Ending:
    """The unit at the end of an answer's key, and the factor into it from SI."""

    text: str
    factor: float


def _ending(text: str) -> Ending:
    si, unit = _ENDINGS[text]
    return Ending(text, float(_REGISTRY.Quantity(1, si).to(unit).magnitude))


ENDINGS: dict[str, Ending] = {text: _ending(text) for text in _ENDINGS}


@cache
def ending_of(key: str) -> Ending | None:
    """The unit a key ends in, the longest that fits; None for a count or a word."""
    fits = [ending for text, ending in ENDINGS.items() if key.endswith(f"_{text}")]
    return max(fits, key=lambda ending: len(ending.text), default=None)
