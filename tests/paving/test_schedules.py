"""Schedules: what a measured job hands to its programme."""

import pytest

from service.paving.errors import OutOfRange
from service.paving.joints import Filler
from service.paving.programmes import Gang, programme, usual_waits
from service.paving.schedules import planned
from service.paving.sheets import Sheet
from service.paving.stages import Quantities, usual_outputs
from service.routes.takeoffs import DEMO
from service.schemas.takeoffs import TakeOffFields

HOUR = 3600.0
GANG = Gang(2, 8 * HOUR, 5)


def demo() -> object:
    question = TakeOffFields()
    return question.made(question.load({name: DEMO[name] for name in ("area", "paving", "build_up", "jointing")}))


def test_a_job_is_planned_from_its_measured_quantities() -> None:
    sheet = Sheet()
    found = planned(sheet, demo(), usual_outputs(), GANG, {}, None)  # type: ignore[arg-type]
    worked = {step.figure: step.value for step in sheet.steps}
    # By hand: 7.2 x 5.4 - 2.4 x 1.8 m less a circle of 1.2 m, 100 mm of sub-base and 40 mm of bed.
    area = 7.2 * 5.4 - 2.4 * 1.8 - 3.14159265358979 * 0.36
    assert worked["set_out.set_out"] == pytest.approx(area / 20 * HOUR)
    assert worked["sub_base.sub_base"] == pytest.approx(area * 0.1 / 0.8 * HOUR)
    assert worked["lay.bed_mortar"] == pytest.approx(area * 0.04 / 0.25 * HOUR)
    assert worked["lay.lay"] == pytest.approx(area / 2.5 * HOUR)
    assert worked["lay.cut"] > 0
    assert [stage.name for stage in found.stages] == ["set_out", "sub_base", "lay", "point"]


def test_quantities_are_planned_as_they_are() -> None:
    work = Quantities(area=20, laid=20, joint=60, filler=Filler.DRIED_SAND)
    expected = programme(Sheet(), work, usual_outputs(), GANG, usual_waits(Filler.DRIED_SAND))
    assert planned(Sheet(), work, usual_outputs(), GANG, {}, None) == expected


def test_a_wait_of_ones_own_takes_the_place_of_the_usual_one() -> None:
    work = Quantities(area=20, laid=20, bed=0.8, joint=60)
    found = planned(Sheet(), work, usual_outputs(), GANG, {"pointing": 48 * HOUR}, None)
    assert found.stages[-1].wait == 48 * HOUR
    assert found.stages[1].wait == 24 * HOUR


def test_a_job_that_takes_too_long_is_refused() -> None:
    with pytest.raises(OutOfRange, match="more hands"):
        planned(Sheet(), Quantities(area=1e6, dig=1e5), usual_outputs(), GANG, {}, None)
