"""Mixes: slabs of several sizes laid over a field in the numbers wanted."""

from dataclasses import dataclass
from functools import cached_property

from service.paving.laying.mixed.chances import Chance
from service.paving.laying.mixed.fields import Field, Size
from service.paving.laying.mixed.patches import Patch, nearest_patches
from service.paving.laying.mixed.works import Aim, Work

#: Layings begun before the best one is taken.
_ATTEMPTS = 3
#: How much nearer than the others a patch must be to be taken alone.
_AS_NEAR = 0.08
#: Steps of one laying, a slab tried or laid being one: 4 to 7 µs each, so well over a second (own measure).
MOST_STEPS = 250_000


@dataclass(frozen=True)
class Mix:
    """What is to be laid.

    Parameters
    ----------
    columns, rows : int
        Modules of the field along x and y.
    inside : tuple of bool
        Which of them belong to the area, row by row from below.
    sizes : tuple of Size
        Sizes in modules, the greater side first, no two alike.
    numbers : tuple of int
        How many of each; together they cover the modules inside.
    limit : int
        Modules along the longest straight joint.
    """

    columns: int
    rows: int
    inside: tuple[bool, ...]
    sizes: tuple[Size, ...]
    numbers: tuple[int, ...]
    limit: int

    @cached_property
    def faces(self) -> tuple[int, ...]:
        """Modules under a slab of each size."""
        return tuple(length * width for length, width in self.sizes)

    @cached_property
    def shares(self) -> tuple[float, ...]:
        """Share of the area by size."""
        modules = sum(self.inside)
        return tuple(n * face / modules for n, face in zip(self.numbers, self.faces, strict=True))

    @property
    def bare(self) -> Field:
        """Its field with nothing laid."""
        return Field(self.columns, self.rows, self.inside, self.sizes, self.limit)


@dataclass(frozen=True)
class Mixed:
    """A field laid.

    Parameters
    ----------
    slabs : tuple of (int, int, int, int)
        Column, row, length along x and width along y of every slab, course by course.
    numbers : tuple of int
        How many of each size.
    flaws : int
        Places where a rule is broken; 0 in any laying that is handed out.
    steps : int
        Steps it took.
    """

    slabs: tuple[tuple[int, int, int, int], ...]
    numbers: tuple[int, ...]
    flaws: int
    steps: int


def mixed(mix: Mix, seed: int, steps: int = MOST_STEPS, aim: Aim = Aim.numbers) -> Mixed:
    """Lay a mix at random: the first laying without a flaw and in the right numbers, or the nearest to that.

    It ends after so many steps with the best found. One that aims at the rules alone goes the same way and
    stops where they are kept and nothing unwanted is laid; to go on from there never lays any again.
    """
    chance, near, left = Chance(seed), _choice(mix), steps
    best: tuple[tuple[int, int], Field] | None = None
    for _ in range(_ATTEMPTS):
        work = Work(mix.bare, mix.numbers, chance, left, aim)
        rank = work.done(near)
        if best is None or rank < best[0]:
            best = rank, work.field
        left = work.steps
        if work.enough(*best[0]) or work.hopeless or left <= 0:
            break
    assert best is not None
    return _laid(best[1], best[0][0], steps - left)


def _choice(mix: Mix) -> list[Patch]:
    """The patches to begin with: the nearest, and those nearly as near."""
    shares = dict(zip(mix.sizes, mix.shares, strict=True))
    ranked = nearest_patches(shares, mix.limit)
    fit = [patch for patch in ranked if patch.limit <= mix.limit] or ranked[:1]

    def apart(patch: Patch) -> float:
        return sum(abs(patch.shares.get(s, 0) - shares.get(s, 0)) for s in patch.shares.keys() | shares.keys())

    return [patch for patch in fit if apart(patch) <= apart(fit[0]) + _AS_NEAR]


def _laid(field: Field, left: int, steps: int) -> Mixed:
    slabs = sorted((*field.place(module)[::-1], length, width) for module, length, width in field.slabs.values())
    return Mixed(tuple((x, y, along, up) for y, x, along, up in slabs), tuple(field.numbers), left, steps)
