"""Papers: what every drawing shares. Ink on white, told apart by line and hatching, not by colour.

A drawing carries a title and a description for those who hear it read out.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from xml.sax.saxutils import escape

Spot = tuple[float, float]

INK, PALE, FONT = "#1b2a33", "#6b7780", "ui-sans-serif, system-ui, sans-serif"

_STYLE = (
    f"text{{font:12px {FONT};fill:{INK}}}.small{{font-size:10px;fill:{PALE}}}.strong{{font-weight:600}}"
    f".over{{paint-order:stroke;stroke:#fff;stroke-width:4px;stroke-linejoin:round}}"
    f".line{{fill:none;stroke:{INK};stroke-width:1.5}}.thin{{fill:none;stroke:{PALE};stroke-width:0.75}}"
)

#: Hatchings by name: what a layer is filled with.
HATCHINGS = {
    "slab": (44, 44, f'<path d="M0 0V44" stroke="{INK}" stroke-width="1.5"/>'),
    "bed": (7, 7, f'<circle cx="2" cy="2" r="0.9" fill="{INK}"/><circle cx="5.5" cy="5.5" r="0.9" fill="{INK}"/>'),
    "stone": (
        16,
        14,
        f'<path d="M2 6l3-4 4 3-2 4zM10 12l4-3 1 4-3 1z" fill="none" stroke="{INK}" stroke-width="0.9"/>',
    ),
    "earth": (9, 9, f'<path d="M-1 10L10-1" stroke="{PALE}" stroke-width="1"/>'),
    "fill": (8, 8, f'<path d="M0 8L8 0M0 0L8 8" stroke="{INK}" stroke-width="0.7"/>'),
    "hole": (10, 10, f'<path d="M0 10L10 0" stroke="{PALE}" stroke-width="0.75"/>'),
}


@dataclass(frozen=True, slots=True)
class Paper:
    """A drawing under way: its size in pixels and what is on it."""

    width: float
    height: float
    marks: tuple[str, ...]


def svg(paper: Paper, title: str, description: str) -> str:
    """The drawing as a document that can stand alone or in a page."""
    patterns = "".join(
        f'<pattern id="{name}" width="{w}" height="{h}" patternUnits="userSpaceOnUse">{mark}</pattern>'
        for name, (w, h, mark) in HATCHINGS.items()
        if any(f"url(#{name})" in each for each in paper.marks)
    )
    size = f'width="{place(paper.width)}" height="{place(paper.height)}"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 {place(paper.width)} {place(paper.height)}" '
        f'role="img" aria-labelledby="title description"><title id="title">{escape(title)}</title>'
        f'<desc id="description">{escape(description)}</desc><style>{_STYLE}</style><defs>{patterns}</defs>'
        f'<rect width="100%" height="100%" fill="#fff"/>{"".join(paper.marks)}</svg>'
    )


def stacked(first: Paper, second: Paper) -> Paper:
    """One drawing above another on one paper."""
    moved = f'<g transform="translate(0 {place(first.height)})">{"".join(second.marks)}</g>'
    return Paper(max(first.width, second.width), first.height + second.height, (*first.marks, moved))


def place(value: float) -> str:
    """A coordinate, to a tenth of a pixel."""
    written = f"{value:.1f}".removesuffix(".0")
    return "0" if written == "-0" else written


def path(rings: Iterable[Iterable[Spot]], closed: str = "Z") -> str:
    """The `d` of a path through rings of points."""
    return "".join("M" + "L".join(f"{place(x)} {place(y)}" for x, y in ring) + closed for ring in rings)


def text(at: Spot, words: str, kind: str = "", anchor: str = "start") -> str:
    """Words at a place."""
    named = f' class="{kind}"' if kind else ""
    held = f' text-anchor="{anchor}"' if anchor != "start" else ""
    return f'<text x="{place(at[0])}" y="{place(at[1])}"{named}{held}>{escape(words)}</text>'


def line(start: Spot, end: Spot, kind: str = "line") -> str:
    """A straight line."""
    return f'<path class="{kind}" d="{path([(start, end)], "")}"/>'


def millimetres(value: float) -> str:
    """A length [m] in whole millimetres, with a true minus sign.

    Examples
    --------
    >>> millimetres(-0.15), millimetres(-1e-9)
    ('\u2212150', '0')
    """
    whole = round(value * 1000)
    return f"\u2212{-whole}" if whole < 0 else str(whole)
