"""Five hundred larger areas laid a second time with shapely, slab by slab.

Boxes and ground are handed over in grid units, whole numbers, so that sides that lie flush do so
for shapely as well.
"""

import math
import random
from collections.abc import Sequence

import numpy as np
import pytest
import shapely

from service.paving import areas
from service.paving.laying.counts import Counted, counted
from service.paving.laying.cuts import Cuts
from service.paving.laying.grounds import Frame, ground
from service.paving.laying.pieces import Piece, cut_slabs, whole_slabs
from tests.paving.laying.samples import PATTERNS, angle, centimetres, origin, repeats, small_area

AREAS = 100
STRIP = 0.0005
NAMES = ("one", "other")


def rings(rng: random.Random) -> list[list[tuple[float, float]]]:
    """An area of a few metres; some are round, some round with a round opening."""
    if rng.random() < 0.6:
        return small_area(rng, 4.0)
    diameter = centimetres(rng, 4.0) + 0.5
    hole = areas.circle(diameter / 3).at(diameter * rng.uniform(0.1, 0.5), diameter / 3)
    found = areas.area(areas.circle(diameter), [hole] if rng.random() < 0.5 else [])
    return [list(ring) for ring in found.rings]


def laid_boxes(found: Counted, cells: slice) -> tuple[np.ndarray, np.ndarray]:
    """All boxes near the ground, as shapes [grid units], and which kind each is."""
    lattice, land = found.lattice, found.ground.polygon
    left, low, right, high = land.bounds
    (ux, uy), (vx, vy) = lattice.u, lattice.v
    corners = np.array([(x, y) for x in (left, right) for y in (low, high)])
    rows = (ux * corners[:, 1] - uy * corners[:, 0]) / (ux * vy - uy * vx)
    places = (vy * corners[:, 0] - vx * corners[:, 1]) / (ux * vy - uy * vx)
    q, p = np.meshgrid(
        np.arange(math.floor(rows.min()) - 4, math.ceil(rows.max()) + 5),
        np.arange(math.floor(places.min()) - 4, math.ceil(places.max()) + 5),
    )
    boxes = lattice.boxes[:, cells]
    x = (boxes[0][:, None] + (p * ux + q * vx).ravel()[None, :]).ravel()
    y = (boxes[1][:, None] + (p * uy + q * vy).ravel()[None, :]).ravel()
    kind = np.repeat(np.arange(boxes.shape[1]), p.size)
    near = (x < right) & (x + boxes[2][kind] > left) & (y < high) & (y + boxes[3][kind] > low)
    x, y, kind = x[near], y[near], kind[near]
    return shapely.box(x, y, x + boxes[2][kind], y + boxes[3][kind]), kind


@pytest.mark.slow
@pytest.mark.parametrize("pattern", PATTERNS)
def test_shapely_finds_the_same_slabs_lengths_and_pieces(pattern: str) -> None:
    rng = random.Random("larger" + pattern)
    total = 0
    for number in range(AREAS):
        lattice = repeats(pattern, rng)
        frame = Frame(origin(rng), angle(rng))
        found = counted(ground(rings(rng), frame, lattice.fineness), lattice)
        total += _slabs_agree(found, number)
        _joints_agree(found, number)
        _pieces_agree(found, frame, number)
    assert total > 50 * AREAS


def _slabs_agree(found: Counted, number: int) -> int:
    land, units, tiles = found.ground.polygon, found.lattice.units, found.lattice.slabs
    shapely.prepare(land)
    boxes, kind = laid_boxes(found, slice(0, tiles))
    area, cut = shapely.area(shapely.intersection(boxes, land)), _length_inside(boxes, land.boundary)
    strip = STRIP * units
    there = area > strip * (cut + strip)
    whole = there & (shapely.area(boxes) - area <= strip * (cut + strip))
    assert found.whole_by_tile.tolist() == np.bincount(kind[whole], minlength=tiles).tolist(), number
    assert found.cut_by_tile.tolist() == np.bincount(kind[there & ~whole], minlength=tiles).tolist(), number
    assert found.paved_area == pytest.approx(area[there].sum() / units**2, abs=1e-9), number
    assert found.sawing_length == pytest.approx(cut[there & ~whole].sum() / units, abs=1e-7), number
    return int(there.sum())


def _length_inside(boxes: np.ndarray, edge: shapely.Geometry) -> np.ndarray:
    """Length of the edge inside each box, without what runs along its sides."""
    through, along = shapely.intersection(boxes, edge), shapely.intersection(shapely.boundary(boxes), edge)
    return shapely.length(through) - shapely.length(along)


def _joints_agree(found: Counted, number: int) -> None:
    """All sides of all cells inside the area, merged so that each is measured once."""
    land, units = found.ground.polygon, found.lattice.units
    cells, _ = laid_boxes(found, found.lattice.cells)
    sides = shapely.union_all(shapely.boundary(cells), grid_size=1)
    inside = shapely.intersection(sides, land).length - shapely.intersection(sides, land.boundary).length
    assert found.joint_length == pytest.approx(inside / units, abs=1e-4), number


def _pieces_agree(found: Counted, frame: Frame, number: int) -> None:
    """The pieces on plan, turned back into the pattern's frame, are the slabs clipped by the area."""
    cuts, units = Cuts(found), found.lattice.units
    land = shapely.transform(found.ground.polygon, lambda points: points / units)
    whole, cut = whole_slabs(cuts, frame, NAMES), cut_slabs(cuts, frame, NAMES)
    assert len(whole) == found.whole_by_tile.sum()
    outlines = 0
    for piece in cut:
        kept = [shapely.Polygon(_turned_back(frame, ring)) for ring in piece.outlines]
        area = sum(ring.area if ring.exterior.is_ccw else -ring.area for ring in kept)
        slab = shapely.Polygon(_turned_back(frame, _corners(piece)))
        expected = slab.intersection(land)
        assert area == pytest.approx(expected.area, abs=4e-6), number
        assert shapely.difference(shapely.union_all(kept), expected.buffer(2e-6)).area < 1e-9, number
        outlines += sum(ring.exterior.is_ccw for ring in kept)
    assert outlines == cuts.pieces
    for piece in whole[:40]:
        slab = shapely.Polygon(_turned_back(frame, _corners(piece)))
        assert slab.intersection(land).area > slab.area * 0.98, number


def _corners(piece: Piece) -> list[tuple[float, float]]:
    cosine, sine = math.cos(piece.angle), math.sin(piece.angle)
    sides = ((0, 0), (piece.length, 0), (piece.length, piece.width), (0, piece.width))
    return [(piece.x + a * cosine - b * sine, piece.y + a * sine + b * cosine) for a, b in sides]


def _turned_back(frame: Frame, ring: Sequence[tuple[float, float]]) -> np.ndarray:
    return frame.from_plan(np.array(ring).T).T
