"""/v1/joints"""

from service.paving.areas import Area, MeasuredArea
from service.paving.layouts import Paving
from service.paving.pointing import JointFilling, Pointing, pointed_paving, pointed_run
from service.paving.sheets import Sheet
from service.routes.resources import resource
from service.schemas.joints import JointAnswer, JointQuestion


@resource(
    "joints",
    JointQuestion(),
    JointAnswer(),
    example={"length": "120 m", "width": "8 mm", "depth": "40 mm", "filler": "jointing_compound"},
)
def joints(
    sheet: Sheet,
    length: float | None,
    area: Area | MeasuredArea | None,
    width: float,
    paving: Paving | None,
    pointing: Pointing,
) -> JointFilling:
    """What fills the joints: volume, mass and, for mortar, its mix.

    From a length of joint, or from an area with its slab and pattern: laid and counted where the
    area is a shape, worked by the slab where only its measure is known.
    """
    if area is not None and paving is not None:
        return pointed_paving(sheet, area, paving, pointing)
    return pointed_run(sheet, length or 0.0, width, pointing)
