"""Lifting against the filter as it is quoted."""

import pytest

from service.paving.lifting import Height, Lift, Lifter, Lifting, Means, Reach, lifting
from service.paving.sheets import Sheet
from service.paving.slabs import Slab

A_MINUTE = 1 / 60


def lifted(mass: float, lift: Lift) -> Lifting:
    return lifting(Sheet(), mass, lift)


@pytest.mark.parametrize(
    ("row", "lifter", "height", "close", "far"),
    [
        ("SAFE-18", Lifter.MAN, Height.ELBOW, 25, 15),
        ("SAFE-18", Lifter.WOMAN, Height.ELBOW, 16, 10),
        ("SAFE-20", Lifter.MAN, Height.LOWER_LEG, 10, 5),
        ("SAFE-20", Lifter.WOMAN, Height.LOWER_LEG, 7, 3),
        ("SAFE-21", Lifter.MAN, Height.HEAD, 10, 5),
        ("SAFE-21", Lifter.WOMAN, Height.HEAD, 7, 3),
    ],
)
def test_the_filter_is_as_quoted(row: str, lifter: Lifter, height: Height, close: float, far: float) -> None:
    assert lifted(1.0, Lift(lifter, height, Reach.CLOSE)).one_person == close
    assert lifted(1.0, Lift(lifter, height, Reach.ARMS_LENGTH)).one_person == far


def test_no_place_is_better_than_close_at_the_elbow() -> None:
    for lifter in Lifter:
        best = lifted(1.0, Lift(lifter)).one_person
        weights = [lifted(1.0, Lift(lifter, height, reach)).one_person for height in Height for reach in Reach]
        assert max(weights) == best
        assert weights.count(best) == 1


@pytest.mark.parametrize(
    ("row", "a_minute", "weight"),
    [
        ("SAFE-26: about thirty an hour", 0.5, 25.0),
        ("SAFE-27: twice a minute", 2.0, 17.5),
        ("between two named frequencies the stricter", 3.0, 12.5),
        ("SAFE-24: five to eight a minute", 8.0, 12.5),
        ("more than twelve a minute", 13.0, 5.0),
    ],
)
def test_frequent_lifts_reduce_the_filter(row: str, a_minute: float, weight: float) -> None:
    assert lifted(1.0, Lift(frequency=a_minute * A_MINUTE)).one_person == pytest.approx(weight)


def test_a_slab_weighs_what_its_stone_does() -> None:
    # SAFE-29: 600 x 600 x 38 mm of sandstone weigh 33.5 kg at 24 kN/m3; 20 to 27 kN/m3 are printed for it.
    slab = Slab("slab", 0.6, 0.6, 0.038, made_of="sandstone")
    found = lifting(Sheet(), slab, Lift())
    assert found.mass == pytest.approx(33.5, rel=0.01)
    assert found.means is Means.THREE


@pytest.mark.parametrize(
    ("mass", "means"),
    [
        (25.0, Means.ONE),
        (25.1, Means.TWO),
        (33.3, Means.TWO),
        (33.5, Means.THREE),
        (37.5, Means.THREE),
        (67.1, Means.AID),
    ],
)
def test_a_mass_names_the_fewest_that_may_lift_it(mass: float, means: Means) -> None:
    # Two may use two thirds of the sum of theirs, three a half. The standard kerb of SAFE-14 needs an aid.
    sheet = Sheet()
    assert lifting(sheet, mass, Lift()).means is means
    assert ("heavy_lift" in sheet.cautions) is (means is not Means.ONE)
