"""Terms: the money, taxes, roundings and vehicles a merchant sells by."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum


class Rounding(StrEnum):
    """How an amount of money is rounded to its last place."""

    HALF_UP = "half up"
    HALF_EVEN = "half even"
    DOWN = "down"
    UP = "up"


class TaxedBy(StrEnum):
    """What tax is worked and rounded on: each line, or the whole order by rate."""

    LINE = "line"
    ORDER = "order"


class Prices(StrEnum):
    """Whether the catalogue's prices have tax in them."""

    BEFORE_TAX = "before tax"
    WITH_TAX = "with tax"


@dataclass(frozen=True, slots=True)
class Tax:
    """A rate of tax.

    Parameters
    ----------
    code : str
        What goods refer to it by.
    name : str
        What it is called on an order.
    percent : Decimal
        Rate, 0 to 100.
    """

    code: str
    name: str
    percent: Decimal


@dataclass(frozen=True, slots=True)
class Vehicle:
    """A vehicle that delivers.

    Parameters
    ----------
    name : str
        What the yard calls it.
    payload : float
        Greatest load [kg].
    pallets : int
        Pallet places; 0 when it only tips.
    tips : bool
        Whether it carries loose loads.
    lift : float or None
        Greatest mass its tail lift or crane sets down at once [kg]; None without a limit.
    """

    name: str
    payload: float
    pallets: int = 0
    tips: bool = False
    lift: float | None = None


@dataclass(frozen=True, slots=True)
class Terms:
    """What a merchant sells by.

    Parameters
    ----------
    title, note : str
        What the catalogue calls itself, and what to know of it.
    currency : str
        Currency of every amount (ISO 4217), or empty when there are no prices.
    places : int
        Decimal places of an amount on an order.
    prices : Prices
        Whether prices have tax in them.
    rounding, tax_rounding : Rounding
        How a line's price and an amount of tax are rounded.
    taxed_by : TaxedBy
        What tax is worked and rounded on.
    taxes : mapping
        Rates of tax by code.
    vehicles : tuple of Vehicle
        Vehicles, the one sent first before others.
    """

    title: str = ""
    note: str = ""
    currency: str = ""
    places: int = 2
    prices: Prices = Prices.BEFORE_TAX
    rounding: Rounding = Rounding.HALF_UP
    tax_rounding: Rounding = Rounding.HALF_UP
    taxed_by: TaxedBy = TaxedBy.ORDER
    taxes: Mapping[str, Tax] = field(default_factory=dict)
    vehicles: tuple[Vehicle, ...] = ()
