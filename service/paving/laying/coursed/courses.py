"""Courses: rows of one gauge laid on one another, no perpend in line with the row before."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

import numpy as np

from service.paving.laying.coursed.lines import Line, walk
from service.paving.laying.coursed.pairs import pair
from service.paving.laying.coursed.tallies import Tally

#: Dead ends met before courses are laid by turns, to a course.
_DEAD_ENDS = 10
#: Dead ends at one course before one more course is taken up with it.
_PATIENCE = 4
#: States of two courses looked at before the search for them gives up.
MOST_STATES = 60_000


@dataclass(frozen=True)
class Row:
    """Where a course is to lie and what it may be made of.

    Parameters
    ----------
    line : Line
        Where it runs and the slabs with their joints.
    gauge : int
        Which gauge it is of.
    edge : Span
        Where no perpend may lie, next to a cut end [µm]; empty if the first is above the second.
    """

    line: Line
    gauge: int
    edge: tuple[int, int] = (0, -1)

    @property
    def barred(self) -> int:
        return self.line.bits(*self.edge)

    def perpends(self, slabs: Sequence[int]) -> list[int]:
        """Where the perpends of a course lie [µm]."""
        return list(accumulate((self.line.pitches[k] for k in slabs[:-1]), initial=self.line.start))[1:]


@dataclass(frozen=True)
class DeadEnd(Exception):
    """Courses that can't be laid.

    Parameters
    ----------
    row : Row
        Where it stopped.
    below : Row or None
        The course before, if that is why.
    proved : bool
        Whether no laying at all exists.
    """

    row: Row
    below: Row | None
    proved: bool


def courses(rows: Sequence[Row], shares: Sequence[Sequence[float]], stagger: int, seed: int) -> list[list[int]]:
    """Slabs of each course from left to right, as numbers of the pitches of its line.

    Parameters
    ----------
    rows : sequence of Row
        The courses from below.
    shares : sequence of sequence of float
        Share of the number of slabs by gauge and pitch.
    stagger : int
        Least distance between perpends of a course and the next [µm], not above any pitch.
    seed : int
        Number that chance follows from.

    Raises
    ------
    DeadEnd
        If none are found; `proved` says whether there are none.
    """
    found = _drawn(rows, [Tally(share) for share in shares], stagger, np.random.default_rng(seed))
    return by_turns(rows, stagger) if found is None else found


def _drawn(rows: Sequence[Row], tallies: list[Tally], stagger: int, rng: np.random.Generator) -> list[list[int]] | None:
    """Course after course; at a dead end the course before is laid anew, at the next one more than that."""
    laid: list[list[int]] = []
    stuck = [0] * len(rows)
    while len(laid) < len(rows):
        row, tally = rows[len(laid)], tallies[rows[len(laid)].gauge]
        perpends = rows[len(laid) - 1].perpends(laid[-1]) if laid else []
        reach = row.line.reach(row.barred | row.line.barred(perpends, stagger))
        if reach & 1:
            laid.append(_walked(row, reach, tally, rng))
            continue
        stuck[len(laid)] += 1
        if not laid or sum(stuck) > _DEAD_ENDS * len(rows):
            return None
        for _ in range(min(1 + stuck[len(laid)] // _PATIENCE, len(laid))):
            tallies[rows[len(laid) - 1].gauge].drop(laid.pop())
    return laid


def _walked(row: Row, reach: int, tally: Tally, rng: np.random.Generator) -> list[int]:
    slabs: list[int] = []
    for k in walk(row.line, reach, tally.wants, rng):
        tally.add((k,))
        slabs.append(k)
    return slabs


def by_turns(rows: Sequence[Row], stagger: int) -> list[list[int]]:
    """Two courses that suit each other by turns.

    Raises
    ------
    DeadEnd
        If there are no two, or courses of several kinds are asked for.
    """
    for row in rows:
        if not row.line.reach(row.barred) & 1:
            raise DeadEnd(row, None, proved=True)
    for below, row in _kinds_of_neighbours(rows):
        verdict = pair(below.line, row.line, row.barred, stagger, MOST_STATES)
        if verdict.courses is None:
            raise DeadEnd(row, below, proved=verdict.decided)
    if len(set(rows)) > 1:
        raise DeadEnd(rows[-1], rows[-2], proved=False)
    turns = pair(rows[0].line, rows[0].line, rows[0].barred, stagger, MOST_STATES).courses
    return [list((turns or ([], []))[k % 2]) for k in range(len(rows))]


def _kinds_of_neighbours(rows: Sequence[Row]) -> Iterator[tuple[Row, Row]]:
    """Neighbours between the same ends, each kind of them once."""
    for below, row in dict.fromkeys(pairwise(rows)):
        if (below.line.start, below.line.ends) == (row.line.start, row.line.ends):
            yield below, row
