"""The bar chart of a programme, read back from its SVG."""

import re
from datetime import date
from xml.etree import ElementTree

import pytest

from service.drawings.programmes import programme_drawing
from service.paving.joints import Filler
from service.paving.programmes import Gang, Programme, programme, usual_waits
from service.paving.sheets import Sheet
from service.paving.stages import Quantities, usual_outputs

HOUR, DAY = 3600.0, 86400.0
SVG = "{http://www.w3.org/2000/svg}"
JOB = Quantities(area=40, dig=9, sub_base=5.1, edging=20, haunched=0.8, bed=1.4, laid=34, cuts=22, joint=110)


def planned(quantities: Quantities = JOB, hands: int = 2, starts_on: date | None = None) -> Programme:
    return programme(
        Sheet(), quantities, usual_outputs(), Gang(hands, 8 * HOUR, 5, starts_on), usual_waits(Filler.MORTAR)
    )


def drawn(found: Programme) -> ElementTree.Element:
    return ElementTree.fromstring(programme_drawing(found))


def words(root: ElementTree.Element) -> list[str]:
    return [element.text or "" for element in root.iter(f"{SVG}text")]


def bars(root: ElementTree.Element, filled: str) -> list[tuple[float, float]]:
    """Left and right of every bar with a filling, in hours from the start: a day is as wide as between its lines."""
    lines = [element.get("d", "") for element in root.iter(f"{SVG}path") if element.get("class") == "thin"]
    upright = {m[1] for d in lines if (m := re.fullmatch(r"M([\d.]+) [\d.]+L([\d.]+) [\d.]+", d)) and m[1] == m[2]}
    first, second = sorted(map(float, upright))[:2]
    found = [e for e in root.iter(f"{SVG}rect") if (e.get("fill") or "").startswith(filled)]
    spans = [(float(e.get("x", 0)), float(e.get("width", 0))) for e in found]
    return [((x - first) / (second - first) * 24, (x + w - first) / (second - first) * 24) for x, w in spans]


def test_a_bar_is_drawn_for_every_stretch_of_work_where_it_stands_in_time() -> None:
    found = planned()
    expected = [(s.start / HOUR, s.end / HOUR) for stage in found.stages for s in stage.spells]
    drawn_bars = bars(drawn(found), "#1b2a33")
    assert len(drawn_bars) == len(expected)
    for (left, right), (start, end) in zip(drawn_bars, expected, strict=True):
        # To a tenth of a pixel, and never thinner than one.
        assert left == pytest.approx(start, abs=0.1)
        assert right == pytest.approx(end, abs=0.5)


def test_hatching_covers_each_wait() -> None:
    found = planned()
    waits = [(s.ends / HOUR, (s.ends + s.wait) / HOUR) for s in found.stages if s.wait]
    for (left, right), (start, end) in zip(bars(drawn(found), "url(#earth)"), waits, strict=True):
        assert (left, right) == (pytest.approx(start, abs=0.1), pytest.approx(end, abs=0.1))
    assert len(waits) == 3


def test_title_and_description_tell_the_same_without_the_picture() -> None:
    root = drawn(planned())
    title, description = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert title.text == "Programme of the work"
    assert description is not None
    assert "Bars of 6 stages" in (description.text or "")
    assert "set out 0 h to 1 h; dig 1 h to 26 h;" in (description.text or "")
    assert root.get("role") == "img"


def test_days_are_counted_or_dated() -> None:
    assert "day 1" in words(drawn(planned()))
    dated = words(drawn(planned(starts_on=date(2027, 3, 3))))
    assert "3 Mar" in dated
    assert "day 1" not in dated
    sunday = words(drawn(planned(starts_on=date(2027, 2, 28))))
    assert "28 Feb" in sunday


def test_milestones_are_named_with_their_hours() -> None:
    found = planned()
    said = words(drawn(found))
    assert f"foot traffic, {found.foot_traffic / HOUR:.1f} h".replace(".0 h", " h") in said
    assert any(word.startswith("pointing at the earliest, ") for word in said)
    assert not any(word.startswith("pointing") for word in words(drawn(planned(Quantities(area=10, laid=10)))))


def test_a_long_programme_is_drawn_by_whole_stages_and_stays_small() -> None:
    found = planned(Quantities(area=3000, dig=900, sub_base=450, laid=3000, joint=9000), hands=1)
    assert found.furniture > 300 * DAY
    text = programme_drawing(found)
    assert len(text) < 20_000
    assert len(bars(ElementTree.fromstring(text), "#1b2a33")) == len(found.stages)


def test_the_same_programme_is_drawn_alike() -> None:
    assert programme_drawing(planned()) == programme_drawing(planned())
