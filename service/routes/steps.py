"""/v1/steps"""

from service.paving.sheets import Sheet
from service.paving.steps import StepJob, Steps
from service.paving.steps import steps as flight
from service.routes.resources import resource
from service.schemas.steps import StepAnswer, StepQuestion


@resource(
    "steps",
    StepQuestion(),
    StepAnswer(),
    example={"rise": "450 mm", "width": "1.2 m"},
)
def steps(sheet: Sheet, job: StepJob) -> Steps:
    """Steps up to the paving, of even rise.

    Risers, treads and going within the limits of their kind; slabs for the treads, length of the
    risers, and the body under them.
    """
    return flight(sheet, job)
