"""Take-offs: the measured quantities of a whole job, from first peg to first use, and the bill."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from service.paving.bills import BillLine, bill
from service.paving.cautions import caution
from service.paving.errors import within
from service.paving.jobs import Job
from service.paving.layouts import Layout
from service.paving.measuring import Measured, measured
from service.paving.no_cut_nets import NoCutSize
from service.paving.no_cut_suggestions import no_cut_suggestion
from service.paving.ordering.goods import Good, Goods
from service.paving.ordering.items import item_units
from service.paving.ordering.loads import Loads, loads
from service.paving.ordering.money import OrderPrice, order_price
from service.paving.ordering.packs import PackCount
from service.paving.ordering.purchases import Want
from service.paving.programmes import Programme
from service.paving.reference import default
from service.paving.schedules import scheduled
from service.paving.sheets import Sheet
from service.paving.wants import (
    edging_wants,
    ground_wants,
    jointing_wants,
    laying_course_wants,
    membrane_wants,
    paving_wants,
    sub_base_wants,
)


@dataclass(frozen=True, slots=True)
class TakeOff:
    """The quantities of a job, its programme and its bill; mass of all that is bought [kg].

    `price` is the sum of the bill's prices, `cost` what there is to pay with tax and deposits; neither where a
    price isn't known. `no_cut_size` is the nearest size that would need no cut, where the job needs cuts and there
    is one.
    """

    measured: Measured
    programme: Programme | None
    bill: tuple[BillLine, ...]
    mass: float
    price: Decimal | None
    cost: OrderPrice | None
    loads: Loads
    no_cut_size: NoCutSize | None


def takeoff(sheet: Sheet, job: Job, goods: Goods) -> TakeOff:
    """Take off a job.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    job : Job
        The job.
    goods : Goods
        What the merchant sells.

    Raises
    ------
    PavingError
        As the sums of its sections raise it, with the section in front of the place.
    """
    found = measured(sheet, job)
    lines = bill(sheet, tuple(_wants(sheet, job, found)), goods)
    with within("programme"):
        times = scheduled(sheet.section("programme"), job, found) if job.programme else None
    sheet.caution(caution("estimate", "Every figure is worked from the sizes given."))
    sheet.caution(caution("local_codes", "A take-off covers ground, drainage and structure."))
    bought = [(line.good, line.packs) for line in lines if line.good is not None]
    cost = _cost(lines, bought, goods)
    return TakeOff(
        measured=found,
        programme=times,
        bill=lines,
        mass=sum(line.mass for line in lines),
        price=None if cost is None else sum((line.price for line in lines if line.price is not None), Decimal(0)),
        cost=cost,
        loads=loads(bought, goods.terms.vehicles),
        no_cut_size=_suggestion(job, found.layout),
    )


def _wants(sheet: Sheet, job: Job, found: Measured) -> Iterator[Want]:
    if found.groundwork:
        yield from ground_wants(found.groundwork.excavation)
    if job.membrane and found.membrane:
        yield from membrane_wants(job.membrane, found.membrane)
    if job.sub_base and found.sub_base:
        yield from sub_base_wants(job.sub_base, found.sub_base, job.allowances.sub_base)
    if job.edging and found.edging:
        yield from edging_wants(sheet, job.edging.good, found.edging, job.allowances.edging)
    if job.bedding and found.laying_course:
        yield from laying_course_wants(job.bedding, found.laying_course, job.allowances.laying_course)
    yield from paving_wants(sheet, job, found.layout, found.border)
    if job.jointing and found.jointing:
        yield from jointing_wants(job.jointing, found.jointing, job.allowances.jointing)


def _suggestion(job: Job, laid: Layout) -> NoCutSize | None:
    if not laid.slabs_cut or job.border is not None:
        return None
    return _kept_suggestion(job.area, job.paving)


#: Kept as the layout itself is: a job is asked about many times while its slabs stay.
_kept_suggestion = lru_cache(maxsize=int(default("laying", "layouts_kept").value))(no_cut_suggestion)


def _cost(
    lines: tuple[BillLine, ...], bought: list[tuple[Good, tuple[PackCount, ...]]], goods: Goods
) -> OrderPrice | None:
    """What the whole bill costs; none if a line that a merchant could sell has no price."""
    if any(line.price is None for line in lines if line.item in item_units()):
        return None
    return order_price(bought, goods.terms)
