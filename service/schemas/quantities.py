"""Every kind of quantity on the wire with its closed list of units, and the units that answers leave in."""

from dataclasses import dataclass
from functools import cache

from service.schemas.grammar import REGISTRY, Angle, Dimension, Gradient, Length, Signed, Slope, Temperature

_LENGTHS = {"mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch", "ft": "foot", "yd": "yard"}

LENGTH = Length("length", _LENGTHS, "meter", "mm", ("4.8 m", "450 mm", "15 ft 9 in"))
POSITION = Signed("position", _LENGTHS, "meter", "mm", ("1.2 m", "-300 mm", "4 ft 6 in"))
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
ANGLE = Angle("angle", {"deg": "degree", "rad": "radian"}, "radian", "deg", ("30 deg",))
_GRADIENTS = {"%": "percent", "mm/m": "millimeter/meter", "in/ft": "inch/foot"}

GRADIENT = Gradient("gradient", _GRADIENTS, "dimensionless", "%", ("1 in 60", "2 %"))
SLOPE = Slope("slope", _GRADIENTS, "dimensionless", "%", ("1 in 60", "-1 in 60", "2 %"))

DURATION = Dimension(
    "duration", {"s": "second", "min": "minute", "h": "hour", "d": "day"}, "second", "h", ("24 h", "30 min", "7 d")
)
TEMPERATURE = Temperature(
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
    return Ending(text, float(REGISTRY.Quantity(1, si).to(unit).magnitude))


ENDINGS: dict[str, Ending] = {text: _ending(text) for text in _ENDINGS}


@cache
def ending_of(key: str) -> Ending | None:
    """The unit a key ends in, the longest that fits; None for a count or a word."""
    fits = [ending for text, ending in ENDINGS.items() if key.endswith(f"_{text}")]
    return max(fits, key=lambda ending: len(ending.text), default=None)
