"""Layouts drawn: whole slabs plain, cut slabs hatched and numbered, the plan the right way up.

Sizes are told apart by tint; in a random laying each slab carries the letter of its size too, as in the laying order.

Whole slabs are one path, course by course, so that a long course costs no more than a short
one once the drawing is compressed; only cut slabs are drawn one by one.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

import numpy as np

from service.drawings.papers import INK, PALE, Paper, line, place, svg, text
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import MICROMETRES
from service.paving.laying.pieces import Course, Piece, courses, cut_slabs
from service.paving.layouts import Layout

#: Pixels along the longer side of the plan, round it, and above and below it.
_LONGEST, _MARGIN, _HEAD, _FOOT = 860.0, 64.0, 56.0, 60.0
#: Drawing units to a metre: tenths of a millimetre, so that every coordinate is a whole number.
_FINE = 10_000
#: Fills of the sizes in turn: pale enough to print over, and different in grey.
_TINTS = ("#f7f1e3", "#cfdfd8", "#ecd3bf", "#b3c6d8", "#e3d3e6", "#c3c9a2")
_JOINT, _CUT = "#8d949b", "#fbfaf6"
#: Outline of a whole slab in pixels, and at most as a part of its shorter side.
_OUTLINE, _OUTLINE_PART = 0.7, 0.05
#: Most cut slabs that are numbered, most whole ones that are lettered, and the least height of either in pixels.
_MOST_NUMBERS, _MOST_LETTERS, _LEAST_FIGURE = 400, 2000, 6.0
#: Height of a line of the legend, and about how wide a sign of it is, in pixels.
_LEGEND_LINE, _SIGN = 18.0, 5.6


def layout_drawing(layout: Layout) -> str:
    """A layout as SVG, as drawn on paper: x to the right, y up."""
    ground, frame = layout.laid.counted.ground, layout.laid.frame
    rings = _rings(ground, layout)
    left, low, right, high = _bounds(rings)
    scale = _LONGEST / max(right - left, high - low)
    width, height = (right - left) * scale, (high - low) * scale
    cuts = cut_slabs(layout.laid.cuts, frame, [count.name for count in layout.by_slab])
    to_page = f"translate({place(_MARGIN - left * scale)} {place(_HEAD + high * scale)})"
    fine = scale / _FINE
    turned = f"translate({_tenths(frame.origin[0])} {_tenths(frame.origin[1])}) rotate({_degrees(frame.angle)})"
    corner = _MARGIN - left * scale, _HEAD + high * scale
    legend, lines = _legend(layout, _HEAD + height + 46, width)
    marks = [
        _heading(layout),
        f'<g transform="{to_page} scale({fine:.6g} {-fine:.6g})">',
        f'<path fill="{_JOINT}" fill-rule="evenodd" d="{_closed(rings)}"/>',
        f'<g transform="{turned}">{_whole(layout, fine)}</g>',
        f'<path fill="url(#sawn)" stroke="{INK}" stroke-width="{place(1 / fine)}" d="{_kept(cuts)}"/>',
        f'<path fill="none" stroke="{INK}" stroke-width="{place(2 / fine)}" d="{_closed(rings)}"/></g>',
        _hatching(fine),
        *_numbers(cuts, {count.name: count.letter for count in layout.by_slab}, scale, corner),
        *_letters(layout, scale, corner),
        *_dimensions(width, height, right - left, high - low),
        legend,
    ]
    paper = Paper(width + 2 * _MARGIN, height + _HEAD + _FOOT + (lines - 1) * _LEGEND_LINE, tuple(marks))
    return svg(paper, _title(layout), _description(layout))


def _title(layout: Layout) -> str:
    return f"Layout of {layout.slabs_whole + layout.slabs_cut} slabs"


def _description(layout: Layout) -> str:
    sizes = "; ".join(f"{n.name}: {n.whole} whole, {n.cut} cut, {n.to_buy} to buy" for n in layout.by_slab)
    thinnest = "" if layout.thinnest_cut is None else f" The thinnest cut is {layout.thinnest_cut * 1000:.0f} mm."
    return (
        f"Plan of the slabs as laid, x to the right and y up. {sizes}.{thinnest} Cut slabs are hatched and numbered; "
        "the joints are grey."
    )


def _heading(layout: Layout) -> str:
    counts = f"{layout.slabs_whole} whole, {layout.slabs_cut} cut (hatched), {layout.slabs_to_buy} to buy"
    return text((_MARGIN, 26), "Layout", "strong") + text((_MARGIN, 44), counts, "small")


def _legend(layout: Layout, y: float, width: float) -> tuple[str, int]:
    """Tint, letter and counts of each size, and how many lines they take."""
    marks, x, lines = [], _MARGIN, 1
    for k, count in enumerate(layout.by_slab):
        letter = f"{count.letter}  " if count.letter else ""
        words = f"{letter}{count.name}: {count.whole} whole, {count.cut} cut, {count.to_buy} to buy"
        reach = 40 + _SIGN * len(words)
        if x > _MARGIN and x + reach > 2 * _MARGIN + width:
            x, y, lines = _MARGIN, y + _LEGEND_LINE, lines + 1
        tint = _TINTS[k % len(_TINTS)]
        marks.append(f'<path fill="{tint}" stroke="{INK}" d="M{place(x)} {place(y - 10)}h14v12h-14z"/>')
        marks.append(text((x + 20, y), words, "small"))
        x += reach
    return "".join(marks), lines


def _whole(layout: Layout, fine: float) -> str:
    """The whole slabs of each size as one path, in the pattern's frame; outlined, for slabs laid without a joint."""
    lattice = layout.laid.counted.lattice
    step = tuple(round(n / lattice.units * _FINE) for n in lattice.u)
    by_slab: dict[int, list[str]] = {}
    sides = [(float(t.box.length), float(t.box.width)) for t in lattice.repeat.tiles]
    for course in courses(layout.laid.counted):
        slab = lattice.repeat.tiles[course.tile].slab
        by_slab.setdefault(slab, []).append(_course(course, sides[course.tile], step))
    thin = min(_OUTLINE / fine, _OUTLINE_PART * min(map(min, sides)) / MICROMETRES * _FINE)
    paths = (f'<path fill="{_TINTS[k % len(_TINTS)]}" d="{"".join(d)}"/>' for k, d in sorted(by_slab.items()))
    return f'<g stroke="{_JOINT}" stroke-width="{place(thin)}">{"".join(paths)}</g>'


