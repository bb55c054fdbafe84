"""/v1/drainage"""

from service.paving.areas import Area, MeasuredArea
from service.paving.drainage import RunOff
from service.paving.drainage import drainage as run_off
from service.paving.falls import Fall
from service.paving.planning import Site
from service.paving.reference import Assumption
from service.paving.sheets import Sheet
from service.routes.resources import resource
from service.schemas.drainage import DrainageAnswer, DrainageQuestion


@resource(
    "drainage",
    DrainageQuestion(),
    DrainageAnswer(),
    example={
        "area": {"shape": "rectangle", "length": "10 m", "width": "5 m"},
        "fall": {"gradient": "1 in 60", "towards": "bottom"},
        "country": "england",
        "position": "front",
    },
)
def drainage(
    sheet: Sheet,
    area: Area | MeasuredArea,
    rate: Assumption,
    coefficient: Assumption,
    fall: Fall | None,
    site: Site,
) -> RunOff:
    """How fast rain runs off paving, the edge it runs over, and whom to ask.

    Run-off by a named standard's rate of rain or your own; the length of channel along the low edge
    of a shape that falls; what the published planning rule says.
    """
    return run_off(sheet, area, rate, coefficient, fall, site)
