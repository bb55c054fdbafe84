"""Jobs to ask a take-off for: the demo job, one with everything in it, and each with other slabs every time."""

import copy
import json
from collections.abc import Iterator
from typing import Any

from service.routes.takeoffs import DEMO

Body = dict[str, Any]

#: More than the service remembers layouts of, by far.
VARIANTS = 300


def whole_job() -> Body:
    """The demo job with every part that a job can have."""
    job = copy.deepcopy(DEMO)
    job["build_up"]["membrane"] = {"width": "4.5 m", "length": "11 m"}
    return job | {
        "fall": {"gradient": "1 in 60", "towards": "right"},
        "ground": {"surface": "level", "level": "-50 mm"},
        "dig": {
            "soil": "clay",
            "over_dig": "150 mm",
            "strip": {"what": "turf"},
            "damp_proof_course": {"level": "150 mm", "wall": "left"},
        },
        "edging": {"slab": {"length": "915 mm", "width": "50 mm"}, "sides": [1, 2]},
        "border": {"slab": {"name": "sett", "length": "200 mm", "width": "100 mm", "thickness": "50 mm"}},
        "drainage": {},
        "trees": [{"at": {"x": "2.1 m", "y": "2.7 m"}, "stem": "100 mm"}],
        "programme": {"gang": 2, "start": "2027-03-03"},
    }


def other_layouts(job: Body) -> Iterator[Body]:
    """The same job with the terrace a millimetre longer each time, so that its slabs are laid out anew."""
    for k in range(VARIANTS):
        yield job | {"area": job["area"] | {"length": f"{7200 + k} mm"}}


def other_beds(job: Body) -> Iterator[Body]:
    """The same job with another depth of bed each time: its slabs stay."""
    for k in range(VARIANTS):
        course = job["build_up"]["laying_course"] | {"depth": f"{30 + k / 20:g} mm"}
        yield job | {"build_up": job["build_up"] | {"laying_course": course}}


def encoded(bodies: Iterator[Body] | list[Body]) -> list[bytes]:
    """Bodies as they are sent."""
    return [json.dumps(body).encode("ascii") for body in bodies]
