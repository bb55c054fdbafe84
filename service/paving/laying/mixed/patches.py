"""Patches: repeats without crossed joints or long straight ones, prepared beforehand.

`patches.csv` is written by `python -m tests.offline.mixed_patches`, which says how. Each is
so many modules long and wide, and its edges meet when it is laid beside itself.
"""

import csv
from collections import Counter
from collections.abc import Mapping
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
    """

    mix: str
    limit: int
    period: int
    stones: tuple[Stone, ...]

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
    text = files(__package__).joinpath("patches.csv").read_text("utf-8")
    return tuple(_read(row) for row in csv.DictReader(text.splitlines()))


def _read(row: Mapping[str, str]) -> Patch:
    stones = tuple(_stone(signs) for signs in row["slabs"].split())
    return Patch(row["mix"], int(row["run_limit"]), int(row["period"]), stones)


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