def _course(course: Course, sides: tuple[float, float], step: Sequence[int]) -> str:
    """Slabs side by side: one, and as often again as there are more, each a step from the last."""
    length, width = (round(side / 100) for side in sides)
    slab = f"h{length}v{width}h{-length}z"
    return f"M{_tenths(course.x)} {_tenths(course.y)}{slab}" + f"m{step[0]} {step[1]}{slab}" * (course.slabs - 1)


def _kept(cuts: Iterable[Piece]) -> str:
    return _closed(ring for piece in cuts for ring in piece.outlines)


def _closed(rings: Iterable[Sequence[tuple[float, float]]]) -> str:
    """Rings of plan points [m] as a path of whole tenths of a millimetre, each step from the last."""
    return "".join(map(_ring, rings))


def _ring(ring: Sequence[tuple[float, float]]) -> str:
    at = [(round(x * _FINE), round(y * _FINE)) for x, y in ring]
    steps = " ".join([f"{x1 - x0} {y1 - y0}" for (x0, y0), (x1, y1) in pairwise(at)])
    return f"M{at[0][0]} {at[0][1]}l{steps}z"


def _letters(layout: Layout, scale: float, corner: tuple[float, float]) -> Iterable[str]:
    """The letter of its size on every whole slab of a random laying, where they are few enough to read."""
    if layout.slabs_whole > _MOST_LETTERS:
        return
    tiles, frame = layout.laid.counted.lattice.repeat.tiles, layout.laid.frame
    for course in courses(layout.laid.counted):
        tile = tiles[course.tile]
        letter = layout.by_slab[tile.slab].letter
        length, width = (float(side) / MICROMETRES for side in (tile.box.length, tile.box.width))
        size = min(11.0, 0.5 * scale * min(length, width))
        if letter and size >= _LEAST_FIGURE:
            x, y = frame.to_plan(np.array(course.x + length / 2), np.array(course.y + width / 2))
            at = f'x="{place(corner[0] + scale * float(x))}" y="{place(corner[1] - scale * float(y) + size * 0.36)}"'
            yield f'<text style="font-size:{place(size)}px" text-anchor="middle" {at}>{letter}</text>'


