"""Works: a field on its way from bare modules to a laying by the rules, in the numbers wanted.

Work is counted in steps, a slab tried or laid being one, and ends with them: the same steps
are taken on any machine, however long they take.
"""

from collections.abc import Sequence
from enum import Enum

from service.paving.laying.mixed.chances import Chance
from service.paving.laying.mixed.crops import cropped
from service.paving.laying.mixed.fields import Field
from service.paving.laying.mixed.flaws import flaws
from service.paving.laying.mixed.patches import Patch
from service.paving.laying.mixed.views import LARGER, USUAL, window_of_too_many, window_round
from service.paving.laying.mixed.windows import Window, laid_anew, put_back

#: Times a patch is laid from different places, to choose from; more while none is free of unwanted slabs.
_CROPS, _MORE_CROPS = 6, 24
#: Steps after which it is laid no more often.
_CROPPING = 120_000
#: Windows tried to mend one flaw, and how often the flaws are looked for again.
_MENDS, _PASSES = 60, 4
#: Flaws that weren't mended, more than were, after which none will be: mixes that can be laid leave 5 at most in a
#: first round, of 40, on 100 by 100 modules (own measure).
_STUCK = 16
#: Windows laid anew for variety, by module.
_VARIETY = 0.03
#: Windows tried to get the numbers nearer, before the laying is taken as it is, and before larger ones are tried.
_PATIENCE, _AFTER = 400, 40
#: How much a size none is wanted of is wanted where there is nothing else, and how often it counts: so often
#: that no other size makes up for it.
_UNWANTED, _GRAVE = 1e-4, 1_000_000
#: How much a size is wanted, times its share, where it is short and where there are too many of it.
_SHORT, _OVER = 4.0, 0.25
#: Steps that the opening of a window counts for, that the filling of a gap in a crop does, and how many slabs of
#: a crop make one, by the time each takes (own measure).
_OPENING, _GAP, _LAID = 5, 6, 3


class Aim(Enum):
    """What is enough."""

    rules = "no flaws, and no slabs that aren't wanted"
    numbers = "the numbers wanted as well"


class Work:
    """A field on its way.

    Parameters
    ----------
    field : Field
        What is to be laid, bare.
    numbers : sequence of int
        How many slabs of each size are wanted.
    chance : Chance
        What decides.
    steps : int
        Steps that may be taken.
    aim : Aim
        What is enough.
    """

    def __init__(self, field: Field, numbers: Sequence[int], chance: Chance, steps: int, aim: Aim) -> None:
        self.bare, self.field, self.numbers = field, field, numbers
        self.chance, self.steps, self.aim = chance, steps, aim
        self.hopeless = False
        self.faces = [length * width for length, width in field.sizes]
        covered = sum(n * face for n, face in zip(numbers, self.faces, strict=True))
        self.shares = [n * face / covered for n, face in zip(numbers, self.faces, strict=True)]

    def done(self, patches: Sequence[Patch]) -> tuple[int, int]:
        """Lay everything; flaws left, and modules under slabs of the wrong size."""
        self.crop(patches)
        left = self.mend()
        if not left and not self.enough(left, self.off()):
            self.vary()
            self.settle()
        return left, self.off()

    def enough(self, left: int, off: int) -> bool:
        """Whether so many flaws and modules under slabs of the wrong size are what it aims at."""
        return left == 0 and off < (_GRAVE if self.aim is Aim.rules else 1)

    def crop(self, patches: Sequence[Patch]) -> None:
        """Lay patches a few times and keep the one with numbers nearest to those wanted."""
        best: tuple[int, Field] | None = None
        least = max(self.steps - _CROPPING, 0)
        for k in range(_MORE_CROPS):
            if best is not None and (self.steps <= least or (k >= _CROPS and best[0] < _GRAVE)):
                break
            self.field = self.bare.copy()
            gaps = cropped(self.field, self.chance.one_of(patches), self.wants(), self.chance)
            self.steps -= self.field.tried // _LAID + gaps * _GAP
            if best is None or self.off() < best[0]:
                best = self.off(), self.field
        assert best is not None
        self.field = best[1]

    def off(self) -> int:
        """Modules by which the sizes laid differ from those wanted."""
        return sum(
            face * abs(wanted - laid) * (1 if wanted else _GRAVE)
            for face, wanted, laid in zip(self.faces, self.numbers, self.field.numbers, strict=True)
        )

    def wants(self) -> list[float]:
        """How much each size is wanted now."""
        return [
            share * (_SHORT if laid < wanted else _OVER if laid > wanted else 1.0) if wanted else -_UNWANTED
            for share, wanted, laid in zip(self.shares, self.numbers, self.field.numbers, strict=True)
        ]

    def mend(self) -> int:
        """Lay windows round flaws anew; how many flaws are left."""
        found = flaws(self.field)
        for _ in range(_PASSES):
            self._mend_all(found)
            found = flaws(self.field)
            if not found or self.hopeless or self.steps <= 0:
                break
        return len(found)

    def _mend_all(self, found: Sequence[int]) -> None:
        """Mend flaws one by one, until most of them have turned out not to be mended."""
        stuck = 0
        for n, module in enumerate(found, 1):
            stuck += not self._mended(module)
            self.hopeless = stuck >= _STUCK and 2 * stuck > n
            if self.hopeless:
                return

    def _mended(self, module: int) -> bool:
        for _ in range(_MENDS):
            if self.steps <= 0 or not self.field.flawed(module):
                break
            start = self.field.tried
            laid_anew(self.field, window_round(self.field, module, self.chance), self.wants(), self.chance)
            self.steps -= _OPENING + self.field.tried - start
        return not self.field.flawed(module)

    def vary(self) -> None:
        """Lay windows here and there anew, so that the patch can't be seen."""
        modules = len(self.field.modules)
        for _ in range(int(_VARIETY * modules)):
            self._try(window_round(self.field, self.chance.below(modules), self.chance))

    def settle(self) -> None:
        """Lay windows anew where there is too much of a size, until there isn't or nothing comes of it."""
        best, since = self.off(), 0
        while not self.enough(0, best) and since < _PATIENCE and self.steps > 0:
            sides = USUAL if since < _AFTER else LARGER
            self._try(window_of_too_many(self.field, self.numbers, self.chance, sides))
            since += 1
            if self.off() < best:
                best, since = self.off(), 0

    def _try(self, window: Window) -> None:
        """Lay a window anew, unless the numbers get worse by it."""
        off, start = self.off(), self.field.tried
        change = laid_anew(self.field, window, self.wants(), self.chance)
        if change is not None and self.off() > off:
            put_back(self.field, change)
        self.steps -= _OPENING + self.field.tried - start
