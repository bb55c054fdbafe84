"""/v1/mixes"""

from service.paving.laying_courses import Recipe, recipe_mix
from service.paving.mixes import Mix
from service.paving.sheets import Sheet
from service.routes.resources import resource
from service.schemas.mixes import MixAnswer, MixQuestion


@resource("mixes", MixQuestion(), MixAnswer(), example={"volume": "0.5 m3", "parts": "1:4", "consistence": "semi_dry"})
def mixes(sheet: Sheet, volume: float, recipe: Recipe) -> Mix:
    """What a volume of mortar or concrete takes.

    Cement, sand, aggregate and water by absolute volumes, with the rule of thumb beside them,
    in whole bags and mixer batches.
    """
    return recipe_mix(sheet, volume, recipe)
