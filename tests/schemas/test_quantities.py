"""The grammar of quantities: published pattern and parser are one language, factors are pint's."""

import math
import re
from fractions import Fraction

import jsonschema_rs
import pint
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from service.schemas.grammar import decimal, plain, rounded
from service.schemas.quantities import DIMENSIONS, ENDINGS, GRADIENT, LENGTH, POSITION, SLOPE, TEMPERATURE, ending_of

#: A temperature is no multiple of another: it has a test of its own.
EACH_UNIT = [(dimension, unit) for dimension in DIMENSIONS if dimension is not TEMPERATURE for unit in dimension.units]
EACH = pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda d: d.name)

#: What each unit on the wire is called by pint, written down here afresh.
PINT = {
    "mm": "mm", "cm": "cm", "m": "m", "in": "inch", "ft": "ft", "yd": "yd",
    "m2": "m^2", "ft2": "ft^2", "yd2": "yd^2",
    "m3": "m^3", "l": "L", "ml": "mL", "ft3": "ft^3", "yd3": "yd^3",
    "US gal": "US_liquid_gallon", "UK gal": "imperial_gallon",
    "kg": "kg", "g": "g", "t": "tonne", "lb": "lb", "US ton": "US_ton", "UK ton": "UK_ton",
    "kg/m3": "kg/m^3", "t/m3": "tonne/m^3", "kg/l": "kg/L", "lb/ft3": "lb/ft^3", "lb/yd3": "lb/yd^3",
    "mm/h": "mm/hour", "in/h": "inch/hour", "l/s/m2": "L/s/m^2", "m/s": "m/s",
    "s": "s", "min": "min", "h": "hour", "d": "day", "m/s2": "m/s^2",
    "m3/h": "m^3/hour", "yd3/h": "yd^3/hour", "m2/h": "m^2/hour", "ft2/h": "ft^2/hour",
    "m/h": "m/hour", "ft/h": "ft/hour", "/min": "1/min", "/h": "1/hour",
    "deg": "degree", "rad": "radian",
    "%": "percent", "mm/m": "mm/m", "in/ft": "inch/ft",
}  # fmt: skip
SI = {
    "length": "m", "position": "m", "area": "m^2", "volume": "m^3", "mass": "kg", "density": "kg/m^3",
    "rate": "m/s", "angle": "radian", "gradient": "dimensionless", "slope": "dimensionless",
    "duration": "s", "vibration": "m/s^2", "output by volume": "m^3/s", "output by area": "m^2/s",
    "output by length": "m/s", "frequency": "1/s",
}  # fmt: skip
#: Exact by definition: the international yard and pound (1959), the US gallon of 231 cubic inches,
#: the UK gallon of 4.54609 litres (Units of Measurement Regulations 1995), tons of 2000 and 2240 pounds.
DEFINED = {
    ("in", "m"): Fraction(254, 10_000), ("ft", "m"): Fraction(3048, 10_000), ("yd", "m"): Fraction(9144, 10_000),
    ("ft2", "m2"): Fraction(3048, 10_000) ** 2, ("yd2", "m2"): Fraction(9144, 10_000) ** 2,
    ("ft3", "m3"): Fraction(3048, 10_000) ** 3, ("yd3", "m3"): Fraction(9144, 10_000) ** 3,
    ("US gal", "m3"): 231 * Fraction(254, 10_000) ** 3, ("UK gal", "m3"): Fraction(454_609, 100_000_000),
    ("lb", "kg"): Fraction(45_359_237, 100_000_000), ("t", "kg"): Fraction(1000),
    ("US ton", "kg"): 2000 * Fraction(45_359_237, 100_000_000),
    ("UK ton", "kg"): 2240 * Fraction(45_359_237, 100_000_000),
}  # fmt: skip

_ALPHABET = [*"0123456789.,/-+eE_ mcftinydkglsh%2 3\n\t\r\0\"'\u00a0\u0663\uff11\u00b2\u2028\ufeff½"]


