"""Coursed random laying of an area, and why it can't be laid if it can't."""

from collections.abc import Sequence
from dataclasses import dataclass

from service.paving.errors import OutOfRange
from service.paving.laying.coursed.courses import MOST_STATES, DeadEnd, Row, courses
from service.paving.laying.coursed.gauges import Ends, Setting
from service.paving.laying.coursed.lines import nearest_ends
from service.paving.laying.coursed.pairs import pair
from service.paving.laying.placed import Placed


@dataclass(frozen=True)
class Coursed:
    """Courses laid.

    Parameters
    ----------
    slabs : tuple of Placed
        Every slab, and the places where there is nothing to lay.
    notes : tuple of str
        What was decided on the way.
    """

    slabs: tuple[Placed, ...]
    notes: tuple[str, ...]


def coursed(setting: Setting, stagger: int, seed: int) -> Coursed:
    """Lay courses over an area: without a cut if that can be, otherwise cut at the ends.

    Raises
    ------
    OutOfRange
        If no laying keeps the stagger, or nothing of the area is laid.
    """
    order, level = setting.upright(seed)
    notes = [] if level else [_height_note(setting)]
    try:
        rows = setting.rows(order, Ends.whole)
        return Coursed(_placed(setting, order, rows, _courses(setting, rows, stagger, seed)), tuple(notes))
    except DeadEnd as end:
        notes.append(_width_note(setting, end, stagger))
    try:
        rows = setting.rows(order, Ends.cut)
        return Coursed(_placed(setting, order, rows, _courses(setting, rows, stagger, seed)), tuple(notes))
    except DeadEnd as end:
        raise OutOfRange(_impossible(setting, end, stagger), "stagger") from end


def _courses(
    setting: Setting, rows: Sequence[tuple[int, Row | None]], stagger: int, seed: int
) -> list[list[int] | None]:
    laid = iter(courses([row for _, row in rows if row], [gauge.shares for gauge in setting.gauges], stagger, seed))
    return [next(laid) if row else None for _, row in rows]


def _placed(
    setting: Setting,
    order: Sequence[int],
    rows: Sequence[tuple[int, Row | None]],
    laid: Sequence[list[int] | None],
) -> tuple[Placed, ...]:
    """All slabs, with empty places at both ends of a course that is shorter than others."""
    joint = setting.joint
    found: list[Placed] = []
    for k, (y, row), slabs in zip(order, rows, laid, strict=True):
        gauge = setting.gauges[k]
        if row is None or slabs is None:
            continue
        x = row.line.start
        for n in slabs:
            length = gauge.lengths[n]
            found.append(Placed(gauge.slabs[n], x, y, length, gauge.width, length + joint, gauge.width + joint))
            x += length + joint
    if not found:
        raise OutOfRange(f"The area is no wider than {_mm(setting.strip)}: nothing is laid.", "area")
    return (*found, *_gaps(setting, order, rows, found))


def _gaps(
    setting: Setting, order: Sequence[int], rows: Sequence[tuple[int, Row | None]], found: Sequence[Placed]
) -> list[Placed]:
    left = min(setting.site.bounds[0], *(p.x for p in found))
    right = max(setting.site.bounds[2] + setting.joint, *(p.x + p.reach_x for p in found))
    spans: dict[int, list[Placed]] = {}
    for p in found:
        spans.setdefault(p.y, []).append(p)
    empty = []
    for k, (y, _) in zip(order, rows, strict=True):
        width = setting.gauges[k].width
        here = spans.get(y)
        ends = [(left, right)] if here is None else [(left, here[0].x), (here[-1].x + here[-1].reach_x, right)]
        empty += [Placed(None, a, y, b - a, width, b - a, width + setting.joint) for a, b in ends if b > a]
    return empty


def _height_note(setting: Setting) -> str:
    return f"Courses of {_widths(setting)} don't end at the top, so the last one is cut along."


def _widths(setting: Setting) -> str:
    return " and ".join(_mm(gauge.width) for gauge in setting.gauges)


def _width_note(setting: Setting, end: DeadEnd, stagger: int) -> str:
    """Why courses are cut at their ends."""
    line = end.row.line
    if end.below is None:
        low, high = (line.ends[0] + setting.strip, line.ends[1])
        below, above = nearest_ends(line, low, max(line.pitches))
        near = " or ".join(_mm(n - setting.joint - line.start) for n in (below, above) if n is not None)
        return (
            f"No whole slabs end a course of {_mm(low - line.start)}; without cuts it would be {near}." if high else ""
        )
    how = "no two courses" if end.proved else "no courses found"
    return f"Without cuts {how} keep a stagger of {_mm(stagger)}, so courses are cut at their ends."


def _impossible(setting: Setting, end: DeadEnd, stagger: int) -> str:
    row, below = end.row, end.below or end.row
    lengths = " and ".join(_mm(length) for length in setting.gauges[row.gauge].lengths)
    what = f"Courses of {lengths} can't keep a stagger of {_mm(stagger)}"
    if len(row.line.pitches) == 1 and row.line.pitches == below.line.pitches:
        return f"{what}: with one length all perpends are in line. Add a second length, or lay stretcher bond."
    proof = "no course can lie on another" if end.proved else "none were found"
    most = _widest_stagger(row, below, stagger)
    # What is proved of two courses holds for all; courses of several kinds may need less than any two.
    try_less = f"At most {_mm(most)} can be kept." if end.proved else f"Ask for {_mm(most)} or less."
    mend = try_less if most else "Add a length."
    return f"{what}: {proof}. {mend}"


def _widest_stagger(row: Row, below: Row, stagger: int) -> int:
    """The greatest stagger two courses can keep, below the one wanted [µm]."""
    step = row.line.step
    low, high = 0, -(-stagger // step)
    while high - low > 1:
        middle = (low + high) // 2
        kept = pair(below.line, row.line, row.barred, middle * step, MOST_STATES).courses
        low, high = (middle, high) if kept else (low, middle)
    return low * step


def _mm(micrometres: int) -> str:
    return f"{micrometres / 1000:g} mm"
