"""Workings: written out at one stroke, and the same as written out one by one."""

import json
import math

import orjson
import pytest

from service.paving.layers import compacted_volume
from service.paving.sheets import Sheet, Step
from service.schemas.quantities import ending_of
from service.schemas.workings import Workings


def one_by_one(steps, keys):
    rows = []
    for step in steps:
        key = keys.get(step.figure, step.figure)
        ending = ending_of(key) if step.figure in keys else None
        value = step.value * (ending.factor if ending else 1)
        rows.append(
            {
                "figure": key,
                "formula": step.formula.text,
                "substitution": step.formula.substitution(step.inputs, step.value),
                "value": pytest.approx(value, rel=1e-11, abs=1e-300),
                "unit": ending.text if ending else step.formula.unit,
                "source": step.formula.source,
            }
        )
    return rows


def test_workings_are_as_written_out_one_by_one(resource):
    sheet = Sheet()
    asked = resource.question.made(resource._asked(resource.example, None))
    asked.pop("workings", None)
    resource.sum(sheet, **asked)
    written = json.loads(orjson.dumps(resource.answer.workings.written(sheet.steps)))
    assert written == one_by_one(sheet.steps, resource.answer.keys)


@pytest.mark.parametrize("value", [math.inf, -math.inf, math.nan])
def test_what_is_no_number_is_not_written(value):
    with pytest.raises(ArithmeticError, match="depth"):
        Workings({}).written([Step("depth", compacted_volume, (1.0, 1.0), value)])


def test_a_figure_in_quotes_and_brackets_is_written_as_it_is():
    step = Step('of "{0}" %s 5 % \\ ü', compacted_volume, (2.0, 0.1), 0.2)
    (written,) = json.loads(orjson.dumps(Workings({}).written([step])))
    assert (written["figure"], written["value"]) == ('of "{0}" %s 5 % \\ ü', 0.2)