@st.composite
def near_misses(draw, dimension):
    """A right text with one to three slips of the pen."""
    text = draw(st.from_regex(re.compile(dimension.pattern, re.ASCII), fullmatch=True))
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, len(text)))
        slip = draw(st.sampled_from(("insert", "delete", "replace", "repeat", "swap", "case")))
        letter = draw(st.sampled_from(_ALPHABET))
        text = {
            "insert": text[:at] + letter + text[at:],
            "delete": text[:at] + text[at + 1 :],
            "replace": text[:at] + letter + text[at + 1 :],
            "repeat": text[:at] + text,
            "swap": text[at:] + text[:at],
            "case": text.swapcase(),
        }[slip]
    return text


def published(dimension) -> jsonschema_rs.Draft202012Validator:
    """An outside judge of the published pattern: a JSON Schema validator with ECMA 262 expressions."""
    return jsonschema_rs.Draft202012Validator({"type": "string", "pattern": f"^{dimension.pattern}$"})


PUBLISHED = {dimension.name: published(dimension) for dimension in DIMENSIONS}


@EACH
@settings(max_examples=150)
@given(data=st.data())
def test_the_parser_takes_every_text_of_the_published_pattern(dimension, data):
    text = data.draw(st.from_regex(re.compile(dimension.pattern, re.ASCII), fullmatch=True))
    assert PUBLISHED[dimension.name].is_valid(text)
    assert dimension.value(text) is not None


@EACH
@settings(max_examples=300)
@given(data=st.data())
def test_the_parser_takes_a_slip_of_the_pen_only_if_the_published_pattern_does(dimension, data):
    text = data.draw(near_misses(dimension))
    assert (dimension.value(text) is not None) == PUBLISHED[dimension.name].is_valid(text)


@EACH
@settings(max_examples=100)
@given(text=st.text(alphabet=_ALPHABET, max_size=12) | st.text(max_size=12))
@example(text="4.8 m\n")
@example(text="\u0664 m")
@example(text="9**9**9")
@example(text="1 in 60\n")
def test_the_parser_takes_any_text_only_if_the_published_pattern_does(dimension, text):
    assert (dimension.value(text) is not None) == PUBLISHED[dimension.name].is_valid(text)


@EACH
def test_a_pattern_means_the_same_in_every_dialect(dimension):
    # No classes whose reach differs between Python, ECMA 262 and Rust, nothing but groups, sets and counts.
    assert re.fullmatch(r"(?:\\\.|\[[-0-9]+\]|\(\?:|[A-Za-z0-9 /%?|(){},.-]|\))*", dimension.pattern)
    assert not re.search(r"\\[dwsbDWSB]|\(\?[=!<P]|(?<!\\)\.(?!\))", dimension.pattern)


@pytest.mark.parametrize(("dimension", "unit"), EACH_UNIT, ids=lambda p: getattr(p, "name", p))
def test_a_unit_is_worth_what_a_fresh_pint_says(dimension, unit):
    worth = pint.UnitRegistry().Quantity(1, PINT[unit]).to(SI[dimension.name]).magnitude
    assert dimension.factors[unit] == pytest.approx(worth, rel=1e-14)
    assert dimension.value(f"7 {unit}") == pytest.approx(7 * worth, rel=1e-14)
    assert dimension.value(f"7{unit}") == dimension.value(f"7 {unit}")


@pytest.mark.parametrize(
    ("text", "celsius"),
    [("0 degC", 0), ("-40 degC", -40), ("-40 degF", -40), ("32 degF", 0), ("212 degF", 100), ("37.4 degF", 3)],
)
def test_a_temperature_is_what_the_fixed_points_of_its_scale_say(text, celsius):
    assert TEMPERATURE.settled(TEMPERATURE.value(text)) == pytest.approx(celsius, abs=1e-12)
    number, unit = text.split(" ")
    name = {"degC": "degC", "degF": "degF"}[unit]
    fresh = pint.UnitRegistry().Quantity(float(number), name).to("degC").magnitude
    assert TEMPERATURE.value(text) == pytest.approx(fresh, abs=1e-9)


