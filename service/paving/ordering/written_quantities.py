"""Written quantities: what a quantity on an order says, or why it says nothing for certain."""

import math
import re

from service.paving.ordering.packs import MOST

_FIGURE = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,9})?", re.ASCII)
_FIGURE_AND_UNIT = re.compile(r"([0-9]{1,9}(?:\.[0-9]{1,9})?) ?(m[23]|[A-Za-z][A-Za-z. ]*)", re.ASCII)


class Unclear(Exception):
    """What is written doesn't say one thing for certain; the sentence says why."""


class Nothing(Unclear):
    """What is written orders none."""


def quantity_and_unit(text: str, unit: str) -> tuple[float, str]:
    """A quantity, and the unit written beside it or behind it.

    Parameters
    ----------
    text : str
        The quantity as written: figures, a point as decimal sign, perhaps the unit behind.
    unit : str
        The unit as written beside it, or empty.

    Returns
    -------
    tuple of float and str
        The quantity, above 0, and the unit's words, or empty.

    Raises
    ------
    Unclear
        If it can't be read without guessing; `Nothing` if it orders none.

    Examples
    --------
    >>> quantity_and_unit("3", "bulk bags")
    (3.0, 'bulk bags')
    >>> quantity_and_unit("2.5 t", "")
    (2.5, 't')
    >>> quantity_and_unit("1,5", "t")
    Traceback (most recent call last):
    service.paving.ordering.written_quantities.Unclear: '1,5' has a comma: is it 1.5 or 15? Write it with a point.
    """
    text, unit = text.strip(), unit.strip()
    behind = _FIGURE_AND_UNIT.fullmatch(text)
    if behind and unit.casefold() in ("", behind[2].casefold()):
        text, unit = behind[1], behind[2]
    if not _FIGURE.fullmatch(text):
        raise Unclear(_why_unclear(text))
    quantity = float(text)
    if not quantity:
        raise Nothing("The quantity is 0: it orders none.")
    if quantity > MOST:
        raise Unclear(f"'{text}' is more than any job needs; {MOST:.0f} is the most that is read.")
    return quantity, unit


def whole(quantity: float, of: str) -> int:
    """A number of packs or pieces.

    Raises
    ------
    Unclear
        If it isn't whole.
    """
    if quantity.is_integer():
        return int(quantity)
    below = math.floor(quantity)
    raise Unclear(f"{quantity:g} of '{of}' can't be sold: it comes whole, so {below} or {below + 1}.")


def _why_unclear(text: str) -> str:
    """Why a text isn't a quantity, and how to write it."""
    if not text:
        return "There is no quantity."
    if re.fullmatch(r"[-\u2212] ?[0-9.,]+", text):
        return f"'{text}' is below nothing: an order can't take back."
    if re.fullmatch(r"[0-9]+(?:[,.][0-9]{3})*,[0-9]+|[0-9]{1,3}(?:,[0-9]{3})+\.[0-9]+", text):
        return f"'{text}' has a comma: is it {_readings(text)}? Write it with a point."
    if "/" in text or any("\u00bc" <= sign <= "\u00be" or "\u2150" <= sign <= "\u215e" for sign in text):
        return f"'{text}' is a fraction: write it with a point, such as 2.5."
    if text.replace(" ", "").replace("-", "").isalpha():
        return f"'{text}' is in words: write it in figures."
    return f"'{text}' isn't a plain number: write figures, and a point as decimal sign."


def _readings(text: str) -> str:
    return f"{text.replace('.', '').replace(',', '.')} or {text.replace(',', '')}"
