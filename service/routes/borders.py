"""/v1/borders"""

from service.paving.areas import Area
from service.paving.borders import Border, BorderCourse, border
from service.paving.sheets import Sheet
from service.routes.resources import resource
from service.schemas.borders import BorderAnswer, BorderQuestion


@resource(
    "borders",
    BorderQuestion(),
    BorderAnswer(),
    example={
        "area": {"shape": "rectangle", "length": "4.8 m", "width": "3.6 m"},
        "slab": {"length": "200 mm", "width": "100 mm"},
        "joint": "4 mm",
        "corner": "butted",
    },
)
def borders(sheet: Sheet, area: Area, laid: BorderCourse) -> Border:
    """What a border of another slab takes, and the field that is left inside it.

    A soldier or stretcher course round the outline, the openings or both, counted side by side with its
    corners; the field as rings of points, to be laid out as a polygon of its own.
    """
    return border(sheet, area, laid)
