"""/v1/layers"""

from service.paving.areas import Area, MeasuredArea
from service.paving.layers import Layer
from service.paving.sheets import Sheet
from service.paving.sub_bases import SubBase, sub_base
from service.routes.resources import resource
from service.schemas.layers import LayerAnswer, LayerQuestion


@resource(
    "layers",
    LayerQuestion(),
    LayerAnswer(),
    example={"area": "20 m2", "material": "type_1", "depth": "150 mm"},
)
def layers(sheet: Sheet, area: Area | MeasuredArea, course: SubBase) -> Layer:
    """What a layer of sub-base or other stone takes.

    Volume in place and as delivered, low, likely and high mass from the range of the density,
    and the lifts it is compacted in. A taper is exact over any shape.
    """
    return sub_base(sheet, area, course)
