"""Lines: rows of slabs of random length between two ends.

Places along a line are counted in steps of the greatest length that all slabs with their
joints are multiples of, and kept as the bits of one whole number. The places from which
the end can be reached are found backwards from the end, so a walk that stays on them
never gets stuck:

    start |-----+--------+-----+-----| end
          0     4        9     12    15      bits of `reach`
"""

from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import gcd

import numpy as np

Span = tuple[int, int]


@dataclass(frozen=True)
class Line:
    """A row to be filled.

    Parameters
    ----------
    pitches : tuple of int
        Slabs with their joints [µm], no two alike.
    step : int
        What all pitches are multiples of [µm].
    start : int
        Where the row starts [µm].
    ends : Span
        Least and greatest place at which it may end, joint included [µm].
    """

    pitches: tuple[int, ...]
    step: int
    start: int
    ends: Span

    @property
    def strides(self) -> tuple[int, ...]:
        """Pitches in steps."""
        return tuple(pitch // self.step for pitch in self.pitches)

    def bits(self, low: int, high: int) -> int:
        """Places from `low` to `high` [µm], both included, as bits."""
        first = max(-((self.start - low) // self.step), 0)
        last = (high - self.start) // self.step
        return (1 << last + 1) - (1 << first) if last >= first else 0

    @property
    def end_bits(self) -> int:
        return self.bits(*self.ends)

    def reach(self, barred: int) -> int:
        """Places from which the end can be reached without a joint at a barred one.

        Examples
        --------
        >>> bin(Line((2, 3), 1, 0, (5, 5)).reach(0b00100))  # by way of 3, not of 2
        '0b101011'
        """
        found = fresh = self.end_bits
        while fresh:
            back = 0
            for stride in self.strides:
                back |= fresh >> stride
            fresh = back & ~barred & ~found
            found |= fresh
        return found

    def barred(self, perpends: Sequence[int], stagger: int) -> int:
        """Places nearer than the stagger to some perpends [µm]."""
        found = 0
        for perpend in perpends:
            found |= self.bits(perpend - stagger + 1, perpend + stagger - 1)
        return found


#: How much a slab of each pitch is wanted next, in any measure.
Wants = Callable[[], Sequence[float]]


def walk(line: Line, reach: int, wants: Wants, rng: np.random.Generator) -> Iterator[int]:
    """Numbers of the pitches laid from the start to an end, drawn at random by how much each is wanted.

    Parameters
    ----------
    line : Line
        What is filled.
    reach : int
        Where joints may lie, as `line.reach` finds them; the start must be one of them.
    wants : Wants
        Asked anew before each slab; every want is above 0.
    rng : Generator
        Where chance comes from.
    """
    place, ends, strides = 0, line.end_bits, line.strides
    while not ends >> place & 1:
        wanted = wants()
        open_to = [k for k, stride in enumerate(strides) if reach >> place + stride & 1]
        upto = list(accumulate(wanted[k] for k in open_to))
        # Chance is below 1, so what is drawn lies below the last.
        chosen = open_to[bisect_right(upto, rng.random() * upto[-1])]
        place += strides[chosen]
        yield chosen


def nearest_ends(line: Line, wanted: int, within: int) -> tuple[int | None, int | None]:
    """Places where a row can end, the last up to the one wanted and the first after it [µm].

    Examples
    --------
    >>> nearest_ends(Line((400, 600), 200, 0, (0, 0)), 500, 500)
    (400, 600)
    """
    reached, fresh, top = 1, 1, (wanted + within - line.start) // line.step
    mask = (1 << top + 1) - 1
    while fresh:
        ahead = 0
        for stride in line.strides:
            ahead |= fresh << stride
        fresh = ahead & mask & ~reached
        reached |= fresh
    reached &= ~1
    place = (wanted - line.start) // line.step
    below, above = reached & (1 << place + 1) - 1, reached >> place + 1
    low = line.start + (below.bit_length() - 1) * line.step if below else None
    high = line.start + (place + (above & -above).bit_length()) * line.step if above else None
    return low, high


def nearest_lengths(pitches: Sequence[Sequence[int]], wanted: int) -> list[int]:
    """Lengths that rows of every set of pitches can have: the last up to the one wanted, and the first after.

    Parameters
    ----------
    pitches : sequence of sequence of int
        Slabs with their joints, by set [µm].
    wanted : int
        Length wanted, joint included [µm].

    Examples
    --------
    >>> nearest_lengths([[400, 600], [500]], 1300)
    [1000, 2000]
    """
    step = gcd(*(pitch for each in pitches for pitch in each))
    top = 2 * (wanted // step) + max(max(each) for each in pitches) // step
    mask, reached = (1 << top + 1) - 1, (1 << top + 1) - 1
    for each in pitches:
        had = fresh = 1
        while fresh:
            ahead = 0
            for pitch in each:
                ahead |= fresh << pitch // step
            fresh = ahead & mask & ~had
            had |= fresh
        reached &= had
    reached &= ~1
    place = wanted // step
    below, above = reached & (1 << place + 1) - 1, reached >> place + 1
    found = [(below.bit_length() - 1) * step] if below else []
    return [*found, (place + (above & -above).bit_length()) * step] if above else found
