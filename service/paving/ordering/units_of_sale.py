"""Units of sale: what the words for a unit on an order mean, and a quantity from one unit into another."""

import re
from collections.abc import Mapping

from service.paving.errors import OutOfRange
from service.paving.ordering.goods import Good, Unit
from service.paving.ordering.quantities import MASS_UNITS, VOLUME_UNITS, slab_measure, unit_mass
from service.paving.ordering.written_quantities import Unclear

#: Common words for each unit. A "ton" is left out: it may be the tonne, or either of two others.
_WORDS: Mapping[Unit, str] = {
    "t": "t tonne tonnes",
    "kg": "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes",
    "m3": "m3 m³ cbm cum cubicmetre cubicmetres cubicmeter cubicmeters",
    "l": "l litre litres liter liters ltr",
    "m2": "m2 m² sqm squaremetre squaremetres squaremeter squaremeters",
    "m": "m metre metres meter meters lm linm linearmetre linearmetres",
    "each": "each ea pc pcs piece pieces no nos nr",
}
#: Words for one piece of a good, never for a pack of it.
_PIECES = re.compile("(?:slab|flag|block|sett|paver|kerb|edging)s?")
_UNIT_BY_WORD = {word: unit for unit, words in _WORDS.items() for word in words.split()}
_TONS = ("ton", "tons")


def unit_of_sale(text: str) -> Unit | None:
    """The unit that a text is a word for; None if it is none.

    Raises
    ------
    Unclear
        If the word stands for several units.

    Examples
    --------
    >>> unit_of_sale("Sq. m"), unit_of_sale("bulk bag")
    ('m2', None)
    """
    word = re.sub(r"[\s.]", "", text.casefold())
    if word in _TONS:
        raise Unclear(f"'{text}' may be a tonne of 1000 kg or one of two other tons: write t, or kg.")
    return "each" if _PIECES.fullmatch(word) else _UNIT_BY_WORD.get(word)


def by_piece(text: str) -> bool:
    """Whether a text is a word for one piece, such as a slab.

    Examples
    --------
    >>> by_piece("Slabs"), by_piece("each")
    (True, False)
    """
    return bool(_PIECES.fullmatch(text.casefold().strip(" .")))


def in_unit(quantity: float, unit: Unit, to: Unit, good: Good | None, measures: Mapping[Unit, float]) -> float:
    """A quantity in another unit.

    Parameters
    ----------
    quantity : float
        Quantity in `unit`.
    unit, to : Unit
        From, and into.
    good : Good or None
        What it is of, where it is known; its own size and densities come first.
    measures : mapping
        The same amount of it in several units, as the job reckons it.

    Returns
    -------
    float
        Quantity in `to`.

    Raises
    ------
    OutOfRange
        If nothing says how one unit turns into the other.

    References
    ----------
    Geometry

    Examples
    --------
    >>> in_unit(2100.0, "kg", "t", None, {})
    2.1
    >>> in_unit(2.0, "m3", "t", None, {"t": 1.7, "m3": 1.0})
    3.4
    """
    (_, one), (_, other) = _base(unit), _base(to)
    return quantity * one * _factor(unit, to, good, measures) / other


def _factor(unit: Unit, to: Unit, good: Good | None, measures: Mapping[Unit, float]) -> float:
    """From the base unit of one unit into that of another."""
    pair = _base(unit)[0], _base(to)[0]
    if pair[0] == pair[1]:
        return 1.0
    known = (_by_good(good) if good else {}), _by_job(measures)
    for factors in known:
        if pair[0] in factors and pair[1] in factors:
            return factors[pair[1]] / factors[pair[0]]
    raise OutOfRange(f"{unit} can't be turned into {to}: neither the catalogue nor the job says how.", "order")


def _by_good(good: Good) -> dict[str, float]:
    """The same amount of a good in every base unit that the catalogue knows it in."""
    found: dict[str, float] = {}
    if good.slab is not None:
        found = {"each": 1.0, "m2": slab_measure(good.slab, "m2")}
        if good.item == "edging":
            found["m"] = slab_measure(good.slab, "m")
    base, one = _base(good.unit)
    amount = found.setdefault(base, one) / one
    try:
        found.setdefault("kg", amount * unit_mass(good))
    except OutOfRange:
        return found
    if good.loose_density is not None:
        found.setdefault("m3", found["kg"] / good.loose_density)
    return found


def _by_job(measures: Mapping[Unit, float]) -> dict[str, float]:
    return {_base(unit)[0]: measure * _base(unit)[1] for unit, measure in measures.items() if measure}


def _base(unit: Unit) -> tuple[str, float]:
    """What a unit is a multiple of, and how many of it one is."""
    if unit in MASS_UNITS:
        return "kg", MASS_UNITS[unit]
    return ("m3", VOLUME_UNITS[unit]) if unit in VOLUME_UNITS else (unit, 1.0)
