"""Mixes: slabs of several sizes laid over a field in the numbers wanted."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from service.paving.laying.mixed.chances import Chance
from service.paving.laying.mixed.crops import cropped
from service.paving.laying.mixed.fields import Field, Size
from service.paving.laying.mixed.flaws import flaws
from service.paving.laying.mixed.patches import Patch, nearest_patches
from service.paving.laying.mixed.windows import MORE_NODES, NODES, Window, laid_anew, put_back

#: Least and greatest side of a window [modules], and of a larger one that is tried when so many haven't helped.
_WINDOW, _LARGER, _AFTER = (3, 6), (4, 8), 40
_NODES = {_WINDOW: NODES, _LARGER: MORE_NODES}
#: Layings begun before the best one is taken.
_ATTEMPTS = 3
#: Times a patch is laid from different places, to choose from; more while none is free of unwanted slabs.
_CROPS, _MORE_CROPS = 6, 24
#: Windows laid anew in all: so many, and so many more by module.
_WINDOWS = (4000, 0.4)
#: Windows tried to mend one flaw, and how often the flaws are looked for again.
_MENDS, _PASSES = 60, 4
#: Windows laid anew for variety, by module.
_VARIETY = 0.03
#: Windows tried to get the numbers nearer, before the laying is taken as it is.
_PATIENCE = 400
#: How much nearer than the others a patch must be to be taken alone.
_AS_NEAR = 0.08
#: How often a slab no one wants is moved anywhere instead of towards the next one like it.
_ASTRAY = 0.3
#: How much a size none is wanted of is wanted where there is nothing else, and how often it counts.
_UNWANTED, _GRAVE = 1e-4, 4
#: How much a size is wanted, times its share, where it is short and where there are too many of it.
_SHORT, _OVER = 4.0, 0.25


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
    """

    slabs: tuple[tuple[int, int, int, int], ...]
    numbers: tuple[int, ...]
    flaws: int


def mixed(mix: Mix, seed: int) -> Mixed:
    """Lay a mix at random: the first laying without a flaw and in the right numbers, or the nearest to that."""
    chance = Chance(seed)
    near = _choice(mix)
    base, more = _WINDOWS
    windows = int(base + more * len(mix.inside))
    best: tuple[tuple[int, int], Field] | None = None
    for _ in range(_ATTEMPTS):
        work = _Work(mix, chance, windows)
        rank = work.done(near)
        if best is None or rank < best[0]:
            best = rank, work.field
        windows = work.windows
        if best[0] == (0, 0) or windows <= 0:
            break
    assert best is not None
    return _laid(best[1], best[0][0])


def _choice(mix: Mix) -> list[Patch]:
    """The patches to begin with: the nearest, and those nearly as near."""
    shares = dict(zip(mix.sizes, mix.shares, strict=True))
    ranked = nearest_patches(shares, mix.limit)
    fit = [patch for patch in ranked if patch.limit <= mix.limit] or ranked[:1]

    def apart(patch: Patch) -> float:
        return sum(abs(patch.shares.get(s, 0) - shares.get(s, 0)) for s in patch.shares.keys() | shares.keys())

    return [patch for patch in fit if apart(patch) <= apart(fit[0]) + _AS_NEAR]


