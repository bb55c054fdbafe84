"""/v1/trees"""

from service.paving.areas import Area
from service.paving.sheets import Sheet
from service.paving.trees import RootProtection, Tree, root_protection
from service.routes.resources import resource
from service.schemas.trees import TreeAnswer, TreeQuestion


@resource(
    "trees",
    TreeQuestion(),
    TreeAnswer(),
    example={
        "area": {"shape": "rectangle", "length": "4.8 m", "width": "3.6 m"},
        "at": {"x": "5.8 m", "y": "1.8 m"},
        "stem": "250 mm",
    },
)
def trees(sheet: Sheet, area: Area, tree: Tree) -> RootProtection:
    """How much of the paving lies over roots that must be protected.

    The root protection area of a tree with one stem or several, its overlap with the paving, exact for
    any shape, and the share of its open ground that would be covered.
    """
    return root_protection(sheet, area, tree)
