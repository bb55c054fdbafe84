"""Programmes drawn: a bar for each stretch of work, hatching while cement sets, a flag for each milestone."""

from collections.abc import Iterator
from datetime import date, timedelta

from service.drawings.papers import INK, Paper, line, place, svg, text
from service.paving.durations import DAY, DAYS_IN_WEEK, HOUR
from service.paving.programmes import Programme, StageTimes
from service.paving.stages import named

#: Pixels left of the bars, above them, below them for the milestones, and a row.
_LEFT, _HEAD, _FOOT, _ROW = 150.0, 64.0, 84.0, 34.0
#: Pixels to a day: no wider, no narrower, and what all of them aim at.
_WIDEST, _NARROWEST, _WIDTH = 72.0, 4.0, 900.0
#: Days up to which every stretch of work and every day is drawn; beyond, whole stages and weeks.
_FEW_DAYS = 42
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def programme_drawing(programme: Programme) -> str:
    """A programme as an SVG bar chart."""
    stages = "; ".join(f"{named(s.name)} {_hours(s.starts)} to {_hours(s.ends)}{_waited(s)}" for s in programme.stages)
    description = (
        f"Bars of {len(programme.stages)} stages, in hours from the start: {stages}. "
        f"Foot traffic after {_hours(programme.foot_traffic)}, furniture after {_hours(programme.furniture)}."
    )
    return svg(_chart(programme), "Programme of the work", description)


def _hours(moment: float) -> str:
    written = f"{moment / HOUR:.1f}".removesuffix(".0")
    return f"{written} h"


def _waited(stage: StageTimes) -> str:
    return f", then {_hours(stage.wait)} to set" if stage.wait else ""


def _chart(programme: Programme) -> Paper:
    days = int(programme.furniture // DAY) + 1
    scale = min(max(_WIDTH / days, _NARROWEST), _WIDEST)
    rows = len(programme.stages)
    bottom = _HEAD + rows * _ROW
    marks = [
        text((16, 26), "Programme", "strong"),
        text((_LEFT, 26), "solid: work; hatched: left alone to set; beside each name its working hours", "small"),
        *_days(programme, days, scale, bottom),
        *(mark for k, stage in enumerate(programme.stages) for mark in _bars(stage, _HEAD + k * _ROW, scale, days)),
        *_milestones(programme, scale, bottom),
    ]
    return Paper(max(_LEFT + days * scale + 150, 560), bottom + _FOOT, tuple(marks))


def _x(moment: float, scale: float) -> float:
    return _LEFT + moment / DAY * scale


def _days(programme: Programme, days: int, scale: float, bottom: float) -> Iterator[str]:
    """A thin line at each day's start, or each week's, with what it is called."""
    step = 1 if days <= _FEW_DAYS else DAYS_IN_WEEK
    started = programme.stages[0]
    first = started.starts_on - timedelta(days=started.starts // DAY) if started.starts_on else None
    apart = 46.0
    last = -apart
    for day in range(0, days + 1, step):
        x = _x(day * DAY, scale)
        yield line((x, _HEAD - 6), (x, bottom), "thin")
        if x - last >= apart and day < days:
            yield text((x + 2, _HEAD - 10), _called(day, first), "small")
            last = x


def _called(day: int, first: date | None) -> str:
    if first is None:
        return f"day {day + 1}"
    found = first + timedelta(days=day)
    return f"{found.day} {_MONTHS[found.month - 1]}"


def _bars(stage: StageTimes, top: float, scale: float, days: int) -> Iterator[str]:
    low, high = top + 8, top + _ROW - 8
    yield text((16, high - 4), named(stage.name))
    yield text((_LEFT - 8, high - 4), _hours(stage.work), "small", "end")
    spells = [(s.start, s.end) for s in stage.spells] if days <= _FEW_DAYS else [(stage.starts, stage.ends)]
    yield line((_x(stage.starts, scale), (low + high) / 2), (_x(stage.ends, scale), (low + high) / 2), "thin")
    for start, end in spells:
        yield _box(_x(start, scale), low, max(_x(end, scale) - _x(start, scale), 1), high - low, f'fill="{INK}"')
    if stage.wait:
        width = stage.wait / DAY * scale
        kind = f'fill="url(#earth)" stroke="{INK}" stroke-width="0.75"'
        yield _box(_x(stage.ends, scale), low + 3, width, high - low - 6, kind)


def _box(x: float, y: float, width: float, height: float, kind: str) -> str:
    return f'<rect x="{place(x)}" y="{place(y)}" width="{place(width)}" height="{place(height)}" {kind}/>'


def _milestones(programme: Programme, scale: float, bottom: float) -> Iterator[str]:
    """A line down from the bars to each milestone's name, one under the other."""
    reached = [("foot traffic", programme.foot_traffic), ("furniture", programme.furniture)]
    if programme.pointing is not None:
        reached.insert(0, ("pointing at the earliest", programme.pointing))
    for k, (name, moment) in enumerate(reached):
        x, y = _x(moment, scale), bottom + 20 + k * 20
        yield line((x, _HEAD), (x, y + 4), "thin")
        yield f'<circle cx="{place(x)}" cy="{place(y)}" r="3" fill="{INK}"/>'
        yield text((x + 8, y + 4), f"{name}, {_hours(moment)}", "over")
