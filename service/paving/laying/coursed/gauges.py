"""Gauges: the widths slabs are sold in, and the courses of an area by gauge."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from functools import cached_property
from math import gcd

import numpy as np

from service.paving.laying.coursed.courses import Row
from service.paving.laying.coursed.lines import Line, walk
from service.paving.laying.coursed.tallies import Tally
from service.paving.laying.sites import Band, Site


class Ends(Enum):
    """Whether the last slab of a course may be cut."""

    whole = "whole"
    cut = "cut"


@dataclass(frozen=True)
class Gauge:
    """Slabs of one width.

    Parameters
    ----------
    width : int
        Their width [µm].
    slabs : tuple of int
        Which of the sizes they are, shortest first.
    lengths : tuple of int
        Their lengths [µm].
    shares : tuple of float
        Share of each in their number.
    rank : float
        Share of courses of this gauge.
    """

    width: int
    slabs: tuple[int, ...]
    lengths: tuple[int, ...]
    shares: tuple[float, ...]
    rank: float


def gauges(sizes: Sequence[tuple[int, int]], shares: Sequence[float]) -> tuple[Gauge, ...]:
    """Sizes (length, width) [µm] by width, with their shares of the area turned into shares of number.

    Examples
    --------
    >>> [g.slabs for g in gauges([(600, 300), (450, 200), (450, 300)], [0.4, 0.2, 0.4])]
    [(1,), (2, 0)]
    """
    found = []
    for width in sorted({width for (_, width), share in zip(sizes, shares, strict=True) if share > 0}):
        slabs = tuple(
            sorted((k for k, size in enumerate(sizes) if size[1] == width and shares[k] > 0), key=lambda k: sizes[k][0])
        )
        lengths = tuple(sizes[k][0] for k in slabs)
        numbers = [shares[k] / length for k, length in zip(slabs, lengths, strict=True)]
        rank = sum(shares[k] for k in slabs) / width
        found.append(Gauge(width, slabs, lengths, tuple(n / sum(numbers) for n in numbers), rank))
    whole = sum(g.rank for g in found)
    return tuple(Gauge(g.width, g.slabs, g.lengths, g.shares, g.rank / whole) for g in found)


@dataclass(frozen=True)
class Setting:
    """What the courses of an area depend on.

    Parameters
    ----------
    site : Site
        The area.
    gauges : tuple of Gauge
        What they are laid in.
    joint : int
        Width of the joints [µm].
    strip : int
        Width that is neither sawn nor laid [µm].
    """

    site: Site
    gauges: tuple[Gauge, ...]
    joint: int
    strip: int

    @cached_property
    def step(self) -> int:
        """What all lengths with their joints are multiples of [µm]."""
        return gcd(*(length + self.joint for gauge in self.gauges for length in gauge.lengths))

    def whole_ends(self, end: int) -> tuple[int, int]:
        """Where a row may end, joint included, so that nothing is sawn at an end [µm]."""
        return end - self.strip, end + self.joint + self.strip

    def upright(self, seed: int) -> tuple[list[int], bool]:
        """Gauges of the courses from below, and whether they end at the top without a cut."""
        _, low, _, high = self.site.bounds
        pitches = tuple(gauge.width + self.joint for gauge in self.gauges)
        line = Line(pitches, gcd(*pitches), low, self.whole_ends(high))
        whole = bool(line.reach(0) & 1)
        barred = 0
        if not whole:
            line = Line(pitches, gcd(*pitches), low, (high - self.strip, high + max(pitches)))
            sliver = line.bits(high - min(pitches) // 3, high - self.strip - 1)
            barred = sliver if line.reach(sliver) & 1 else 0
        tally = Tally([gauge.rank for gauge in self.gauges])
        found = []
        for k in walk(line, line.reach(barred), tally.wants, np.random.default_rng(seed)):
            tally.add((k,))
            found.append(k)
        return found, whole

    @property
    def ends_whole(self) -> bool:
        """Whether courses end at the top, and whole slabs at the end of each course."""
        order, level = self.upright(0)
        rows = [row for _, row in self.rows(order, Ends.whole) if row]
        return (
            level
            and all(row.line.ends == self.whole_ends(row.line.ends[0] + self.strip) for row in rows)
            and all(row.line.reach(0) & 1 for row in set(rows))
        )

    def rows(self, order: Sequence[int], ends: Ends) -> list[tuple[int, Row | None]]:
        """Lower edge [µm] and row of every course; no row where there is nothing to pave."""
        found: list[tuple[int, Row | None]] = []
        y = self.site.bounds[1]
        for k in order:
            top = y + self.gauges[k].width
            band = self.site.band(y + self.strip, top - self.strip)
            found.append((y, None if band is None else self.row(k, band, ends)))
            y = top + self.joint
        return found

    def row(self, k: int, band: Band, ends: Ends) -> Row:
        """A course across a band; whole at its ends if it may be and the band is upright."""
        pitches = tuple(length + self.joint for length in self.gauges[k].lengths)
        if band.upright and ends is Ends.whole:
            return Row(Line(pitches, self.step, band.left, self.whole_ends(band.right)), k)
        left, _, right, _ = (band.left, 0, band.right, 0) if band.upright else self.site.bounds
        line = Line(pitches, self.step, left, (right - self.strip, right + max(pitches)))
        edge = (right - min(pitches) // 3, right - self.strip - 1)
        return Row(line, k, edge if line.reach(line.bits(*edge)) & 1 else (0, -1))
