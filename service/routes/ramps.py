"""/v1/ramps"""

from service.paving.ramps import Ramp, RampJob, ramp
from service.paving.sheets import Sheet
from service.routes.resources import resource
from service.schemas.ramps import RampAnswer, RampQuestion


@resource(
    "ramps",
    RampQuestion(),
    RampAnswer(),
    example={"rise": "300 mm", "width": "1.2 m", "room": "6 m"},
)
def ramps(sheet: Sheet, job: RampJob) -> Ramp:
    """A ramp up to the paving, in flights by the gradient its length allows.

    Flights and landings, length on plan and along the slope, the area to pave and the body under it;
    refused where it is too steep or longer than the room for it.
    """
    return ramp(sheet, job)
