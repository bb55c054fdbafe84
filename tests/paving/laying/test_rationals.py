"""Ten thousand small areas counted a second time in exact fractions: not one count may differ."""

import random

import pytest

from service.paving.laying.counts import counted
from service.paving.laying.grounds import Frame, Ground, ground
from tests.paving.laying.rationals import Ring, tally
from tests.paving.laying.samples import PATTERNS, angle, origin, repeats, small_area

AREAS = 2_000
#: How large the areas are [m], so that each takes a handful of slabs.
SIZES = {"stack_bond": 1.0, "stretcher_bond": 1.0, "herringbone": 0.8, "basket_weave": 0.8, "pinwheel": 0.7}


@pytest.mark.slow
@pytest.mark.parametrize("pattern", PATTERNS)
def test_no_count_differs_from_exact_fractions(pattern: str) -> None:
    rng = random.Random(pattern)
    slabs = 0
    for number in range(AREAS):
        lattice = repeats(pattern, rng)
        rings = small_area(rng, SIZES[pattern])
        land = ground(rings, Frame(origin(rng), angle(rng)), lattice.fineness)
        found = counted(land, lattice)
        exact = tally(micrometres(land, lattice.fineness), lattice.repeat)
        assert (found.whole_by_tile.sum(), found.cut_by_tile.sum()) == (exact.whole, exact.cut), number
        assert found.paved_area == pytest.approx(float(exact.area) / 1e12, abs=1e-15), number
        slabs += exact.whole + exact.cut
    assert slabs > 5 * AREAS


def micrometres(land: Ground, fineness: int) -> list[Ring]:
    """The rings of a ground in whole micrometres."""
    points = [(int(x), int(y)) for x, y in (land.starts // fineness).T]
    rings: list[Ring] = []
    start = 0
    for k, follower in enumerate(land.following.tolist()):
        if follower <= k:
            rings.append([*points[start : k + 1]])
            start = k + 1
    return rings
