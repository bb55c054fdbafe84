"""Tasks: a mix to be laid on modules, and what stands in the way if it can't be."""

from dataclasses import dataclass, replace
from enum import Enum
from functools import cached_property

from service.paving.laying.mixed.amounts import Amounts, by_packs, by_shares, single_modules_too_many
from service.paving.laying.mixed.fields import Size
from service.paving.laying.mixed.mixes import Mix, Mixed, mixed
from service.paving.laying.mixed.patches import patches
from service.paving.laying.mixed.works import Aim

SINGLE: Size = (1, 1)


class Fault(Enum):
    """Why a mix isn't laid."""

    limit = "a slab is longer than joints may be"
    numbers = "no numbers of the sizes cover the modules"
    singles = "too many single modules"
    joints = "joints cross or run too long"
    lacking = "slabs are laid that aren't to be had"


@dataclass(frozen=True)
class Task:
    """A mix to be laid.

    Parameters
    ----------
    columns, rows : int
        Modules along x and y.
    inside : tuple of bool
        Which of them are to be laid, row by row from below.
    sizes : tuple of Size
        Sizes in modules, the greater side first, no two alike.
    shares : tuple of float or None
        Share of the area of each; shares that suit one another if none.
    pack : tuple of int or None
        How many of each a pack holds, in place of shares.
    limit : int
        Modules along the longest straight joint.
    seed : int
        Number that chance follows from.
    """

    columns: int
    rows: int
    inside: tuple[bool, ...]
    sizes: tuple[Size, ...]
    shares: tuple[float, ...] | None
    pack: tuple[int, ...] | None
    limit: int
    seed: int

    @cached_property
    def modules(self) -> int:
        """Modules to be laid."""
        return sum(self.inside)

    @property
    def rectangular(self) -> bool:
        return self.modules == len(self.inside)

    def of(self, columns: int, rows: int) -> "Task":
        """The same on a full rectangle of other sides."""
        return replace(self, columns=columns, rows=rows, inside=(True,) * (columns * rows))

    @cached_property
    def mix(self) -> tuple[float, ...]:
        """Share of the area of each size: as given, or as they suit one another."""
        return self.shares or usual_shares(self.sizes)

    @cached_property
    def held(self) -> tuple[bool, ...]:
        """Whether each size is to be had."""
        return tuple(n > 0 for n in self.pack or self.mix)

    @cached_property
    def amounts(self) -> Amounts | None:
        """Slabs of each size to lay; none if no numbers of them cover the modules."""
        if self.pack is not None:
            return by_packs(self.modules, self.sizes, self.pack)
        return by_shares(self.modules, self.sizes, self.mix)

    @cached_property
    def singles_over(self) -> int:
        """Single modules more than can lie without crossed joints; proved for a full rectangle only."""
        if self.amounts is None or not self.rectangular:
            return 0
        return single_modules_too_many(self.columns, self.rows, self.sizes, self.amounts.numbers)

    @cached_property
    def found(self) -> Mixed:
        """The laying; single modules are laid where nothing else fits, even if they aren't among the sizes."""
        return mixed(self._mixture, self.seed)

    @property
    def _mixture(self) -> Mix:
        assert self.amounts is not None
        spare = () if SINGLE in self.sizes else (SINGLE,)
        numbers = (*self.amounts.numbers, *(0 for _ in spare))
        return Mix(self.columns, self.rows, self.inside, (*self.sizes, *spare), numbers, self.limit)

    @property
    def lacking(self) -> tuple[tuple[Size, int], ...]:
        """Sizes that are laid but not sold, or not in the pack, and how many."""
        return self._lacking(self.found)

    def _lacking(self, found: Mixed) -> tuple[tuple[Size, int], ...]:
        held = self.held if self.pack is not None else (True,) * len(self.sizes)
        laid = zip((*self.sizes, SINGLE), found.numbers, (*held, False), strict=False)
        return tuple((size, n) for size, n, had in laid if n and not had)

    @cached_property
    def ruled_out(self) -> Fault | None:
        """What stands in the way before anything is laid."""
        if self.limit < max(size[0] for size in self.sizes):
            return Fault.limit
        if self.amounts is None:
            return Fault.numbers
        return Fault.singles if self.singles_over else None

    @cached_property
    def fault(self) -> Fault | None:
        """What stands in the way; none if it can be laid."""
        if self.ruled_out is not None:
            return self.ruled_out
        if self.found.flaws:
            return Fault.joints
        return Fault.lacking if self.lacking else None

    def tried(self, steps: int) -> tuple[bool, int]:
        """Whether fewer steps than so many show that it can be laid, and how many were taken."""
        if self.ruled_out is not None:
            return False, 0
        found = mixed(self._mixture, self.seed, steps, Aim.rules)
        return found.steps < steps and not found.flaws and not self._lacking(found), found.steps

    @property
    def steps(self) -> int:
        """Steps taken to find that it can't be laid."""
        return 0 if self.ruled_out is not None else self.found.steps


def usual_shares(sizes: tuple[Size, ...]) -> tuple[float, ...]:
    """Shares that sizes have in the patch they make up most of; equal ones if none has them all.

    Examples
    --------
    >>> [round(share, 2) for share in usual_shares(((2, 2), (1, 1)))]
    [0.86, 0.14]
    """
    having = [patch.shares for patch in patches() if patch.shares.keys() >= set(sizes)]
    if not having:
        return tuple(1 / len(sizes) for _ in sizes)
    best = max(having, key=lambda shares: round(sum(shares[size] for size in sizes), 3))
    whole = sum(best[size] for size in sizes)
    return tuple(best[size] / whole for size in sizes)
