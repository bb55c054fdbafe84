"""/v1/membranes"""

from service.paving.areas import Area
from service.paving.membranes import Membrane, Roll, membrane
from service.paving.sheets import Sheet
from service.routes.resources import resource
from service.schemas.membranes import MembraneAnswer, MembraneQuestion


@resource(
    "membranes",
    MembraneQuestion(),
    MembraneAnswer(),
    example={
        "area": {"shape": "rectangle", "length": "9.6 m", "width": "3.6 m"},
        "roll": {"width": "2 m", "length": "10 m"},
    },
)
def membranes(sheet: Sheet, area: Area, roll: Roll) -> Membrane:
    """How many rolls of membrane cover an area, and the better way to roll them out.

    Along x and along y, with laps between strips and where a roll is joined to the next; each strip
    only as long as the area is under it.
    """
    return membrane(sheet, area, roll)
