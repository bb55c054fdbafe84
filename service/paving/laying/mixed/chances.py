"""Chance that follows from a number: the same number, the same laying."""

from collections.abc import Sequence
from typing import TypeVar

import numpy as np

Thing = TypeVar("Thing")
#: Draws made at once, because one at a time costs more than what is done with it.
_BATCH = 4096


class Chance:
    """Draws from 0 to 1, below 1.

    Parameters
    ----------
    seed : int
        Number they follow from, 0 or more.
    """

    def __init__(self, seed: int) -> None:
        self._source = np.random.default_rng(seed)
        self._drawn: list[float] = []

    def draw(self) -> float:
        """The next draw."""
        if not self._drawn:
            self._drawn = self._source.random(_BATCH).tolist()
        return self._drawn.pop()

    def below(self, number: int) -> int:
        """A whole number from 0, below the one given.

        Examples
        --------
        >>> {Chance(3).below(4) for _ in range(9)} == {Chance(3).below(4)}
        True
        """
        return int(self.draw() * number)

    def one_of(self, things: Sequence[Thing]) -> Thing:
        """One of a few things."""
        return things[self.below(len(things))]
