"""Windows: a small part of a field taken up and laid anew, by trying."""

from collections.abc import Sequence
from dataclasses import dataclass

from service.paving.laying.mixed.chances import Chance
from service.paving.laying.mixed.fields import BARE, Field, Size, Spot

#: 1 to begin at the left and go right, −1 the other way; the same from below and from above.
Corner = tuple[int, int]

#: Slabs tried in one window before it is given up; more in a large window, or where a slab no one wants lies.
NODES, MORE_NODES = 60, 240
#: How often an even number of unwanted slabs is moved on instead of being done away with at once.
_MOVED_ON = 0.5


class Filling:
    """Bare modules of a field being laid.

    Parameters
    ----------
    field : Field
        What is laid.
    gaps : sequence of int
        Bare modules to cover.
    wants : sequence of float
        How much each size is wanted, in any measure; 0 or less and it isn't laid.
    chance : Chance
        Where the order of trying comes from.
    nodes : int
        Slabs that may be tried.
    corner : Corner
        Where to begin; what fits badly ends up at the far corner.
    """

    def __init__(
        self,
        field: Field,
        gaps: Sequence[int],
        wants: Sequence[float],
        chance: Chance,
        nodes: int = NODES,
        corner: Corner = (1, 1),
    ) -> None:
        self.field, self.chance = field, chance
        rightwards, upwards = corner
        stride = field.stride
        self.gaps = sorted(gaps, key=lambda module: (module // stride * upwards, module * rightwards))
        self.offers = [
            (turned, wants[k], (turned[0] - 1) * (rightwards < 0) + (turned[1] - 1) * stride * (upwards < 0))
            for turned, k in field.kinds.items()
            if wants[k] > 0
        ]
        self.laid: list[tuple[Spot, int]] = []
        self.left = nodes

    def done(self) -> bool:
        """Cover all gaps, or none."""
        if not self._covered(0):
            return False
        for spot, number in self.laid:
            self.field.enter(spot, number)
        return True

    def _covered(self, start: int) -> bool:
        """Cover all gaps from the one given, or none."""
        modules, gaps, field = self.field.modules, self.gaps, self.field
        while start < len(gaps) and modules[gaps[start]] != BARE:
            start += 1
        if start == len(gaps):
            return True
        for (length, width), back in self._in_turn():
            spot = (gaps[start] - back, length, width)
            if not field.bare(spot):
                continue
            self.left -= 1
            number = field.number()
            field.mark(spot, number)
            self.laid.append((spot, number))
            if field.sound(spot) and self._covered(start + 1):
                return True
            self.laid.pop()
            field.mark(spot, BARE)
            if self.left <= 0:
                return False
        return False

    def _in_turn(self) -> list[tuple[Size, int]]:
        draw = self.chance.draw
        ranked = sorted([(draw() / wanted, turned, back) for turned, wanted, back in self.offers])
        return [(turned, back) for _, turned, back in ranked]


@dataclass(frozen=True)
class Window:
    """A rectangle of modules by its lower left column and row and its sides, the corner to begin at, and slabs to try.

    It may reach over the field.
    """

    left: int
    low: int
    length: int
    width: int
    corner: Corner = (1, 1)
    nodes: int = NODES

    def modules(self, field: Field) -> list[int]:
        """Modules of the field in the window, row by row from below."""
        first, last = max(self.left, 0), min(self.left + self.length, field.columns)
        rows = range(max(self.low, 0), min(self.low + self.width, field.rows))
        return [module for row in rows for module in range(field.at(first, row), field.at(last, row))]

    def holds(self, field: Field, spot: Spot) -> bool:
        """Whether a slab lies wholly in the window."""
        module, length, width = spot
        column, row = field.place(module)
        return (
            self.left <= column
            and self.low <= row
            and column + length <= self.left + self.length
            and row + width <= self.low + self.width
        )


@dataclass(frozen=True)
class Change:
    """What lay in a window, and the numbers of the slabs that lie there now."""

    before: list[Spot]
    after: list[int]


def laid_anew(field: Field, window: Window, wants: Sequence[float], chance: Chance) -> Change | None:
    """Lay a window anew by the rules; none, and nothing changed, if nothing else was found.

    A size wanted less than nought is laid only where one lies already and can't be done away with.
    """
    modules = field.modules
    here = window.modules(field)
    slabs = [n for n in dict.fromkeys([modules[m] for m in here]) if n > 0 and window.holds(field, field.slabs[n])]
    before = [field.lift(number) for number in slabs]
    gaps = [m for m in here if modules[m] == BARE]
    unwanted = any(wants[field.kinds[length, width]] < 0 for _, length, width in before)
    nodes = MORE_NODES if unwanted else window.nodes
    filling = Filling(field, gaps, _wants_here(field, before, wants, chance), chance, nodes, window.corner)
    if filling.gaps and filling.done():
        return Change(before, [number for _, number in filling.laid])
    for spot in before:
        field.lay(spot)
    return None


def _wants_here(field: Field, before: list[Spot], wants: Sequence[float], chance: Chance) -> list[float]:
    """Wants with unwanted sizes, those below nought, left out unless as many must be moved on."""
    here = list(wants)
    for kind, want in enumerate(wants):
        if want < 0:
            lying = sum(field.kinds[length, width] == kind for _, length, width in before)
            stays = lying % 2 == 1 or (lying > 0 and chance.draw() < _MOVED_ON)
            here[kind] = -want if stays else 0.0
    return here


def put_back(field: Field, change: Change) -> None:
    """Undo a change of a window."""
    for number in change.after:
        field.lift(number)
    for spot in change.before:
        field.lay(spot)
