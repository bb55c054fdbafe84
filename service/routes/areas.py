"""/v1/areas"""

from service.paving.areas import Area, AreaFigures, area_figures
from service.paving.sheets import Sheet
from service.routes.resources import resource
from service.schemas.areas import AREA_QUESTION, AreaAnswer


@resource(
    "areas",
    AREA_QUESTION,
    AreaAnswer(),
    example={
        "shape": "l_shape",
        "length": "7.2 m",
        "width": "5.4 m",
        "notch_length": "2.4 m",
        "notch_width": "1.8 m",
        "openings": [{"shape": "circle", "diameter": "1.2 m", "at": {"x": "1 m", "y": "1.5 m"}}],
    },
)
def areas(sheet: Sheet, area: Area) -> AreaFigures:
    """What a plan shape measures.

    Net and gross area, perimeters, the bounding rectangle and its diagonal, each side, and the
    largest 3-4-5 triangle to square a corner with.
    """
    return area_figures(sheet, area)
