"""Sub-bases: what lies under the laying course, as it is asked for."""

from dataclasses import dataclass

from service.paving.areas import Area, MeasuredArea
from service.paving.depths import Depth
from service.paving.layers import Layer, layer
from service.paving.materials import Material
from service.paving.reference import Assumption
from service.paving.sheets import Sheet


@dataclass(frozen=True, slots=True)
class SubBase:
    """A layer to be laid: what it is made of, how deep, and the most that is compacted at once [m]."""

    material: Material
    depth: Depth
    greatest_lift: Assumption


def sub_base(sheet: Sheet, area: Area | MeasuredArea, course: SubBase) -> Layer:
    """Measure a sub-base or another layer.

    Raises
    ------
    OutOfRange
        As `layer` raises it.
    """
    return layer(sheet, area, course.material, course.depth, course.greatest_lift)
