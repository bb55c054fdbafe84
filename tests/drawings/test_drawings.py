"""Layouts drawn as letters, to be checked by eye.

Each drawing in the .txt files beside this one stands under a line that says what is laid and how
many slabs that takes. A letter stands for a piece of the plan, as large as the line says, seen from
above, y upwards; all pieces of one slab share a letter, given in reading order; a small letter is a
cut slab, a dot is no slab (outside, an opening, a joint). Lengths are millimetres, angles degrees.
"""

import math
import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
import shapely

from service.paving import areas
from service.paving.layouts import Detail, Layout, Pattern, Paving, Piece, layout
from service.paving.slabs import Slab

HERE = Path(__file__).parent
NUMBER = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
SHAPES = {
    "rectangle": areas.rectangle,
    "L": areas.l_shape,
    "circle": areas.circle,
    "triangle": areas.triangle,
    "polygon": lambda *n: areas.polygon(tuple(zip(n[::2], n[1::2], strict=True)), {}),
}


def drawings() -> list[tuple[str, str]]:
    """Every line that says what is laid, with the letters under it."""
    found = []
    for path in sorted(HERE.glob("*.txt")):
        for block in path.read_text("utf-8").strip().split("\n\n"):
            title, letters = block.split("\n", 1)
            found.append((title, letters.rstrip("\n")))
    return found


DRAWINGS = drawings()


def metres(text: str) -> list[float]:
    return [float(number) / 1000 for number in NUMBER.findall(text)]


def laid(title: str) -> tuple[areas.Area, Layout, tuple[float, float]]:
    """What a title says: the area, its layout, and the size of a letter [m]."""
    pattern, *words = title.split(":")[0].split(", ")
    paving = Paving(slabs=(), pattern=Pattern(pattern.replace(" ", "_")), detail=Detail.pieces)
    shape, openings, letter = areas.rectangle(1, 1), [], (0.1, 0.1)
    for word in words:
        kind, _, rest = word.partition(" ")
        match kind:
            case "slab" | "slabs":
                sizes = [metres(size) for size in rest.split(" and ")]
                paving = replace(paving, slabs=tuple(Slab(f"slab {k}", x, y, 0.05) for k, (x, y) in enumerate(sizes)))
            case "joint":
                paving = replace(paving, joint=metres(rest)[0])
            case "offset":
                paving = replace(paving, offset=Fraction(rest))
            case "origin":
                paving = replace(paving, origin=tuple(metres(rest)))
            case "turned":
                paving = replace(paving, angle=math.radians(float(rest)))
            case "letter":
                letter = tuple(metres(rest))
            case "opening":
                made, *place = rest.split(" at ")
                name, _, size = made.partition(" ")
                openings.append(SHAPES[name](*metres(size)).at(*metres(place[0])))
            case _:
                shape = SHAPES[kind](*metres(rest))
    area = areas.area(shape, openings)
    return area, layout(area, paving), letter


def letters(area: areas.Area, found: Layout, letter: tuple[float, float]) -> str:
    """The layout as lines of letters."""
    shapes = [shape(piece) for piece in found.pieces]
    names: dict[int, str] = {}
    _, _, right, top = area.outline.bounds
    lines = []
    for row in reversed(range(math.ceil(top / letter[1] - 1e-9))):
        line = ""
        for column in range(math.ceil(right / letter[0] - 1e-9)):
            middle = shapely.Point((column + 0.5) * letter[0], (row + 0.5) * letter[1])
            here = next((k for k, slab in enumerate(shapes) if slab.contains(middle)), None)
            if here is not None and here not in names:
                capital = chr(ord("A") + len(names) % 26)
                names[here] = capital if found.pieces[here].whole else capital.lower()
            line += "." if here is None else names[here]
        lines.append(line)
    return "\n".join(lines)


def shape(piece: Piece) -> shapely.Geometry:
    if piece.outlines:
        rings = [shapely.Polygon(ring) for ring in piece.outlines]
        solid = shapely.union_all([ring for ring in rings if ring.exterior.is_ccw])
        return shapely.difference(solid, shapely.union_all([ring for ring in rings if not ring.exterior.is_ccw]))
    cosine, sine = math.cos(piece.angle), math.sin(piece.angle)
    sides = ((0, 0), (piece.length, 0), (piece.length, piece.width), (0, piece.width))
    return shapely.Polygon([(piece.x + a * cosine - b * sine, piece.y + a * sine + b * cosine) for a, b in sides])


def test_there_are_thirty_drawings_or_more_with_every_pattern() -> None:
    assert len(DRAWINGS) >= 30
    assert {title.split(",")[0].replace(" ", "_") for title, _ in DRAWINGS} >= set(Pattern)


@pytest.mark.parametrize(("title", "drawn"), DRAWINGS, ids=[title for title, _ in DRAWINGS])
def test_a_layout_is_laid_as_drawn(title: str, drawn: str) -> None:
    area, found, letter = laid(title)
    assert letters(area, found, letter) == drawn
    said = {name: int(number) for number, name in re.findall(r"([0-9]+) (whole|cut|pieces)", title.split(":")[1])}
    assert said
    counted = {"whole": found.slabs_whole, "cut": found.slabs_cut, "pieces": found.cut_pieces}
    assert said == {name: counted[name] for name in said}
