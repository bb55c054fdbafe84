"""Order checks: whether an order covers a job, line by line, what mends it, and how far it reaches."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from service.paving.errors import OutOfRange, within
from service.paving.jobs import Job
from service.paving.ordering.choices import parts
from service.paving.ordering.goods import Good, Goods
from service.paving.ordering.matches import Match, Stray, counted_in, matches
from service.paving.ordering.mending import least_bought, mended
from service.paving.ordering.money import rounded
from service.paving.ordering.needs import needs
from service.paving.ordering.order_lines import UnreadLine, WrittenLine, read_lines
from service.paving.ordering.packs import Cover, PackCount
from service.paving.ordering.reaches import Reach, order_reach
from service.paving.ordering.terms import Terms
from service.paving.ordering.units_of_sale import in_unit
from service.paving.reference import default
from service.paving.sheets import Sheet
from service.paving.takeoffs import TakeOff, takeoff

#: Decimal places to which two amounts are the same.
_ALIKE = 12


class Verdict(StrEnum):
    """What is said of a line, and of the whole order."""

    enough = "enough"
    short = "short"
    over = "over"
    missing = "missing"
    not_needed = "not_needed"
    cannot_compare = "cannot_compare"


@dataclass(frozen=True, slots=True)
class CheckedLine:
    """One thing needed or ordered.

    Parameters
    ----------
    item, name : str
        What it is in a bill, and what it is called.
    sku : str or None
        Stock number of the good; none where there is none.
    needed, ordered : float or None
        Amounts in `unit`; None where it can't be compared.
    unit : str
        The unit the order used, a pack's name too; the bill's where it used several or none.
    verdict : Verdict
        What is said of it.
    by : float or None
        How much more or less than needed, in `unit`.
    mend : tuple of PackCount
        What to add where it is short.
    mend_price : Decimal or None
        Price of that.
    because : str
        What else there is to say.
    order_lines : tuple of int
        Lines of the order it is ordered in.
    """

    item: str
    name: str
    sku: str | None
    needed: float | None
    ordered: float | None
    unit: str
    verdict: Verdict
    by: float | None
    mend: tuple[PackCount, ...]
    mend_price: Decimal | None
    because: str
    order_lines: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class OrderCheck:
    """An order against a job; `mend_price` is of all that mends it."""

    verdict: Verdict
    lines: tuple[CheckedLine, ...]
    unread: tuple[UnreadLine, ...]
    reach: Reach
    mend_price: Decimal | None
    taken: TakeOff


def order_check(sheet: Sheet, job: Job, order: Sequence[WrittenLine], goods: Goods) -> OrderCheck:
    """Check an order against a job that is still to be taken off.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    job : Job
        The job.
    order : sequence of WrittenLine
        The order as it is written.
    goods : Goods
        What the merchant sells.

    Raises
    ------
    PavingError
        As the take-off raises it, with "takeoff" in front of the place.
    """
    with within("takeoff"):
        taken = takeoff(sheet.section("takeoff"), job, goods)
    return takeoff_check(sheet, taken, order, goods)


def takeoff_check(sheet: Sheet, taken: TakeOff, order: Sequence[WrittenLine], goods: Goods) -> OrderCheck:
    """Check an order against a finished take-off.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    taken : TakeOff
        The take-off, made with the same goods.
    order : sequence of WrittenLine
        The order as it is written.
    goods : Goods
        What the merchant sells.

    Returns
    -------
    OrderCheck
        Verdicts by need, in order of work, then what isn't needed.

    References
    ----------
    Common practice
    """
    sheet.assume(default("order_checks", "tolerance"))
    read, unread = read_lines(order, goods)
    found = matches(needs(taken.bill), read, unread)
    compared = [_compared(match, goods.terms) for match in found.matches]
    lines = (*compared, *(_stray(stray) for stray in found.strays))
    prices = [line.mend_price for line in lines if line.mend]
    known = [price for price in prices if price is not None]
    return OrderCheck(
        verdict=_overall(lines, unread),
        lines=lines,
        unread=unread,
        reach=order_reach(sheet, found.matches, taken.measured.area.area),
        mend_price=sum(known, Decimal(0)) if known and len(known) == len(prices) else None,
        taken=taken,
    )


def _compared(match: Match, terms: Terms) -> CheckedLine:
    need, verdict = match.need, _verdict(match)
    unit, one = _shown_unit(match)
    mending = mended(match) if verdict in (Verdict.short, Verdict.missing) else None
    ordered = None if match.unclear else match.amount / one
    needed = need.quantity / one
    return CheckedLine(
        item=need.item,
        name=need.name,
        sku=need.good.sku if need.good else None,
        needed=needed,
        ordered=ordered,
        unit=unit,
        verdict=verdict,
        by=None if ordered is None else abs(ordered - needed),
        mend=mending.packs if mending else (),
        mend_price=_price(mending, terms),
        because=" ".join([*match.unclear, *match.notes]),
        order_lines=tuple(line.number for line in match.lines),
    )


def _verdict(match: Match) -> Verdict:
    """What is said of a need, to the parts of a unit that packs are chosen by."""
    need, ordered = match.need, parts(match.amount)
    if match.unclear:
        return Verdict.cannot_compare
    if ordered < parts(need.quantity):
        return Verdict.short if match.amount else Verdict.missing
    return Verdict.over if ordered > parts(max(need.billed, least_bought(match))) else Verdict.enough


def _price(bought: Cover | None, terms: Terms) -> Decimal | None:
    if bought is None or bought.price is None:
        return None
    return rounded(bought.price, terms.places, terms.rounding)


def _shown_unit(match: Match) -> tuple[str, float]:
    """The unit the order used, and what one is in the need's unit."""
    way = counted_in(match.lines)
    if way is None or match.unclear:
        return match.need.unit, 1.0
    name, unit, one = way
    goods = {line.good.sku if line.good else "": line.good for line in match.lines}
    # A piece of one slab may be more than a piece of another.
    ones = {round(match.need.turned(one, unit, good), _ALIKE) for good in goods.values()}
    return (name, ones.pop()) if len(ones) == 1 else (match.need.unit, 1.0)


