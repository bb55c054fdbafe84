"""The wire of soakaways."""

from typing import Any

from service.paving.errors import OutOfRange
from service.paving.reference import Assumption, default
from service.paving.soakaways import Pit, Storm
from service.paving.trial_pits import TrialPit
from service.schemas.answers import Answer
from service.schemas.fields import Number, Quantity
from service.schemas.figures import Figure, Truth
from service.schemas.nested import Object
from service.schemas.quantities import DURATION, LENGTH, RATE
from service.schemas.requests import Question, Request
from service.schemas.shapes import area_field


class _Dug(Request):
    length = Quantity(LENGTH, "pit", required=True, description="On plan.", example="1.2 m")
    width = Quantity(LENGTH, "pit", required=True, description="On plan.", example="0.6 m")


class TrialPitFields(_Dug):
    """A pit filled with water to see how fast the ground takes it."""

    effective_depth = Quantity(
        LENGTH, "pit_depth", required=True, description="Depth of water when full.", example="1 m"
    )
    time = Quantity(
        DURATION,
        "seeping",
        required=True,
        description="From three quarters full to one quarter, the slowest of three fillings.",
        example="60 min",
    )

    def make(self, values: dict[str, Any]) -> TrialPit:
        return TrialPit(**values)


class PitFields(_Dug):
    """The soakaway."""

    effective_depth = Quantity(LENGTH, "pit_depth", required=True, description="Depth below the inlet.", example="1 m")
    voids_percent = Number(1, 100, description="Share of it that water can fill; stone if left out.")
    from_foundations = Quantity(LENGTH, "distance", description="To the nearest foundation.", example="5 m")

    def make(self, values: dict[str, Any]) -> Pit:
        percent = values.pop("voids_percent")
        voids = default("soakaways", "voids").given(None if percent is None else percent / 100)
        return Pit(**values, voids=voids)


class StormFields(Request):
    """Rain to be held."""

    depth = Quantity(LENGTH, "rain_depth", required=True, description="Of rain.", example="10 mm")
    duration = Quantity(DURATION, "storm", required=True, description="How long it lasts.", example="5 min")

    def make(self, values: dict[str, Any]) -> Storm:
        return Storm(**values)


class SoakawayQuestion(Question):
    """A soakaway for an area."""

    area = area_field("What drains into it: its shape, or its area.")
    trial_pit = Object(TrialPitFields(), description="A trial pit, in place of the rate.")
    infiltration = Quantity(
        RATE, "infiltration", description="Rate at which the ground takes water.", example="0.00004 m/s"
    )
    pit = Object(PitFields(), required=True, description="The soakaway.")
    storm = Object(StormFields(), description="The rain; that of small soakaways if left out.")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        rate, trial = values.pop("infiltration"), values.pop("trial_pit")
        if (rate is None) == (trial is None):
            raise OutOfRange("Give either the 'infiltration' of the ground, or a 'trial_pit'.", "infiltration")
        values["area"] = values["area"].net
        values["ground"] = trial or _GIVEN._replace(value=rate, low=rate, high=rate)
        return values


_GIVEN = Assumption("infiltration", 0.0, "m/s", 0.0, 0.0, "given", "")


class SoakawayAnswer(Answer):
    """Whether a soakaway takes a storm."""

    holds = Truth("Whether it holds the storm.")
    storage_needed_m3 = Figure("Water it must hold.")
    storage_m3 = Figure("Water it can hold.")
    length_needed_m = Figure("At which it just holds the storm, as wide and deep as it is.")
    inflow_m3 = Figure("Water that the storm brings.")
    outflow_m3 = Figure("Water that leaves while it lasts.")
    half_drain_h = Figure("Time in which half of what it must hold drains away.")
    infiltration_mm_per_h = Figure("Rate at which the ground takes water.")
