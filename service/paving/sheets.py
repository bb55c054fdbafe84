"""The sheet a sum is written out on: workings, assumptions and cautions as they arise."""

from dataclasses import dataclass, field
from typing import NamedTuple

from service.paving.cautions import Caution
from service.paving.formulas import Formula, Inputs
from service.paving.reference import Assumption


class Step(NamedTuple):
    """One worked figure.

    Parameters
    ----------
    figure : str
        Name of the figure, dotted when it belongs to a section of a whole job.
    formula : Formula
        What was worked.
    inputs : tuple
        What was put in, in the order of the formula's parameters.
    value : float
        What came out, in the formula's unit.
    """

    figure: str
    formula: Formula[...]
    inputs: tuple[object, ...]
    value: float


@dataclass(slots=True)
class Sheet:
    """Everything an answer must show beside its figures.

    A sheet is handed from sum to sum; `section` gives a sheet that writes on the same
    paper under a heading.
    """

    heading: str = ""
    steps: list[Step] = field(default_factory=list)
    assumptions: dict[str, Assumption] = field(default_factory=dict)
    cautions: dict[str, Caution] = field(default_factory=dict)

    def section(self, heading: str) -> "Sheet":
        """A sheet that writes on this one, with its figures under a heading."""
        return Sheet(f"{self.heading}{heading}.", self.steps, self.assumptions, self.cautions)

    def work(self, figure: str, formula: Formula[Inputs], *inputs: Inputs.args, **named: Inputs.kwargs) -> float:
        """Work a formula, write the step down and hand back its value."""
        value = formula.function(*inputs, **named)
        self.steps.append(Step(self.heading + figure, formula, (*inputs, *named.values()) if named else inputs, value))
        return value

    def assume(self, assumption: Assumption) -> float:
        """Use a reference value and name it in the answer."""
        self.assumptions[assumption.name] = assumption
        return assumption.value

    def caution(self, caution: Caution) -> None:
        """Raise a caution once."""
        self.cautions.setdefault(caution.code, caution)
