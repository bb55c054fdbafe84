"""/v1/programmes"""

from service.drawings.programmes import programme_drawing
from service.paving.jobs import Job
from service.paving.programmes import Gang, Programme
from service.paving.schedules import planned
from service.paving.sheets import Sheet
from service.paving.stages import Outputs, Quantities
from service.routes.resources import resource
from service.schemas.programmes import ProgrammeAnswer, ProgrammeQuestion


@resource(
    "programmes",
    ProgrammeQuestion(),
    ProgrammeAnswer(),
    example={
        "quantities": {
            "area": "34 m2",
            "dig": "9 m3",
            "sub_base": "5.1 m3",
            "edging": "20 m",
            "haunched": "0.8 m3",
            "bed": "1.4 m3",
            "laid": "34 m2",
            "cuts": 22,
            "joint": "110 m",
        },
        "gang": 2,
        "start": "2027-03-03",
    },
    drawing=programme_drawing,
)
def programmes(
    sheet: Sheet,
    work: Job | Quantities,
    outputs: Outputs,
    gang: Gang,
    waits: dict[str, float],
    temperature: float | None,
) -> Programme:
    """A job put into time: its stages in order, and the waits between them.

    Hours from stated outputs and the size of the gang within working hours; waits that no hands
    shorten and cold lengthens; when it may be pointed, walked on and furnished, and what weather
    stops each stage.
    """
    return planned(sheet, work, outputs, gang, waits, temperature)
