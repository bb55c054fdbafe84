"""Membranes: rolls walked out strip by strip, both ways."""

import math
import random

import pytest
import shapely

from service.paving.areas import Area, area, circle, l_shape, polygon, rectangle
from service.paving.errors import OutOfRange
from service.paving.membranes import Membrane, Roll, Rolled, Way, membrane
from service.paving.reference import default
from service.paving.sheets import Sheet

LAP = default("membranes", "lap")


def rolled_out(paved: Area, width: float = 2.0, length: float = 10.0) -> Membrane:
    return membrane(Sheet(), paved, Roll(width, length, LAP))


def way(found: Membrane, rolled: Rolled) -> Way:
    return next(way for way in found.ways if way.rolled is rolled)


def test_strips_lap_by_300_mm_which_is_common_practice() -> None:
    assert (LAP.value, LAP.basis) == (0.3, "common practice")
    # Three strips of 2 m with two laps of 0.3 m cover 5.4 m and no more.
    assert way(rolled_out(area(rectangle(10.0, 5.4))), Rolled.ALONG_LENGTH).strips == 3
    assert way(rolled_out(area(rectangle(10.0, 5.41))), Rolled.ALONG_LENGTH).strips == 4


def test_a_roll_as_long_as_the_strip_is_one_roll_a_strip() -> None:
    along = way(rolled_out(area(rectangle(10.0, 5.4))), Rolled.ALONG_LENGTH)
    assert (along.rolls, along.run, along.used) == (3, pytest.approx(30.0), pytest.approx(60.0))


def test_the_rest_of_a_roll_begins_the_next_strip() -> None:
    # 6 m strips of 10 m rolls: 4 m are left, 0.3 m lap, 2.3 m from the next roll, whose 7.7 m hold a third strip.
    along = way(rolled_out(area(rectangle(6.0, 5.4))), Rolled.ALONG_LENGTH)
    assert along.rolls == 2
    assert along.run == pytest.approx(18.3)


def test_a_strip_longer_than_a_roll_is_joined() -> None:
    # 25 m of 10 m rolls: three reach 30 - 2 laps = 29.4 m.
    one = way(rolled_out(area(rectangle(25.0, 1.9))), Rolled.ALONG_LENGTH)
    assert (one.strips, one.rolls, one.run) == (1, 3, pytest.approx(25.6))


def test_the_better_way_takes_fewer_rolls() -> None:
    # Along 9.6 m: 2 strips and 2 rolls. Across: 6 strips of 3.6 m, whose laps make it 3 rolls.
    found = rolled_out(area(rectangle(9.6, 3.6)))
    assert [w.rolls for w in found.ways] == [2, 3]
    assert found.better.rolled is Rolled.ALONG_LENGTH
    turned = rolled_out(area(rectangle(3.6, 9.6)))
    assert turned.better.rolled is Rolled.ALONG_WIDTH
    assert (turned.rolls, turned.used) == (found.rolls, found.used)


def test_an_l_takes_shorter_strips_over_its_leg() -> None:
    # Along 8 m: the lowest strip lies under the full length, the next two only under the 3 m leg.
    found = way(rolled_out(area(l_shape(8.0, 5.4, 5.0, 3.7)), 2.0, 30.0), Rolled.ALONG_LENGTH)
    assert found.run == pytest.approx(8.0 + 3.0 + 3.0)
    assert found.rolls == 1


def test_a_strip_that_leaves_the_area_and_comes_back_is_two_pieces() -> None:
    u_shape = polygon([(0, 0), (9, 0), (9, 3.5), (7, 3.5), (7, 1.5), (2, 1.5), (2, 3.5), (0, 3.5)], {})
    found = way(rolled_out(area(u_shape), 2.0, 50.0), Rolled.ALONG_LENGTH)
    assert found.strips == 2
    assert found.run == pytest.approx(9 + 2 + 2)


def test_every_point_of_the_area_lies_under_a_strip() -> None:
    rng = random.Random(1)
    for _ in range(40):
        paved = area(circle(rng.uniform(1, 20)))
        width, length = rng.uniform(0.8, 5), rng.uniform(5, 50)
        for found in rolled_out(paved, width, length).ways:
            step = width - LAP.value
            assert (found.strips - 1) * step + width >= paved.outline.bounds[3] - 1e-9
            assert found.strips == 1 or (found.strips - 2) * step + width < paved.outline.bounds[3]
            # No fewer rolls than the membrane laid fills, and no more than one a strip and its joins.
            assert found.rolls >= math.ceil(found.run / length - 1e-9)
            assert found.used >= shapely.Polygon(paved.outline.ring).area


def walked(lengths: list[float], roll: float, lap: float) -> int:
    """Rolls by walking along every strip a centimetre at a time."""
    rolls, left = 0, 0
    steps, joint = [round(length * 100) for length in lengths], round(lap * 100)
    for strip in steps:
        covered = 0
        while covered < strip:
            if left <= (joint if covered or left else 0):
                rolls, left = rolls + 1, round(roll * 100)
            left -= joint if covered else 0
            laid = min(left, strip - covered)
            covered, left = covered + laid, left - laid
    return rolls


def test_rolls_are_those_that_a_walk_of_centimetres_uses_up() -> None:
    rng = random.Random(8)
    for _ in range(200):
        length, width = rng.randint(100, 4000) / 100, rng.randint(200, 1500) / 100
        roll_width, roll_length = rng.choice([1.0, 2.0, 4.5]), rng.choice([10.0, 11.25, 25.0, 50.0])
        found = way(rolled_out(area(rectangle(length, width)), roll_width, roll_length), Rolled.ALONG_LENGTH)
        assert found.rolls == walked([length] * found.strips, roll_length, LAP.value)


@pytest.mark.parametrize(("width", "length"), [(0.3, 10.0), (2.0, 0.25)])
def test_a_lap_as_wide_as_the_roll_is_refused(width: float, length: float) -> None:
    with pytest.raises(OutOfRange, match="less than the roll") as refused:
        rolled_out(area(rectangle(4, 3)), width, length)
    assert refused.value.place == ("lap",)
