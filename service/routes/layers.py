"""/v1/layers"""

from service.paving.areas import Area, MeasuredArea
from service.paving.layers import Depth, Layer, layer
from service.paving.materials import Material
from service.paving.reference import Assumption
from service.paving.sheets import Sheet
from service.routes.resources import resource
from service.schemas.layers import LayerAnswer, LayerQuestion


@resource(
    "layers",
    LayerQuestion(),
    LayerAnswer(),
    example={"area": "20 m2", "material": "type_1", "depth": "150 mm"},
)
def layers(
    sheet: Sheet, area: Area | MeasuredArea, material: Material, depth: Depth, greatest_lift: Assumption
) -> Layer:
    """What a layer of sub-base or other stone takes.

    Volume in place and as delivered, low, likely and high mass from the range of the density,
    and the lifts it is compacted in. A taper is exact over any shape.
    """
    return layer(sheet, area, material, depth, greatest_lift)