def _numbers(
    cuts: Sequence[Piece], letters: Mapping[str, str], scale: float, corner: tuple[float, float]
) -> Iterable[str]:
    """A number in every cut slab, after the letter of its size if it has one, where they are few enough to read."""
    if len(cuts) > _MOST_NUMBERS:
        return
    for k, piece in enumerate(cuts, 1):
        ring = max(piece.outlines, key=lambda points: abs(_twice_area(points)))
        xs, ys = zip(*ring, strict=True)
        size = min(11.0, 0.6 * scale * min(max(xs) - min(xs), max(ys) - min(ys)))
        if size >= _LEAST_FIGURE:
            x, y = corner[0] + scale * _middle(xs), corner[1] - scale * _middle(ys) + size * 0.36
            style, name = f'style="font-size:{place(size)}px"', f"{letters[piece.name]}{k}"
            yield f'<text class="over" {style} text-anchor="middle" x="{place(x)}" y="{place(y)}">{name}</text>'


def _dimensions(width: float, height: float, length: float, breadth: float) -> Iterable[str]:
    """Length below and breadth at the left, in millimetres."""
    left, right, low, high = _MARGIN, _MARGIN + width, _HEAD + height, _HEAD
    yield line((left, low + 14), (right, low + 14), "thin")
    yield from (line((x, low + 9), (x, low + 19), "thin") for x in (left, right))
    yield text(((left + right) / 2, low + 28), f"{length * 1000:.0f}", "small", "middle")
    yield line((left - 14, high), (left - 14, low), "thin")
    yield from (line((left - 19, y), (left - 9, y), "thin") for y in (low, high))
    turned = f'transform="rotate(-90 {place(left - 20)} {place((low + high) / 2)})"'
    yield f"<g {turned}>{text((left - 20, (low + high) / 2), f'{breadth * 1000:.0f}', 'small', 'middle')}</g>"


def _hatching(fine: float) -> str:
    """The hatching of cut slabs: paper with strokes across, as fine on the page at any scale."""
    return (
        f'<defs><pattern id="sawn" width="7" height="7" patternUnits="userSpaceOnUse" '
        f'patternTransform="scale({1 / fine:.6g})"><path fill="{_CUT}" d="M0 0h7v7h-7z"/>'
        f'<path stroke="{PALE}" stroke-width="0.8" d="M-1 8L8-1M-1 1L1-1M6 8L8 6"/></pattern></defs>'
    )


def _rings(ground: Ground, layout: Layout) -> list[list[tuple[float, float]]]:
    """The area's edges as rings of plan points [m]."""
    units = layout.laid.counted.lattice.units
    x, y = layout.laid.frame.to_plan(ground.starts[0] / units, ground.starts[1] / units)
    ends = np.flatnonzero(ground.following <= np.arange(ground.following.size)) + 1
    points = list(zip(x.tolist(), y.tolist(), strict=True))
    starts = [0, *ends.tolist()[:-1]]
    return [points[start:end] for start, end in zip(starts, ends.tolist(), strict=True)]


def _bounds(rings: Sequence[Sequence[tuple[float, float]]]) -> tuple[float, float, float, float]:
    xs, ys = zip(*(point for ring in rings for point in ring), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _twice_area(ring: Sequence[tuple[float, float]]) -> float:
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], ring[0]], strict=True))


def _middle(values: Sequence[float]) -> float:
    return (min(values) + max(values)) / 2


def _tenths(metres: float) -> int:
    return round(metres * _FINE)


def _degrees(angle: float) -> str:
    return f"{math.degrees(angle):.6g}"
