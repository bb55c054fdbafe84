"""Whole answers: figures, the request as understood, and how it was come by."""

from functools import cached_property, lru_cache
from typing import Any

from service.paving.cautions import Caution
from service.paving.reference import Assumption
from service.paving.sheets import Sheet
from service.schemas.figures import Figure, Figures, Word
from service.schemas.workings import Workings


class AssumptionRow(Figures):
    """A value that the answer rests on."""

    name = Word("What it is.")
    value = Figure("The value used, in `unit`.")
    unit = Word("SI base unit; 1 for a ratio.")
    low = Figure("Least it is known to be.")
    high = Figure("Most it is known to be.")
    basis = Word("published, common practice, catalogue or given.")
    source = Word("The published source, or empty.")


class CautionRow(Figures):
    """What to beware of."""

    code = Word("Short name.")
    text = Word("What to beware of or do.")
    because = Word("Why it applies here.")
    source = Word("Where it comes from, or empty.")


_ASSUMPTION, _CAUTION = AssumptionRow(), CautionRow()


@lru_cache(maxsize=2048)
def _assumption(entry: Assumption) -> dict[str, Any]:
    """An assumption as it leaves; most are the same from answer to answer."""
    return _ASSUMPTION.shown(entry)


@lru_cache(maxsize=512)
def _caution(entry: Caution) -> dict[str, Any]:
    """A caution as it leaves, likewise."""
    return _CAUTION.shown(entry)


class Answer(Figures):
    """A whole answer; resources add their figures."""

    table = ""

    def answer(self, given: dict[str, Any], result: Any, sheet: Sheet) -> dict[str, Any]:
        """Figures, the request as understood, and how it was come by: ready for JSON."""
        answer = self.shown(result)
        answer["given"] = given
        answer["assumptions"] = [_assumption(entry) for entry in sheet.assumptions.values()]
        answer["cautions"] = [_caution(entry) for entry in sheet.cautions.values()]
        if given.get("workings", True):
            answer["workings"] = self.workings.written(sheet.steps)
        return answer

    @cached_property
    def workings(self) -> Workings:
        """Writes out the steps to its figures."""
        return Workings(self.keys)
