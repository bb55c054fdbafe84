"""/v1/layouts"""

from service.drawings.layouts import layout_drawing
from service.paving.areas import Area
from service.paving.layouts import Layout, Paving
from service.paving.sheets import Sheet
from service.paving.worked_layouts import worked_layout
from service.routes.resources import resource
from service.schemas.layouts import LayoutAnswer, LayoutQuestion


@resource(
    "layouts",
    LayoutQuestion(),
    LayoutAnswer(),
    example={
        "area": {"shape": "rectangle", "length": "4.8 m", "width": "3.6 m"},
        "slabs": [{"name": "600 x 300", "length": "600 mm", "width": "300 mm", "thickness": "40 mm"}],
        "pattern": "stretcher_bond",
        "joint": "8 mm",
    },
    drawing=layout_drawing,
)
def layouts(sheet: Sheet, area: Area, paving: Paving) -> Layout:
    """A pattern laid on a shape: whole and cut slabs counted exactly.

    The real pattern on the real shape at any angle, with cuts, offcuts used again, joints and
    sawing, and the number of slabs to buy with the bound it can't fall below.
    """
    return worked_layout(sheet, area, paving)
