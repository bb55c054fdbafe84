"""Levels drawn: a plan of the pegs with their levels and the fall, and a section through the build-up."""

import math

from service.drawings.papers import INK, Paper, Spot, line, millimetres, path, place, stacked, svg, text
from service.drawings.sections import Profile, section_paper
from service.paving.falls import in_words
from service.paving.levels import LevelFigures, Peg
from service.paving.pegs import Place

#: Pixels from peg to peg, round the plan, and above it for the heading.
_APART, _MARGIN, _HEAD, _FOOT = 96.0, 70.0, 84.0, 56.0
_LEAST_WIDTH = 460.0
#: Lengths a scale bar may have [m].
_BARS = [figure * 10.0**power for power in range(-3, 4) for figure in (1, 2, 5)]


def levels_drawing(figures: LevelFigures) -> str:
    """Plan and section of an area's levels as SVG."""
    descent = figures.descent
    fall = f"{in_words(descent.steepest_gradient)}, {millimetres(descent.fall)} mm in all"
    description = (
        f"Plan of {len(figures.pegs)} pegs with their finished levels in millimetres relative to the "
        f"{figures.datum.name}: highest {millimetres(figures.highest)}, lowest {millimetres(figures.lowest)}; "
        f"fall {fall}. Below it a section through the build-up, {millimetres(figures.build_up)} mm at the thinnest."
    )
    profile = Profile(figures.surfaces, figures.area, f"the {figures.datum.name}")
    return svg(stacked(_plan(figures), section_paper(profile)), f"Levels from the {figures.datum.name}", description)


def _plan(figures: LevelFigures) -> Paper:
    left, low, right, high = figures.area.outline.bounds
    scale = _APART / max(math.sqrt((right - left) * (high - low) / len(figures.pegs)), 1e-3)
    scale = max(scale, (_LEAST_WIDTH - 2 * _MARGIN) / (right - left))
    height = (high - low) * scale

    def at(point: Spot) -> Spot:
        return _MARGIN + (point[0] - left) * scale, _HEAD + (high - point[1]) * scale

    rings = [[at(point) for point in ring] for ring in figures.area.rings]
    marks = [
        text((_MARGIN, 26), "Finished levels", "strong"),
        text((_MARGIN, 44), f"mm above (\u2212 below) the {figures.datum.name}", "small"),
        f'<path fill="url(#hole)" d="{path(rings[1:])}"/>' if rings[1:] else "",
        f'<path class="line" d="{path(rings)}"/>',
        _arrow(figures, _clear(at(figures.area.centroid), [at((peg.x, peg.y)) for peg in figures.pegs])),
        *(_peg(peg, at((peg.x, peg.y))) for peg in figures.pegs),
        _scale_bar(_HEAD + height + 40, scale),
    ]
    return Paper(2 * _MARGIN + (right - left) * scale, _HEAD + height + _FOOT, tuple(marks))


def _peg(peg: Peg, at: Spot) -> str:
    x, y = at
    if peg.place in (Place.CORNER, Place.OPENING):
        mark = f'<path d="M{place(x - 4)} {place(y - 4)}h8v8h-8z" fill="#fff" stroke="{INK}" stroke-width="1.5"/>'
    else:
        mark = f'<circle cx="{place(x)}" cy="{place(y)}" r="2.5" fill="{INK}"/>'
    level = text((x + 6, y - 6), millimetres(peg.finished), "over")
    return mark + level + text((x + 6, y + 12), peg.name.removeprefix("peg "), "small over")


def _arrow(figures: LevelFigures, at: Spot) -> str:
    descent, words = figures.descent, in_words(figures.descent.steepest_gradient)
    if descent.towards is None:
        return text(at, words, "strong over", "middle")
    turn = place(-math.degrees(descent.towards))
    (x, y), upright = at, abs(math.sin(descent.towards)) > 0.5
    beside = text((x + 16, y + 4) if upright else (x, y + 28), words, "strong over", "start" if upright else "middle")
    return (
        f'<g transform="translate({place(x)} {place(y)}) rotate({turn})"><path d="M-40-3h56v-6l24 9-24 9v-6h-56z" '
        f'fill="#fff" stroke="{INK}" stroke-width="1.5"/></g>{beside}'
    )


def _clear(at: Spot, pegs: list[Spot]) -> Spot:
    """A place for the arrow, moved between four pegs if one stands there."""
    return (at[0] + _APART / 2, at[1] + _APART / 2) if min(math.dist(at, peg) for peg in pegs) < _APART / 3 else at


def _scale_bar(y: float, scale: float) -> str:
    metres = next(each for each in _BARS if each * scale > _APART / 2)
    end = _MARGIN + metres * scale
    ends = "".join(line((x, y - 4), (x, y + 4)) for x in (_MARGIN, end))
    return line((_MARGIN, y), (end, y)) + ends + text((end + 8, y + 4), f"{metres:g} m")