@pytest.mark.parametrize(("unit", "base"), DEFINED, ids=str)
def test_a_unit_is_worth_its_legal_definition(unit, base):
    dimension = next(d for d in DIMENSIONS if unit in d.units and d is not POSITION)
    assert dimension.factors[unit] == float(DEFINED[unit, base])


@pytest.mark.parametrize(("key", "si", "unit"), [
    ("thinnest_cut_mm", "m", "mm"), ("perimeter_m", "m", "m"), ("area_m2", "m^2", "m^2"), ("volume_m3", "m^3", "m^3"),
    ("water_l", "m^3", "L"), ("cement_kg", "kg", "kg"), ("mass_t", "kg", "tonne"), ("wait_h", "s", "hour"),
    ("flow_l_s", "m^3/s", "L/s"), ("cement_kg_per_m3", "kg/m^3", "kg/m^3"),
    ("rainfall_mm_per_h", "m/s", "mm/hour"), ("support_percent", "dimensionless", "percent"),
    ("angle_deg", "radian", "degree"),
])  # fmt: skip
def test_a_key_of_an_answer_ends_in_the_unit_pint_knows(key, si, unit):
    ending = ending_of(key)
    assert ending is not None
    assert ending.factor == pytest.approx(pint.UnitRegistry().Quantity(1, si).to(unit).magnitude, rel=1e-14)


def test_a_count_and_a_word_end_in_no_unit():
    assert [ending_of(key) for key in ("slabs_to_buy", "cement_bags", "lifts", "m2", "name", "sand_damp")] == [None] * 6


def test_every_ending_is_held_against_pint_above():
    assert set(ENDINGS) == {
        "mm",
        "m",
        "m2",
        "m3",
        "l",
        "kg",
        "t",
        "h",
        "l_s",
        "kg_per_m3",
        "mm_per_h",
        "percent",
        "deg",
    }


@pytest.mark.parametrize(("text", "millimetres"), [
    ("15 ft 9 in", "4800.6"), ("15ft 9in", "4800.6"), ("0 ft 6 in", "152.4"), ("5 1/2 in", "139.7"), ("3/8 in", "9.525"),
    ("1 ft 3/4 in", "323.85"), ("6 ft 2 13/16 in", "1900.2375"), ("1/64 in", "0.396875"), ("10.5 in", "266.7"),
    ("2 ft 10.25 in", "869.95"), ("1.5 ft", "457.2"), ("0.1 yd", "91.44"), ("100 ft 11 63/64 in", "30784.403125"),
])  # fmt: skip
def test_feet_inches_and_fractions_add_up(text, millimetres):
    # Worked by hand at 25.4 mm to the inch, exactly.
    assert LENGTH.value(text) == pytest.approx(float(Fraction(millimetres) / 1000), rel=1e-15)


@pytest.mark.parametrize("text", [
    "15 ft9 in", "15 ft  9 in", "15.5 ft 9 in", "9 in 15 ft", "1/3 in", "5/2 ft", "1 1/2 ft", "1/0 in", "0/2 in", "15' 9\"",
    "4,8 m", "4.8m ", ".5 m", "5. m", "05 m", "1e3 mm", "--1 m", "4.8 M", "4.8 metres", "4.8 m m", "4.8", "m", "",
])  # fmt: skip
def test_another_way_of_writing_a_length_is_refused(text):
    assert LENGTH.value(text) is None


@pytest.mark.parametrize(("text", "slope"), [
    ("1 in 60", Fraction(1, 60)), ("1 in 80", Fraction(1, 80)), ("1 in 12.5", Fraction(2, 25)), ("2 %", Fraction(1, 50)),
    ("1.25%", Fraction(1, 80)), ("16 mm/m", Fraction(16, 1000)), ("0.25 in/ft", Fraction(1, 48)), ("0 %", Fraction(0)),
])  # fmt: skip
def test_a_gradient_is_rise_over_run(text, slope):
    assert GRADIENT.value(text) == pytest.approx(float(slope), rel=1e-15)


