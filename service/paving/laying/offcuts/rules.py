"""Rules: the slab that pieces are cut from, and how they may be cut from it."""

from dataclasses import dataclass
from enum import Enum

from service.paving.laying.cut_pieces import MadeEdges, Turning


class Effort(Enum):
    """How hard to look for fewer slabs.

    `quick`: one pass over the rectangles round the pieces. `thorough`: also the true shapes, and many tries.
    """

    quick = "quick"
    thorough = "thorough"


@dataclass(frozen=True, slots=True)
class Stock:
    """A size of slab that pieces are cut from, and the rules of cutting.

    Parameters
    ----------
    length, width : int
        Face of the slab [µm].
    kerf : int
        Width that the blade takes away between two pieces [µm].
    turning : Turning
        Whether a piece may be turned a quarter.
    made_edges : MadeEdges
        Whether a piece that has a made edge keeps it.
    """

    length: int
    width: int
    kerf: int
    turning: Turning
    made_edges: MadeEdges

    @property
    def square(self) -> bool:
        """Whether the slab is as wide as it is long."""
        return self.length == self.width

    @property
    def turns(self) -> tuple[int, ...]:
        """Quarter turns a piece may stand at; half a turn is always allowed."""
        return (0, 2, 1, 3) if self.turning is Turning.quarter else (0, 2)

    @property
    def area(self) -> float:
        """Face of the slab [µm2]."""
        return float(self.length) * self.width
