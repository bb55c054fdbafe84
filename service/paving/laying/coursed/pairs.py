"""Pairs: whether two courses can lie on one another, decided completely.

Stagger only binds a course to its neighbours, so wherever two courses suit each other,
laying them by turns fills any height; and if no two do, nothing can. Both courses are
laid at once, always the one that lags:

    ---+-----+        laid to q
    -----+            laid to p, p <= q: next

A new perpend needs comparing with q alone, as long as no slab is shorter than the stagger.
"""

from dataclasses import dataclass

from service.paving.laying.coursed.lines import Line

State = tuple[int, int]


@dataclass(frozen=True)
class Verdict:
    """What the search for two courses came to.

    Parameters
    ----------
    courses : tuple of list of int, or None
        Numbers of the pitches of both courses, if there are any.
    decided : bool
        False if the search was stopped, so that nothing is proved.
    """

    courses: tuple[list[int], list[int]] | None
    decided: bool


def pair(lower: Line, upper: Line, barred: int, stagger: int, most: int) -> Verdict:
    """Two courses that may lie on one another, on lines of the same step, start and ends.

    Parameters
    ----------
    lower, upper : Line
        The courses' lines.
    barred : int
        Places where neither may have a perpend, as bits of the lines.
    stagger : int
        Least distance between perpends of the two [µm], not above any pitch.
    most : int
        States after which the search gives up.

    Examples
    --------
    >>> row = Line((2, 3), 1, 0, (5, 5))
    >>> pair(row, row, 0, 1, 100).courses
    ([1, 0], [0, 1])
    >>> pair(row, row, 0, 2, 100)
    Verdict(courses=None, decided=True)
    """
    apart = -(-stagger // lower.step)
    ends, reaches = lower.end_bits, (lower.reach(barred), upper.reach(barred))
    came: dict[State, tuple[State, int] | None] = {(0, 0): None}
    waiting: list[State] = [(0, 0)] if all(reach & 1 for reach in reaches) else []
    while waiting and len(came) < most:
        state = waiting.pop()
        if ends >> state[0] & 1 and ends >> state[1] & 1:
            return Verdict(_retraced(came, state), decided=True)
        side = _lagging(state, ends)
        for k, stride in enumerate((lower, upper)[side].strides):
            place, other = state[side] + stride, state[1 - side]
            if not reaches[side] >> place & 1:
                continue
            after = (place, other) if side == 0 else (other, place)
            if after not in came and _clear(place, other, ends, apart):
                came[after] = (state, k)
                waiting.append(after)
    return Verdict(None, decided=not waiting)


def _lagging(state: State, ends: int) -> int:
    """Which course is laid next: the one behind, unless it is done."""
    if ends >> state[0] & 1:
        return 1
    return 0 if ends >> state[1] & 1 or state[0] <= state[1] else 1


def _clear(place: int, other: int, ends: int, apart: int) -> bool:
    return bool(ends >> place & 1 or ends >> other & 1 or abs(place - other) >= apart)


def _retraced(came: dict[State, tuple[State, int] | None], state: State) -> tuple[list[int], list[int]]:
    laid: tuple[list[int], list[int]] = ([], [])
    while (step := came[state]) is not None:
        before, k = step
        laid[0 if state[0] != before[0] else 1].append(k)
        state = before
    laid[0].reverse()
    laid[1].reverse()
    return laid
