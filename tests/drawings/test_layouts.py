"""Layouts drawn: sizes told apart by tint and letter, whatever they are laid in."""

import re
from collections import Counter

import pytest

from service.drawings.layouts import layout_drawing
from service.paving.areas import area, circle, rectangle
from service.paving.layouts import Layout, Pattern, Paving, layout
from service.paving.slabs import Slab
from tests.paving.laying.random.mixes import paving, side, slab

USUAL = tuple(slab(*size) for size in ((3, 2), (2, 2), (2, 1), (1, 1)))


def words(drawing: str) -> list[str]:
    return re.findall(r"<text[^>]*>([^<]*)</text>", drawing)


@pytest.fixture(scope="module")
def round_mix() -> Layout:
    return layout(area(circle(4.0)), paving(USUAL, 6, 1))


def test_every_slab_of_a_random_laying_carries_the_letter_of_its_size(round_mix: Layout) -> None:
    written = words(layout_drawing(round_mix))
    whole = Counter(word for word in written if word in set("ABCD"))
    assert whole == Counter({count.letter: count.whole for count in round_mix.by_slab})


def test_cut_slabs_are_numbered_after_their_letter(round_mix: Layout) -> None:
    numbered = [re.fullmatch(r"([A-D])(\d+)", word) for word in words(layout_drawing(round_mix))]
    found = [match for match in numbered if match]
    assert len(found) > 10
    letters = Counter(match[1] for match in found)
    assert all(letters[count.letter] <= count.cut for count in round_mix.by_slab)


def test_each_size_has_a_tint_of_its_own_and_a_place_in_the_legend_on_the_paper(round_mix: Layout) -> None:
    drawing = layout_drawing(round_mix)
    width = float(re.search(r'width="([\d.]+)"', drawing)[1])
    for count in round_mix.by_slab:
        [entry] = re.findall(
            rf'fill="(#\w+)"[^>]*d="M([\d.]+) [^"]*"/><text[^>]*>{count.letter}  {count.name}:', drawing
        )
        assert float(entry[1]) + 250 < width
        assert drawing.count(f'fill="{entry[0]}"') == 2


def test_slabs_laid_without_a_joint_are_told_apart_by_their_outlines() -> None:
    slabs = tuple(Slab(str(n), n / 1000, 0.3, 0.04) for n in (300, 450, 600))
    drawing = layout_drawing(layout(area(rectangle(6.0, 3.0)), Paving(slabs=slabs, pattern=Pattern.coursed_random)))
    assert re.search(r'<g stroke="#\w+" stroke-width="[\d.]+"><path fill', drawing)


def test_letters_too_small_to_read_are_left_out() -> None:
    square = area(rectangle(side(75), side(75)))
    written = words(layout_drawing(layout(square, paving(USUAL, 6, 1))))
    assert not set(written) & set("ABCD")


def test_a_bond_carries_no_letters() -> None:
    found = layout(
        area(rectangle(1.8, 0.9)), Paving(slabs=(Slab("a", 0.6, 0.3, 0.04),), pattern=Pattern.stretcher_bond)
    )
    assert not set(words(layout_drawing(found))) & set("ABCD")
