"""/v1/beds"""

from service.paving.areas import Area, MeasuredArea
from service.paving.laying_courses import Bedding, LayingCourse, laying_course
from service.paving.sheets import Sheet
from service.paving.slabs import Slab
from service.routes.resources import resource
from service.schemas.beds import BedAnswer, BedQuestion


@resource(
    "beds",
    BedQuestion(),
    BedAnswer(),
    example={"area": "20 m2", "method": "full_bed", "depth": "40 mm", "parts": "1:4", "consistence": "semi_dry"},
)
def beds(sheet: Sheet, area: Area | MeasuredArea, bedding: Bedding, slab: Slab | None, joint: float) -> LayingCourse:
    """What a laying course takes: full bed, spots, ribbons, or screeded.

    Volume, the share of each slab that is held, and the mortar or sand it is made of; with the
    slab's size, what each method would use side by side.
    """
    return laying_course(sheet, area, bedding, slab, joint)
