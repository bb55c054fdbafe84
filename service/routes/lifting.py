"""/v1/lifting"""

from service.paving.lifting import Lift, Lifting
from service.paving.lifting import lifting as lifted
from service.paving.sheets import Sheet
from service.paving.slabs import Slab
from service.routes.resources import resource
from service.schemas.lifting import LiftingAnswer, LiftingQuestion


@resource(
    "lifting",
    LiftingQuestion(),
    LiftingAnswer(),
    example={"slab": {"length": "600 mm", "width": "600 mm", "thickness": "38 mm", "made_of": "sandstone"}},
)
def lifting(sheet: Sheet, load: Slab | float, lift: Lift) -> Lifting:
    """Who may lift a slab, or any mass.

    The lifting filter by where the load is held and how often, for one person, two or three.
    """
    return lifted(sheet, load, lift)