class _Work:
    """A field on its way.

    Parameters
    ----------
    mix : Mix
        What is to be laid.
    chance : Chance
        What decides.
    windows : int
        How many windows may be laid anew.
    """

    def __init__(self, mix: Mix, chance: Chance, windows: int) -> None:
        self.mix, self.chance, self.windows = mix, chance, windows
        self.field = Field(mix.columns, mix.rows, mix.inside, mix.sizes, mix.limit)
        self.faces = mix.faces

    def done(self, patches: Sequence[Patch]) -> tuple[int, int]:
        """Lay everything; flaws left, and modules under slabs of the wrong size."""
        self.crop(patches)
        left = self.mend()
        if not left:
            self.vary()
            self.settle()
        return left, self.off()

    def crop(self, patches: Sequence[Patch]) -> None:
        """Lay patches a few times and keep the one with numbers nearest to those wanted."""
        best: tuple[int, int] | None = None
        kept = self.field
        for k in range(_MORE_CROPS):
            if best is not None and k >= _CROPS and not best[0]:
                break
            self.field = Field(self.mix.columns, self.mix.rows, self.mix.inside, self.mix.sizes, self.mix.limit)
            cropped(self.field, self.chance.one_of(patches), self.wants(), self.chance)
            rank = self._unwanted(), self.off()
            if best is None or rank < best:
                best, kept = rank, self.field
        self.field = kept

    def _unwanted(self) -> int:
        """Slabs of sizes none are wanted of."""
        return sum(laid for wanted, laid in zip(self.mix.numbers, self.field.numbers, strict=True) if not wanted)

    def off(self) -> int:
        """Modules by which the sizes laid differ from those wanted."""
        return sum(
            face * abs(wanted - laid) * (1 if wanted else _GRAVE)
            for face, wanted, laid in zip(self.faces, self.mix.numbers, self.field.numbers, strict=True)
        )

    def wants(self) -> list[float]:
        """How much each size is wanted now."""
        return [
            share * (_SHORT if laid < wanted else _OVER if laid > wanted else 1.0) if wanted else -_UNWANTED
            for share, wanted, laid in zip(self.mix.shares, self.mix.numbers, self.field.numbers, strict=True)
        ]

    def mend(self) -> int:
        """Lay windows round flaws anew; how many flaws are left."""
        found = flaws(self.field)
        for _ in range(_PASSES):
            for module in found:
                self._mend_one(module)
            found = flaws(self.field)
            if not found:
                break
        return len(found)

    def _mend_one(self, module: int) -> None:
        for _ in range(_MENDS):
            if self.windows <= 0 or not self._flawed(module):
                return
            self.windows -= 1
            laid_anew(self.field, self._window(module), self.wants(), self.chance)

    def _flawed(self, module: int) -> bool:
        field = self.field
        return (
            field.modules[module] < 0
            or field.crossed(module)
            or field.overlong(module, field.stride, 1, 1)
            or field.overlong(module, 1, field.stride, 1)
        )

    def _window(self, module: int, sides: tuple[int, int] = _WINDOW) -> Window:
        """A window left to chance round a module."""
        column, row = self.field.place(module)
        least, most = sides
        length, width = (least + self.chance.below(most - least + 1) for _ in range(2))
        corner = self.chance.one_of((1, -1)), self.chance.one_of((1, -1))
        return Window(
            column - self.chance.below(length), row - self.chance.below(width), length, width, corner, _NODES[sides]
        )

    def _window_towards(self, module: int, other: int) -> Window:
        """A window that begins beyond a module and ends towards another, beyond it if it is near."""
        (column, row), (column_to, row_to) = self.field.place(module), self.field.place(other)
        left, length, rightwards = self._reach(column, column_to)
        low, width, upwards = self._reach(row, row_to)
        return Window(left, low, length, width, (rightwards, upwards))

    def _reach(self, start: int, end: int) -> tuple[int, int, int]:
        """Least place, length and direction of a window from one place towards another."""
        most = _WINDOW[1]
        direction = 1 if end > start else -1 if end < start else self.chance.one_of((1, -1))
        end = min(max(end, start - most), start + most)
        margins = self.chance.below(3), self.chance.below(3)
        low, high = min(start, end) - margins[0], max(start, end) + margins[1]
        return low, high - low + 1, direction

    def vary(self) -> None:
        """Lay windows here and there anew, so that the patch can't be seen."""
        for _ in range(int(_VARIETY * len(self.field.modules))):
            self._try(self._window(self.chance.below(len(self.field.modules))))

    def settle(self) -> None:
        """Lay windows anew where there is too much of a size, until there isn't or nothing comes of it."""
        best, since = self.off(), 0
        while best and since < _PATIENCE and self.windows > 0:
            self._try(self._window_of_too_many(_WINDOW if since < _AFTER else _LARGER))
            since += 1
            if self.off() < best:
                best, since = self.off(), 0

    def _try(self, window: Window) -> None:
        """Lay a window anew, unless the numbers get worse by it."""
        self.windows -= 1
        off = self.off()
        change = laid_anew(self.field, window, self.wants(), self.chance)
        if change is not None and self.off() > off:
            put_back(self.field, change)

    def _window_of_too_many(self, sides: tuple[int, int]) -> Window:
        """A window round a slab of a size there are too many of, from there to the nearest other if none are wanted."""
        field, numbers, chance = self.field, self.mix.numbers, self.chance
        kind = chance.one_of([k for k, wanted in enumerate(numbers) if field.numbers[k] > wanted])
        slab = chance.one_of(field.by_kind[kind])
        module = field.slabs[slab][0]
        if numbers[kind] or field.numbers[kind] < 2 or chance.draw() < _ASTRAY:
            return self._window(module, sides)
        others = [field.slabs[n][0] for n in field.by_kind[kind] if n != slab]
        column, row = field.place(module)
        places = [field.place(other) for other in others]
        return self._window_towards(
            module,
            min(zip(places, others, strict=True), key=lambda p: max(abs(p[0][0] - column), abs(p[0][1] - row)))[1],
        )


def _laid(field: Field, left: int) -> Mixed:
    slabs = sorted((*field.place(module)[::-1], length, width) for module, length, width in field.slabs.values())
    return Mixed(tuple((x, y, along, up) for y, x, along, up in slabs), tuple(field.numbers), left)
