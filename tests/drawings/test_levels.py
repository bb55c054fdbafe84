"""Drawings of levels and digs: what they show, and that no one needs eyes or colour for it."""

import re
from xml.etree import ElementTree

import pytest

from service.drawings.levels import levels_drawing
from service.drawings.papers import millimetres, place
from service.drawings.sections import dig_drawing
from service.paving.areas import Area, MeasuredArea, area, circle, l_shape, rectangle
from service.paving.build_ups import BuildUp, Datum, Tapers
from service.paving.diggings import Digging, plain_dig
from service.paving.excavations import excavation_figures
from service.paving.falls import LEVEL, Fall
from service.paving.grounds import Ground, SpotLevel, survey
from service.paving.levels import LevelFigures, level_figures
from service.paving.planes import Plane
from service.paving.reference import default
from service.paving.sheets import Sheet
from service.paving.soils import soil

SVG = "{http://www.w3.org/2000/svg}"
DIGGING = Digging(soil("clay"), default("excavations", "tipper_payload"))
USUAL = BuildUp(0.04, 0.03, 0.1)
L = area(l_shape(7.2, 5.4, 2.4, 1.8), [circle(1.0).at(1.0, 1.5)])


def figures(paved: Area = L, fall: Fall = LEVEL, name: str = "datum", build_up: BuildUp = USUAL) -> LevelFigures:
    return level_figures(Sheet(), paved, fall, build_up, Datum(name, -0.15), default("levels", "peg_spacing"))


def dug(paved: Area | MeasuredArea, build_up: BuildUp, ground: Ground | None, fall: Fall = LEVEL) -> str:
    return dig_drawing(excavation_figures(Sheet(), paved, fall, Datum(), build_up, ground, DIGGING))


def read(drawing: str) -> ElementTree.Element:
    root = ElementTree.fromstring(drawing)
    assert root.tag == f"{SVG}svg"
    return root


def words(drawing: str) -> list[str]:
    return [(text.text or "").strip() for text in read(drawing).iter(f"{SVG}text")]


def drawings() -> dict[str, str]:
    return {
        "falling": levels_drawing(figures(fall=Fall(1 / 60, -1 / 80))),
        "level": levels_drawing(figures()),
        "small": levels_drawing(figures(area(rectangle(0.3, 0.2)))),
        "large": levels_drawing(figures(area(rectangle(60.0, 40.0)), Fall(0.02, 0.0))),
        "dig": dug(L, USUAL, Plane(0.1, 0.02), Fall(0.0, 0.02)),
        "plain dig": dug(MeasuredArea(20.0), plain_dig(0.2), None),
        "fill": dug(area(rectangle(6.0, 4.0)), USUAL, Plane(0.0, 0.1)),
    }


each_drawing = pytest.mark.parametrize("drawing", drawings().values(), ids=drawings())


@each_drawing
def test_a_drawing_is_titled_and_described_for_those_who_hear_it(drawing: str) -> None:
    root = read(drawing)
    assert root.get("role") == "img"
    named = {element.get("id"): element.text or "" for element in root if element.get("id")}
    title, description = (named[each] for each in root.get("aria-labelledby", "").split())
    assert len(title) > 5
    assert len(description) > 40


@each_drawing
def test_a_drawing_needs_no_colour(drawing: str) -> None:
    """Every ink is a grey or near it: the channels lie close together."""
    inks = set(re.findall(r'(?:stroke|fill)[=:]"?#([0-9a-f]{6}|[0-9a-f]{3})\b', drawing))
    assert inks
    for ink in inks:
        full = ink if len(ink) == 6 else "".join(c * 2 for c in ink)
        channels = [int(full[k : k + 2], 16) for k in (0, 2, 4)]
        assert max(channels) - min(channels) < 32


@each_drawing
def test_everything_is_drawn_on_the_paper(drawing: str) -> None:
    root = read(drawing)
    _, _, width, height = map(float, root.get("viewBox", "").split())
    for text in root.iter(f"{SVG}text"):
        assert 0 <= float(text.get("x", "")) <= width
        assert 0 <= float(text.get("y", "")) <= height
    assert "nan" not in drawing
    assert "inf" not in drawing


@each_drawing
def test_every_hatching_that_is_used_is_defined(drawing: str) -> None:
    used = set(re.findall(r"url\(#(\w+)\)", drawing))
    assert used == {pattern.get("id") for pattern in read(drawing).iter(f"{SVG}pattern")}


def test_the_plan_shows_the_finished_level_of_every_peg() -> None:
    laid = figures(fall=Fall(1 / 60, -1 / 80))
    shown = words(levels_drawing(laid))
    for peg in laid.pegs:
        assert millimetres(peg.finished) in shown
        assert peg.name.removeprefix("peg ") in shown


@pytest.mark.parametrize(
    ("fall", "turn"), [(Fall(0.02, 0.0), 0), (Fall(0.0, 0.02), -90), (Fall(0.0, -0.02), -270), (Fall(0.02, 0.02), -45)]
)
def test_the_arrow_points_where_the_water_goes_with_y_upwards(fall: Fall, turn: float) -> None:
    arrow = re.search(r"rotate\((-?[\d.]+)\)", levels_drawing(figures(fall=fall)))
    assert arrow
    assert float(arrow[1]) == pytest.approx(turn)


def test_a_level_area_has_no_arrow() -> None:
    drawing = levels_drawing(figures())
    assert "rotate" not in drawing
    assert "level" in words(drawing)
    assert "Section" in words(drawing)


def test_the_section_gives_each_layer_its_thickness() -> None:
    shown = words(levels_drawing(figures(fall=Fall(1 / 60, 0.0), build_up=BuildUp(0.04, 0.03, 0.1, Tapers.SUB_BASE))))
    assert "slab 40 mm" in shown
    assert "laying course 30 mm" in shown
    assert "sub-base 100 to 220 mm" in shown


def test_a_dig_known_by_its_depth_alone_shows_no_layers() -> None:
    shown = words(dug(MeasuredArea(20.0), plain_dig(0.23), None))
    assert "dig 230 mm" in shown
    assert not [each for each in shown if "slab" in each or "sub-base" in each]


def test_fill_is_hatched_where_the_ground_lies_below_the_formation() -> None:
    paved = area(rectangle(6.0, 4.0))
    assert "url(#fill)" in dug(paved, USUAL, Plane(0.0, 0.1))
    assert "url(#fill)" not in dug(paved, USUAL, Plane(0.0, 0.01))


def test_surveyed_ground_is_drawn_as_it_was_measured() -> None:
    """A ridge along the middle: the dashed line rises to it and falls again."""
    spots = [SpotLevel(x, y, 0.3 if x == 3.0 else 0.0) for x in (0.0, 3.0, 6.0) for y in (0.0, 4.0)]
    drawing = dug(area(rectangle(6.0, 4.0)), USUAL, survey(spots))
    line = re.search(r'stroke-dasharray="9 5"[^>]* d="M([^"]*)"', drawing)
    assert line
    heights = [float(pair.split()[1]) for pair in line[1].split("L")]
    assert heights.index(min(heights)) == len(heights) // 2
    assert heights[0] == heights[-1] > min(heights)


def test_a_name_can_not_break_out_of_the_drawing() -> None:
    drawing = levels_drawing(figures(name='<script>"&'))
    assert "<script>" not in drawing
    assert '<script>"&' in (read(drawing)[0].text or "")


def test_a_coordinate_is_short_and_never_minus_nothing() -> None:
    assert [place(value) for value in (3.0, 3.04, 3.06, -0.04, -2.5)] == ["3", "3", "3.1", "0", "-2.5"]
