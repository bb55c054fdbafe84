"""Sections: the build-up cut open along the fall, layer by layer, and how the ground lies in it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from service.drawings.papers import Paper, Spot, line, millimetres, path, svg, text
from service.paving.areas import Area, MeasuredArea
from service.paving.build_ups import Surfaces
from service.paving.excavations import Excavation
from service.paving.grounds import Ground
from service.paving.outlines import Point
from service.paving.planes import Plane, section_ends

_LEFT, _RIGHT, _TOP, _WIDE, _HIGH, _FOOT = 70.0, 190.0, 64.0, 420.0, 190.0, 66.0
_STEPS = 40

#: Layers from the top: surface above, surface below, what it is called, how it is filled.
_LAYERS = (
    ("finished", "bed", "slab", "slab"),
    ("bed", "sub_base", "laying course", "bed"),
    ("sub_base", "formation", "sub-base", "stone"),
)
_SURFACES = ("finished", "bed", "sub_base", "formation")


@dataclass(frozen=True, slots=True)
class Profile:
    """What is cut open.

    Parameters
    ----------
    surfaces : Surfaces
        The build-up.
    area : Area or MeasuredArea
        Where it lies.
    datum : str
        What levels are counted from, with its article.
    ground : Ground or None
        How the ground lies, to be drawn too.
    """

    surfaces: Surfaces
    area: Area | MeasuredArea
    datum: str
    ground: Ground | None = None

    def points(self) -> list[Point]:
        """Points along the section, in the direction of the fall [m]."""
        (x0, y0), (x1, y1) = section_ends(self.area, self.surfaces.finished)
        return [(x0 + (x1 - x0) * k / _STEPS, y0 + (y1 - y0) * k / _STEPS) for k in range(_STEPS + 1)]


def dig_drawing(dig: Excavation) -> str:
    """Section through a dig as SVG."""
    description = (
        f"Section along the fall: {millimetres(dig.dig_depth_mean)} mm dug on average, "
        f"{millimetres(dig.dig_depth_greatest)} mm at most; {dig.volume_in_place:.3g} m3 in place to dig and "
        f"{dig.fill:.3g} m3 to fill."
    )
    return svg(
        section_paper(Profile(dig.surfaces, dig.dug, "the datum", dig.ground)), "Section through the dig", description
    )


def section_paper(profile: Profile) -> Paper:
    """A section as a drawing under way."""
    points = profile.points()
    scale = _Scale(profile, points)
    marks = [
        text((_LEFT, 26), "Section" if profile.surfaces.finished.is_level else "Section along the fall", "strong"),
        text((_LEFT, 44), f"heights {scale.stretch:.3g} times as large as lengths; mm from {profile.datum}", "small"),
        scale.band(profile.surfaces.formation, Plane(scale.bottom), "earth", "thin"),
        *_layers(profile, scale),
        *_ground(profile, scale, points),
        *_levels(profile, scale),
        *_run(scale),
    ]
    return Paper(_LEFT + _WIDE + _RIGHT, _TOP + _HIGH + _FOOT, tuple(marks))


class _Scale:
    """From points along the section and levels to places on paper."""

    def __init__(self, profile: Profile, points: list[Point]) -> None:
        laid, self.points = profile.surfaces, points
        planes: list[Ground] = [laid.finished, laid.formation, *([profile.ground] if profile.ground else [])]
        levels = [plane.at(point) for plane in planes for point in points]
        self.top, least = max(levels), min(levels)
        self.bottom = least - (self.top - least) / 5
        self.run = math.dist(points[0], points[-1])
        self.stretch = (_HIGH / (self.top - self.bottom)) / (_WIDE / self.run)

    def at(self, step: int, level: float) -> Spot:
        share = (self.top - level) / (self.top - self.bottom)
        return _LEFT + _WIDE * step / _STEPS, _TOP + _HIGH * share

    def along(self, ground: Ground) -> list[Spot]:
        """A surface from end to end."""
        return [self.at(k, ground.at(point)) for k, point in enumerate(self.points)]

    def band(self, above: Plane, below: Plane, hatching: str, edge: str = "line") -> str:
        """What lies between two planes, hatched."""
        first, last = 0, _STEPS
        corners = [(first, above), (last, above), (last, below), (first, below)]
        ring = [self.at(k, plane.at(self.points[k])) for k, plane in corners]
        filled = "" if hatching == "none" else f' style="fill:url(#{hatching})"'
        return f'<path class="{edge}"{filled} d="{path([ring])}"/>'


def _layers(profile: Profile, scale: _Scale) -> Iterator[str]:
    laid = profile.surfaces
    kept = [each for each in _LAYERS if getattr(laid, each[0]) != getattr(laid, each[1])]
    if len(kept) == 1:
        # Known by its depth alone: nothing says what will fill it.
        kept = [(*kept[0][:2], "dig", "none")]
    middles, words = [], []
    for above, below, name, hatching in kept:
        upper, lower = getattr(laid, above), getattr(laid, below)
        yield scale.band(upper, lower, hatching)
        depths = [upper.at(point) - lower.at(point) for point in (scale.points[0], scale.points[-1])]
        low, high = millimetres(min(depths)), millimetres(max(depths))
        words.append(f"{name} {low if low == high else f'{low} to {high}'} mm")
        middles.append(scale.at(_STEPS, (upper.at(scale.points[-1]) + lower.at(scale.points[-1])) / 2))
    for (x, y), label, word in zip(middles, _spread([y for _, y in middles], 18), words, strict=True):
        yield line((x, y), (x + 18, label), "thin") + text((x + 22, label + 4), word)


def _ground(profile: Profile, scale: _Scale, points: list[Point]) -> Iterator[str]:
    if profile.ground is None:
        return
    formation, lies = scale.along(profile.surfaces.formation), scale.along(profile.ground)
    sunk = [(x, max(y, f)) for (x, y), (_, f) in zip(lies, formation, strict=True)]
    if any(y > f + 1 for (_, y), (_, f) in zip(sunk, formation, strict=True)):
        yield f'<path class="thin" style="fill:url(#fill)" d="{path([[*formation, *reversed(sunk)]])}"/>'
    yield f'<path class="line" stroke-dasharray="9 5" style="stroke-width:2.5" d="{path([lies], "")}"/>'
    y = _TOP + _HIGH + 48
    yield f'<path class="line" stroke-dasharray="9 5" style="stroke-width:2.5" d="M{_LEFT} {y}h44"/>'
    yield text((_LEFT + 52, y + 4), "ground as it lies")


def _levels(profile: Profile, scale: _Scale) -> Iterator[str]:
    """Levels of the surfaces where the section starts, at its high end."""
    levels = sorted({getattr(profile.surfaces, name).at(scale.points[0]) for name in _SURFACES}, reverse=True)
    heights = [scale.at(0, level)[1] for level in levels]
    for height, label, level in zip(heights, _spread(heights, 14), levels, strict=True):
        yield line((_LEFT - 14, label), (_LEFT, height), "thin")
        yield text((_LEFT - 18, label + 4), millimetres(level), "", "end")


def _run(scale: _Scale) -> Iterator[str]:
    y = _TOP + _HIGH + 18
    yield line((_LEFT, y), (_LEFT + _WIDE, y), "thin")
    yield text((_LEFT + _WIDE / 2, y + 4), f" {scale.run:.2f} m ", "over", "middle")


def _spread(heights: list[float], gap: float) -> list[float]:
    """Heights moved down where they stand closer than a gap."""
    spread: list[float] = []
    for height in heights:
        spread.append(max(height, spread[-1] + gap) if spread else height)
    return spread
