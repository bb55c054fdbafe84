"""/v1/order-checks"""

from collections.abc import Sequence

from service.paving.errors import within
from service.paving.jobs import Job
from service.paving.ordering.goods import Good
from service.paving.ordering.offers import offers
from service.paving.ordering.order_checks import OrderCheck, order_check
from service.paving.ordering.order_lines import WrittenLine
from service.paving.ordering.terms import Tax
from service.paving.sheets import Sheet
from service.routes.goods import goods
from service.routes.resources import resource
from service.routes.takeoffs import DEMO
from service.schemas.order_checks import OrderCheckAnswer, OrderCheckQuestion


@resource(
    "order-checks",
    OrderCheckQuestion(),
    OrderCheckAnswer(),
    example={
        "takeoff": DEMO,
        "order_csv": "sku,description,quantity,unit\n"
        "T1-BB,,8,\n"
        ",cement,24,bags\n"
        "SH,,2.55,t\n"
        "CF-600-300-50,,35.46,m2\n"
        "BS-25,,4,bags\n",
    },
)
def order_checks(
    sheet: Sheet, job: Job, offered: Sequence[tuple[Good, Tax | None]], order: Sequence[WrittenLine]
) -> OrderCheck:
    """An order checked against a job: what is enough, short, over, missing or not needed, and what mends it.

    The order comes as a list or as a pasted table. Each thing is compared in the unit the order used, lines of one
    thing added up, goods the catalogue lets stand in counted; a line that can't be read for certain is named and the
    rest is checked. Also the other way round: the area the order covers, and which line runs out first.
    """
    with within("takeoff"):
        found = offers(offered, goods())
    return order_check(sheet, job, order, found)
