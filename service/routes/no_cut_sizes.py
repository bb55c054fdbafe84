"""/v1/no-cut-sizes"""

from service.paving.areas import Area
from service.paving.no_cut_areas import no_cut_area
from service.paving.no_cut_nets import Laying
from service.paving.no_cut_sizes import NoCutSizes, no_cut_sizes
from service.paving.runs_of_slabs import JointRange
from service.paving.sheets import Sheet
from service.paving.slabs import Slab
from service.routes.resources import resource
from service.schemas.no_cut_sizes import NoCutSizeAnswer, NoCutSizeQuestion


@resource(
    "no-cut-sizes",
    NoCutSizeQuestion(),
    NoCutSizeAnswer(),
    example={
        "slab": {"name": "600 x 400", "length": "600 mm", "width": "400 mm", "thickness": "30 mm"},
        "joint_least": "5 mm",
        "joint_most": "10 mm",
        "length": "4.75 m",
        "width": "3.6 m",
        "within": "300 mm",
    },
)
def sizes(
    sheet: Sheet,
    slabs: tuple[Slab, ...],
    laying: Laying,
    joints: JointRange,
    size: tuple[float, float] | None,
    area: Area | None,
    within: float,
) -> NoCutSizes:
    """The nearest sizes that can be laid without sawing a slab.

    Decides whether a rectangle or a right-angled shape needs a cut at all, with the joint free to
    stretch within its range, and lists the nearest sizes that need none: no sawing, no dust, no waste.
    """
    if area is not None:
        return no_cut_area(area, slabs, laying, joints, within)
    length, width = size or (0.0, 0.0)
    return no_cut_sizes(slabs, laying, joints, length, width, within)
