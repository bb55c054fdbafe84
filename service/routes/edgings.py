"""/v1/edgings"""

from service.paving.edgings import Edges, Edging, EdgingSlab, edging
from service.paving.haunches import Haunch
from service.paving.laying_courses import Recipe
from service.paving.sheets import Sheet
from service.routes.resources import resource
from service.schemas.edgings import EdgingAnswer, EdgingQuestion


@resource(
    "edgings",
    EdgingQuestion(),
    EdgingAnswer(),
    example={
        "area": {"shape": "rectangle", "length": "4.8 m", "width": "3.6 m"},
        "sides": [2, 3, 4],
        "slab": {"length": "915 mm", "width": "50 mm"},
        "haunch": {"bed_width": "200 mm", "bed_depth": "100 mm"},
    },
)
def edgings(sheet: Sheet, edges: Edges | float, slab: EdgingSlab, haunch: Haunch | None, recipe: Recipe) -> Edging:
    """What an edging takes: kerbs, edging slabs or setts, and the concrete that holds them.

    Counted along a length, or along the edges of an area with every joint, the cut that closes each run
    and the corners, mitred or butted; concrete by its section, and what it is mixed of.
    """
    return edging(sheet, edges, slab, haunch, recipe)
