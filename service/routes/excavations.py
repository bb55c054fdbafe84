"""/v1/excavations"""

from service.drawings.sections import dig_drawing
from service.paving.areas import Area, MeasuredArea
from service.paving.build_ups import BuildUp, Datum
from service.paving.diggings import Digging
from service.paving.excavations import Excavation, excavation_figures
from service.paving.falls import Fall
from service.paving.grounds import Ground
from service.paving.sheets import Sheet
from service.routes.resources import resource
from service.schemas.excavations import ExcavationAnswer, ExcavationQuestion


@resource(
    "excavations",
    ExcavationQuestion(),
    ExcavationAnswer(),
    example={
        "area": {"shape": "rectangle", "length": "6 m", "width": "4 m"},
        "build_up": {"slab_thickness": "40 mm", "laying_course": "40 mm", "sub_base": "150 mm"},
        "ground": {"surface": "level", "level": "0 mm"},
        "datum": "-50 mm",
        "soil": "clay",
        "over_dig": "150 mm",
        "strip": {"what": "turf", "depth": "40 mm"},
    },
    drawing=dig_drawing,
)
def excavations(
    sheet: Sheet,
    area: Area | MeasuredArea,
    fall: Fall,
    datum: Datum,
    build_up: BuildUp,
    ground: Ground | None,
    digging: Digging,
) -> Excavation:
    """What is dug and filled, how the spoil swells, and what carts it away.

    From the ground as it lies, level, a plane or spot levels, down to the formation under the finished
    surface: cut and fill apart, in place, loose and compacted, with mass, skips and tipper loads.
    """
    return excavation_figures(sheet, area, fall, datum, build_up, ground, digging)
