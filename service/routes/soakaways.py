"""/v1/soakaways"""

from service.paving.reference import Assumption
from service.paving.sheets import Sheet
from service.paving.soakaways import Pit, Soakaway, Storm, soakaway, usual_storm
from service.paving.trial_pits import TrialPit
from service.routes.resources import resource
from service.schemas.soakaways import SoakawayAnswer, SoakawayQuestion


@resource(
    "soakaways",
    SoakawayQuestion(),
    SoakawayAnswer(),
    example={
        "area": "25 m2",
        "trial_pit": {"length": "1.2 m", "width": "0.6 m", "effective_depth": "1 m", "time": "60 min"},
        "pit": {"length": "1.5 m", "width": "0.6 m", "effective_depth": "1 m", "from_foundations": "6 m"},
    },
)
def soakaways(sheet: Sheet, area: float, ground: TrialPit | Assumption, pit: Pit, storm: Storm | None) -> Soakaway:
    """Whether a soakaway takes the rain off an area.

    From a trial pit or a known rate of infiltration, and a storm: what it must hold, what it can, the
    length at which it just would, and how soon it is half empty.
    """
    return soakaway(sheet, area, ground, pit, storm or usual_storm(area))
