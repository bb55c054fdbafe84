"""Searches: pieces dealt to as few slabs as can be found in a stated number of tries.

First fit, largest piece first; then again and again a few slabs are emptied and their
pieces dealt anew, keeping what is no worse. Nothing depends on the clock: the tries are
counted and the shuffling is seeded, so the same pieces always come to the same slabs.
"""

from collections.abc import Iterable, Sequence
from typing import Protocol, TypeVar

import numpy as np

from service.paving.laying.arrays import Real

#: Any fixed number does.
SEED = 20


class Filled(Protocol):
    """A slab with pieces dealt to it."""

    @property
    def area(self) -> float:
        """Area of its pieces [µm2]."""

    @property
    def members(self) -> tuple[int, ...]:
        """Its pieces."""


Slab = TypeVar("Slab", bound=Filled)


class Cutter(Protocol[Slab]):
    """A way to cut pieces from slabs."""

    @property
    def areas(self) -> Sequence[float]:
        """Area of each piece [µm2]."""

    def deal(self, piece: int, slabs: list[Slab]) -> None:
        """Cut the piece from the first slab with room for it, or from a new one."""


def dealt(cutter: Cutter[Slab], pieces: Iterable[int], slabs: list[Slab]) -> list[Slab]:
    """The slabs after more pieces are dealt to them in turn."""
    for piece in pieces:
        cutter.deal(piece, slabs)
    return slabs


def largest_first(cutter: Cutter[Slab]) -> list[int]:
    """All pieces, the largest first."""
    return sorted(range(len(cutter.areas)), key=cutter.areas.__getitem__, reverse=True)


def fewest(cutter: Cutter[Slab], slabs: list[Slab], tries: int, enough: int) -> list[Slab]:
    """The fewest slabs found in so many tries, stopping at a number known to be least."""
    chance = np.random.default_rng(SEED)
    areas = np.array(cutter.areas)
    for _ in range(tries):
        if len(slabs) <= enough:
            break
        anew = _dealt_anew(cutter, slabs, areas, chance)
        if _aim(anew) <= _aim(slabs):
            slabs = anew
    return slabs


def _aim(slabs: list[Slab]) -> tuple[int, float]:
    """Few slabs; then full ones, so that the rest run empty."""
    return len(slabs), -sum(slab.area**2 for slab in slabs)


def _dealt_anew(cutter: Cutter[Slab], slabs: list[Slab], areas: Real, chance: np.random.Generator) -> list[Slab]:
    """Empty two to six slabs, rather the less filled, and deal their pieces anew."""
    draw = chance.random(len(slabs) + 2)
    order = np.argsort(np.array([slab.area for slab in slabs]) * draw[2:]).tolist()
    number = 2 + int(draw[0] * 5)
    pieces = np.array([piece for k in order[:number] for piece in slabs[k].members])
    stay = order[number:] if draw[1] < 0.5 else sorted(order[number:])
    keys = areas[pieces] * chance.uniform(0.8, 1.25, pieces.size)
    return dealt(cutter, pieces[np.argsort(-keys)].tolist(), [slabs[k] for k in stay])
