"""/v1/levels"""

from service.drawings.levels import levels_drawing
from service.paving.areas import Area
from service.paving.build_ups import BuildUp, Datum
from service.paving.falls import DampProofCourse, Fall
from service.paving.levels import LevelFigures, level_figures
from service.paving.reference import Assumption
from service.paving.sheets import Sheet
from service.routes.resources import resource
from service.schemas.levels import LevelAnswer, LevelQuestion


@resource(
    "levels",
    LevelQuestion(),
    LevelAnswer(),
    example={
        "area": {"shape": "rectangle", "length": "4.8 m", "width": "3.6 m"},
        "fall": {"gradient": "1 in 60", "towards": "bottom"},
        "datum": {"name": "damp-proof course", "finished": "-150 mm"},
        "build_up": {"slab_thickness": "40 mm", "laying_course": "40 mm", "sub_base": "150 mm"},
        "damp_proof_course": {"level": "0 mm", "wall": "top"},
    },
    drawing=levels_drawing,
)
def levels(
    sheet: Sheet,
    area: Area,
    fall: Fall,
    datum: Datum,
    build_up: BuildUp,
    peg_spacing: Assumption,
    damp_proof_course: DampProofCourse | None,
) -> LevelFigures:
    """Levels to mark on every peg, from one datum.

    Finished level, top of the laying course and of the sub-base, and formation, at the corners, along
    the edges and on a grid; the fall, and whether it is enough and leads away from the house.
    """
    return level_figures(sheet, area, fall, build_up, datum, peg_spacing, damp_proof_course)
