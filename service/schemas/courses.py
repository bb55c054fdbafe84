"""Fields that edgings and borders share, and the runs both are made of."""

from service.paving.courses import Corner
from service.paving.edgings import Around
from service.schemas.fields import Choice
from service.schemas.figures import Figure, Figures, Tally, Word
from service.schemas.requests import Request


class CourseFields(Request):
    """Which edges of an area, and how runs meet."""

    around = Choice(Around, default="outline", description="Its outline, its openings, or both.")
    corner = Choice(
        Corner,
        default="mitred",
        description="How runs meet at a square corner; any other corner is mitred.",
    )


class RunRow(Figures):
    """A course from one corner to the next."""

    name = Word("Which sides it follows, as numbered by /v1/areas.")
    length_m = Figure("Along the middle of the course.")
    slabs = Tally("Slabs laid, whole and cut.")
    cut = Tally("Of these cut, at a mitre or to close the run.")
    closing_length_mm = Figure("Of the slab that is cut to close the run; 0 if none is.")
    widest_joint_mm = Figure("On the outer face, wider than asked for along an arc.")
