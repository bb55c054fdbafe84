"""Patches: repeats without crossed joints or long straight ones, prepared beforehand.

`patches.csv` is written by `python -m tests.offline.mixed_patches`, which says how. Each is
so many modules long and wide, and its edges meet when it is laid beside itself.

So that it can't be seen to repeat, its middle can be laid in several ways, each with the same slabs in other
places; `middles.csv` is written by `python -m tests.offline.mixed_middles`. All but the frame, the few slabs
that lie across two lines, is the middle, and any middle may lie beside any other:

    =|====|====|=      |  =   lines, a period apart
     | a  | c  |       a b c  middles
    =|====|==#=|=      #      frame, a slab across a line
     | b  # a  |
    =|====|====|=
"""

import csv
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from importlib.resources import files

from service.paving.laying.mixed.fields import Size

#: Slab of a patch: column, row, length, width.
Stone = tuple[int, int, int, int]


@dataclass(frozen=True)
class Patch:
    """One repeat.

    Parameters
    ----------
    mix : str
        What the mix is called in the file.
    limit : int
        Longest straight joint in it [modules].
    period : int
        Modules along each side.
    stones : tuple of Stone
        Its slabs; those over the right or top edge go on at the left or bottom.
    lines : (int, int)
        Column and row of the lines.
    others : tuple of tuple of Stone
        Other middles than its own, places counted from the lines.
    """

    mix: str
    limit: int
    period: int
    stones: tuple[Stone, ...]
    lines: tuple[int, int] = (0, 0)
    others: tuple[tuple[Stone, ...], ...] = ()

    @cached_property
    def frame(self) -> tuple[Stone, ...]:
        """Slabs across the lines."""
        return tuple(stone for stone in self._from_lines if not self._between(stone))

    @cached_property
    def middles(self) -> tuple[tuple[Stone, ...], ...]:
        """Ways to lay what is between the lines; places are counted from there."""
        return (tuple(filter(self._between, self._from_lines)), *self.others)

    @property
    def _from_lines(self) -> list[Stone]:
        """Its slabs, places counted from the lines."""
        (left, low), period = self.lines, self.period
        return [((x - left) % period, (y - low) % period, length, width) for x, y, length, width in self.stones]

    def _between(self, stone: Stone) -> bool:
        x, y, length, width = stone
        return x + length <= self.period and y + width <= self.period

    @cached_property
    def numbers(self) -> Mapping[Size, int]:
        """Slabs by size, the greater side first."""
        return Counter((max(length, width), min(length, width)) for _, _, length, width in self.stones)

    @cached_property
    def shares(self) -> Mapping[Size, float]:
        """Share of the area by size."""
        return {size: n * size[0] * size[1] / self.period**2 for size, n in self.numbers.items()}


@cache
def patches() -> tuple[Patch, ...]:
    """All patches there are."""
    middles: dict[tuple[str, str], list[Mapping[str, str]]] = defaultdict(list)
    for row in _rows("middles.csv"):
        middles[row["mix"], row["run_limit"]].append(row)
    return tuple(_read(row, middles[row["mix"], row["run_limit"]]) for row in _rows("patches.csv"))


def _rows(name: str) -> Iterator[Mapping[str, str]]:
    return csv.DictReader(files(__package__).joinpath(name).read_text("utf-8").splitlines())


def _read(row: Mapping[str, str], middles: Sequence[Mapping[str, str]]) -> Patch:
    lines = (int(middles[0]["x"]), int(middles[0]["y"])) if middles else (0, 0)
    others = tuple(_stones(middle["slabs"]) for middle in middles)
    return Patch(row["mix"], int(row["run_limit"]), int(row["period"]), _stones(row["slabs"]), lines, others)


def _stones(text: str) -> tuple[Stone, ...]:
    return tuple(_stone(signs) for signs in text.split())


def _stone(signs: str) -> Stone:
    x, y, length, width = (int(sign, 36) for sign in signs)
    return x, y, length, width


def nearest_patches(shares: Mapping[Size, float], limit: int) -> list[Patch]:
    """Patches by how much of their area would have to change, the least first; with long enough joints before others.

    Examples
    --------
    >>> nearest_patches({(3, 2): 0.5, (2, 2): 0.25, (2, 1): 0.25}, 6)[0].mix
    '50-25-25-0'
    """

    def apart(patch: Patch) -> tuple[bool, float, int]:
        sizes = patch.shares.keys() | shares.keys()
        change = sum(abs(patch.shares.get(size, 0.0) - shares.get(size, 0.0)) for size in sizes)
        return max(patch.limit - limit, 0) > 0, round(change, 3), abs(patch.limit - limit)

    return sorted(patches(), key=apart)