@pytest.mark.parametrize(("text", "again"), [
    ("1 in 60", "1 in 60"), ("1 in 80", "1.25 %"), ("2 %", "2 %"), ("1 in 33", "1 in 33"), ("0 %", "0 %"), ("16 mm/m", "1.6 %"),
])  # fmt: skip
def test_a_gradient_is_repeated_exactly(text, again):
    value = GRADIENT.value(text)
    assert GRADIENT.text(value) == again
    assert GRADIENT.settled(value) == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize(("text", "again", "slope"), [
    ("-1 in 60", "-1 in 60", Fraction(-1, 60)), ("-2 %", "-2 %", Fraction(-1, 50)), ("1 in 60", "1 in 60", Fraction(1, 60)),
    ("-1 in 80", "-1.25 %", Fraction(-1, 80)), ("-0 %", "0 %", Fraction(0)),
])  # fmt: skip
def test_a_slope_may_rise(text, again, slope):
    value = SLOPE.value(text)
    assert value == pytest.approx(float(slope), rel=1e-15)
    assert SLOPE.text(value) == again
    assert SLOPE.settled(value) == pytest.approx(value, rel=1e-15)


def test_a_fall_of_nothing_in_a_run_is_beyond_every_bound():
    assert GRADIENT.value("1 in 0") == math.inf


@EACH
@settings(max_examples=150)
@given(data=st.data())
def test_a_value_goes_to_text_and_back(dimension, data):
    shown = dimension.factors[dimension.shown]
    value = data.draw(st.floats(1e-6, 1e8)) * shown
    text = dimension.text(value)
    assert PUBLISHED[dimension.name].is_valid(text)
    assert dimension.value(text) == pytest.approx(value, rel=6e-12, abs=6e-13 * shown)
    assert dimension.settled(value) == dimension.value(text)
    assert dimension.text(dimension.value(text)) == text


@EACH
@settings(max_examples=100)
@given(data=st.data())
def test_what_was_understood_is_understood_the_same_again(dimension, data):
    text = data.draw(st.from_regex(re.compile(dimension.pattern, re.ASCII), fullmatch=True))
    value = dimension.value(text)
    settled = dimension.settled(value)
    if abs(value) / dimension.factors[dimension.shown] < 1e9:  # what nine figures before the point can hold
        assert dimension.settled(dimension.value(dimension.text(settled))) == settled


@pytest.mark.parametrize("pair", [
    ("4800 mm", "4.8 m"), ("480 cm", "4.8 m"), ("0.0005 m", "0.5 mm"), ("3 ft", "1 yd"), ("12 in", "1 ft"), ("9 ft", "3 yd"),
    ("1234.5678 mm", "1.2345678 m"), ("36 in", "3 ft"), ("304.8 mm", "1 ft"), ("25.4 mm", "1 in"), ("0.1 m", "10 cm"),
], ids=str)  # fmt: skip
def test_one_length_in_two_units_is_one_value(pair):
    one, other = (LENGTH.settled(LENGTH.value(text)) for text in pair)
    assert one == other


@given(st.integers(-(10**12) + 1, 10**12 - 1), st.integers(0, 9))
def test_a_decimal_is_written_digit_for_digit(digits, places):
    number = float(Fraction(digits, 10**places))
    sign, figures = "-" * (digits < 0), f"{abs(digits):0{places + 1}}"
    written = f"{sign}{figures[: len(figures) - places]}.{figures[len(figures) - places :]}".rstrip("0").rstrip(".")
    assert decimal(number) == plain(number) == written


@given(st.floats(-1e15, 1e15))
def test_a_written_number_is_the_number(number):
    text = decimal(rounded(number))
    assert re.fullmatch(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?", text, re.ASCII)
    assert float(text) == rounded(number)
