"""/v1/takeoffs"""

from collections.abc import Sequence

from service.drawings.layouts import layout_drawing
from service.paving.jobs import Job
from service.paving.ordering.goods import Good
from service.paving.ordering.offers import offers
from service.paving.ordering.terms import Tax
from service.paving.sheets import Sheet
from service.paving.takeoffs import TakeOff, takeoff
from service.routes.goods import goods
from service.routes.resources import resource
from service.schemas.takeoffs import TakeOffAnswer, TakeOffQuestion

#: A demo: an invented terrace behind an invented reading room, round a young tree.
DEMO = {
    "area": {
        "shape": "l_shape",
        "length": "7.2 m",
        "width": "5.4 m",
        "notch_length": "2.4 m",
        "notch_width": "1.8 m",
        "openings": [{"shape": "circle", "diameter": "1.2 m", "at": {"x": "1.5 m", "y": "2.1 m"}}],
    },
    "paving": {
        "slabs": [{"name": "600 x 300", "length": "600 mm", "width": "300 mm", "thickness": "50 mm"}],
        "pattern": "stretcher_bond",
        "offset": "1/2",
        "joint": "8 mm",
    },
    "build_up": {
        "sub_base": {"material": "type_1", "depth": "100 mm"},
        "laying_course": {"method": "full_bed", "depth": "40 mm", "parts": "1:4", "consistence": "semi_dry"},
    },
    "jointing": {"filler": "mortar", "parts": "1:4", "depth": "40 mm"},
    "allowances": {"slabs_percent": 5},
}


def drawing(taken: TakeOff) -> str:
    """The slabs of a whole job as laid."""
    return layout_drawing(taken.measured.layout)


@resource("takeoffs", TakeOffQuestion(), TakeOffAnswer(), example=DEMO, drawing=drawing)
def takeoffs(sheet: Sheet, job: Job, offered: Sequence[tuple[Good, Tax | None]]) -> TakeOff:
    """A whole job: what to buy, line by line in order of work, and what it weighs.

    Shape, paving, build-up and jointing in one request; the bill names the packs of the catalogue
    that cover each line, with its surplus and mass, and every section shows its own figures.
    """
    return takeoff(sheet, job, offers(offered, goods()))