def _stray(stray: Stray) -> CheckedLine:
    first = stray.lines[0]
    way = counted_in(stray.lines)
    name, ordered = way[0] if way else first.unit, None
    if way:
        ordered = sum(line.quantity for line in stray.lines)
    elif first.good is not None:
        ordered = _together(stray, first.good)
        name = first.good.unit
    return CheckedLine(
        item=first.item,
        name=first.good.name if first.good else first.item,
        sku=first.good.sku if first.good else None,
        needed=0.0 if stray.comparable else None,
        ordered=ordered,
        unit=name,
        verdict=Verdict.not_needed if stray.comparable else Verdict.cannot_compare,
        by=ordered if stray.comparable else None,
        mend=(),
        mend_price=None,
        because=stray.because,
        order_lines=tuple(line.number for line in stray.lines),
    )


def _together(stray: Stray, good: Good) -> float | None:
    """What lines in several units come to, in the good's unit; nothing where they can't be added up."""
    try:
        return sum(in_unit(line.amount, line.unit, good.unit, good, {}) for line in stray.lines)
    except OutOfRange:
        return None


def _overall(lines: Sequence[CheckedLine], unread: Sequence[UnreadLine]) -> Verdict:
    """Short before all else; then what can't be said; then too much."""
    found = {line.verdict for line in lines}
    if found & {Verdict.short, Verdict.missing}:
        return Verdict.short
    if Verdict.cannot_compare in found or any(not line.orders_none for line in unread):
        return Verdict.cannot_compare
    return Verdict.over if found & {Verdict.over, Verdict.not_needed} else Verdict.enough
