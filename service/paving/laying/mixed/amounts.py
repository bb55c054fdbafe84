"""Amounts: how many slabs of each size a mix takes, by shares of the area or by what a pack holds.

A laying without crossed joints can't hold any number of small slabs. Counting corners: on
m by n modules with F slabs there are T-junctions only, 2F − 2 of them, and each is a corner
of the module grid that no slab covers, so for slabs of l by w modules

    sum of (l + w − 3)  >=  −(m + n − 1)

to which a single module alone counts −1, and anything larger than two nought or more.

References
----------
Geometry (Euler's formula for a plan without crossings)
"""

import heapq
from collections.abc import Sequence
from dataclasses import dataclass
from math import gcd

from service.paving.laying.mixed.fields import Size


@dataclass(frozen=True)
class Amounts:
    """Slabs to lay, and the packs they come from.

    Parameters
    ----------
    numbers : tuple of int
        Slabs of each size.
    packs : int or None
        Whole packs, if packs were given.
    """

    numbers: tuple[int, ...]
    packs: int | None = None


def by_shares(modules: int, sizes: Sequence[Size], shares: Sequence[float]) -> Amounts | None:
    """The numbers nearest to shares of the area that cover exactly so many modules; none if none do.

    Examples
    --------
    >>> by_shares(100, [(3, 2), (2, 2), (1, 1)], [0.5, 0.4, 0.1])
    Amounts(numbers=(8, 10, 12), packs=None)
    """
    faces = [length * width for length, width in sizes]
    wanted = [share * modules / face for share, face in zip(shares, faces, strict=True)]
    numbers = _nearest(modules, faces, wanted, [modules if share > 0 else 0 for share in shares])
    return None if numbers is None else Amounts(numbers)


def by_packs(modules: int, sizes: Sequence[Size], pack: Sequence[int]) -> Amounts | None:
    """Numbers that fewest whole packs give; none if packs never come out.

    Examples
    --------
    >>> by_packs(100, [(3, 2), (2, 2), (2, 1), (1, 1)], [4, 4, 4, 2])
    Amounts(numbers=(8, 8, 8, 4), packs=2)
    """
    faces = [length * width for length, width in sizes]
    face = sum(n * face for n, face in zip(pack, faces, strict=True))
    least = -(-modules // face)
    wanted = [n * modules / face for n in pack]
    for packs in range(least, least + 3):
        numbers = _nearest(modules, faces, wanted, [packs * n for n in pack])
        if numbers is not None:
            return Amounts(numbers, packs)
    return None


def packs_for(numbers: Sequence[int], pack: Sequence[int]) -> tuple[int, tuple[int, ...]]:
    """Whole packs that hold so many of each size, and what is left over.

    Examples
    --------
    >>> packs_for([7, 3], [4, 4])
    (2, (1, 5))
    """
    packs = max((-(-n // held) for n, held in zip(numbers, pack, strict=True) if held), default=0)
    return packs, tuple(packs * held - n for n, held in zip(numbers, pack, strict=True))


def single_modules_too_many(columns: int, rows: int, sizes: Sequence[Size], numbers: Sequence[int]) -> int:
    """By how many single modules a mix breaks the bound on a full rectangle; 0 if it doesn't.

    Examples
    --------
    >>> single_modules_too_many(4, 4, [(2, 1), (1, 1)], [4, 8])
    1
    """
    corners = sum(n * (length + width - 3) for n, (length, width) in zip(numbers, sizes, strict=True))
    return max(-(columns + rows - 1) - corners, 0)


def divisor(sizes: Sequence[Size]) -> int:
    """What the modules under any number of slabs are a multiple of."""
    return gcd(*(length * width for length, width in sizes))


def _nearest(
    modules: int, faces: Sequence[int], wanted: Sequence[float], most: Sequence[int]
) -> tuple[int, ...] | None:
    """Numbers that cover so many modules, near to those wanted and not above the most there are."""
    start = tuple(min(round(n), top) for n, top in zip(wanted, most, strict=True))
    rest = modules - sum(n * face for n, face in zip(start, faces, strict=True))
    waiting: list[tuple[float, int, tuple[int, ...]]] = [(0.0, rest, start)]
    seen: set[int] = set()
    while waiting:
        _, rest, numbers = heapq.heappop(waiting)
        if rest == 0:
            return numbers
        if rest in seen:
            continue
        seen.add(rest)
        for k, face in enumerate(faces):
            n = numbers[k] + (1 if rest > 0 else -1)
            after = rest - (face if rest > 0 else -face)
            if 0 <= n <= most[k] and abs(after) <= abs(rest) + max(faces):
                changed = (*numbers[:k], n, *numbers[k + 1 :])
                off = sum(abs(a - b) * f for a, b, f in zip(changed, wanted, faces, strict=True))
                heapq.heappush(waiting, (off, after, changed))
    return None
