"""How fast layouts are counted and cut, against shapely in the same run: `python -m tests.benchmarks.layouts`.

Medians in milliseconds of processor time, so that other work on the machine counts little.
The ways compared give the same answer:

    count    the engine, edges only: whole and cut slabs, areas, joints, sawing
    shapes   the engine: the outline and place of every cut slab as well, whole ones in courses
    listed   the engine: every slab one by one, and offcuts used again (quickly)
    arrays   shapely over all slabs at once: box, covers, intersects, intersection
    plain    shapely slab by slab: box, intersection, area
    loop     the same, but asked first whether the area contains the slab; only others are clipped

The ratios hold from machine to machine; single times don't.
"""

import math
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
import shapely

from service.paving import areas
from service.paving.laying.pieces import Course, Piece, courses, cut_slabs
from service.paving.layouts import Detail, Effort, Layout, Pattern, Paving, Search, layout
from service.paving.slabs import Slab

FLAG = Slab("flag", 0.6, 0.6, 0.04)
BLOCK = Slab("block", 0.2, 0.1, 0.06)
STACKED = Paving(slabs=(FLAG,), pattern=Pattern.stack_bond, joint=0.005, detail=Detail.counts)
BLOCKS = Paving(slabs=(BLOCK,), pattern=Pattern.herringbone_90, joint=0.003, detail=Detail.counts)


@dataclass(frozen=True)
class Case:
    """An area for about so many slabs, and how the pattern is turned."""

    name: str
    area: areas.Area
    angle: float


def cases(slabs: int, slab: Slab) -> list[Case]:
    """Rectangle, L at 45 degrees, and ring, each about as large as so many slabs."""
    side = math.sqrt(slabs * slab.length * slab.width)
    ring = areas.area(areas.circle(1.2 * side), [areas.circle(0.4 * side).at(0.4 * side, 0.4 * side)])
    return [
        Case("rectangle", areas.area(areas.rectangle(side, side)), 0.0),
        Case(
            "L at 45 degrees", areas.area(areas.l_shape(1.15 * side, 1.15 * side, 0.5 * side, 0.5 * side)), math.pi / 4
        ),
        Case("ring", ring, 0.2),
    ]


def milliseconds(work: Callable[[], object], times: int) -> float:
    """Median of several runs."""
    found = []
    for _ in range(times):
        start = time.process_time()
        work()
        found.append((time.process_time() - start) * 1000)
    return statistics.median(found)


def boxes(found: Layout) -> np.ndarray:
    """Left, low, right, high of all slabs near the area [grid units]."""
    lattice = found.laid.counted.lattice
    left, low, right, high = found.laid.counted.ground.polygon.bounds
    (ux, uy), (vx, vy) = lattice.u, lattice.v
    ends = np.array([(x, y) for x in (left, right) for y in (low, high)])
    rows = (ux * ends[:, 1] - uy * ends[:, 0]) / lattice.area
    places = (vy * ends[:, 0] - vx * ends[:, 1]) / lattice.area
    q, p = np.mgrid[int(rows.min()) - 3 : int(rows.max()) + 4, int(places.min()) - 3 : int(places.max()) + 4]
    x, y, length, width = lattice.boxes[:, : lattice.slabs].astype(float)
    x = (x[:, None] + (p * ux + q * vx).ravel()).ravel()
    y = (y[:, None] + (p * uy + q * vy).ravel()).ravel()
    length, width = np.repeat(length, p.size), np.repeat(width, p.size)
    near = (x < right) & (x + length > left) & (y < high) & (y + width > low)
    return np.array((x, y, x + length, y + width))[:, near]


def by_arrays(corners: np.ndarray, land: shapely.Geometry) -> tuple[int, np.ndarray, np.ndarray]:
    """Whole slabs, the others that meet the area, and how much of them is inside, by shapely over arrays."""
    shapely.prepare(land)
    slabs = shapely.box(*corners)
    whole = shapely.covers(land, slabs)
    met = slabs[~whole]
    met = met[shapely.intersects(land, met)]
    area = shapely.area(shapely.intersection(met, land))
    shapely.destroy_prepared(land)
    return int(whole.sum()), met, area


def by_plain_loop(corners: np.ndarray, land: shapely.Geometry) -> list[shapely.Geometry]:
    """The piece of every slab, slab by slab."""
    found = []
    for left, low, right, high in corners.T.tolist():
        piece = land.intersection(shapely.box(left, low, right, high))
        if piece.area > 0:
            found.append(piece)
    return found


def by_loop(corners: np.ndarray, land: shapely.Geometry) -> tuple[int, list[shapely.Geometry]]:
    """Whole slabs, and the piece of every other one, slab by slab."""
    whole, pieces = 0, []
    for left, low, right, high in corners.T.tolist():
        slab = shapely.box(left, low, right, high)
        if land.contains(slab):
            whole += 1
            continue
        piece = land.intersection(slab)
        if piece.area > 0:
            pieces.append(piece)
    return whole, pieces


def difference(found: Layout, corners: np.ndarray) -> int:
    """Counts by which shapely differs, by the same rule of half a millimetre; not timed."""
    counted = found.laid.counted
    whole, met, area = by_arrays(corners, counted.ground.polygon)
    edge, strip = counted.ground.polygon.boundary, found.tolerance * counted.lattice.units
    along = shapely.length(shapely.intersection(shapely.boundary(met), edge))
    cut = shapely.length(shapely.intersection(met, edge)) - along
    there = area > strip * (cut + strip)
    rest = there & (shapely.area(met) - area <= strip * (cut + strip))
    return abs(whole + int(rest.sum()) - found.slabs_whole) + abs(int((there & ~rest).sum()) - found.slabs_cut)


def counting() -> None:
    print("counting                     slabs    count   arrays   ratio")
    for paving in (STACKED, BLOCKS):
        print(f"  {paving.pattern.value}, joint {paving.joint * 1000:g} mm")
        for case in cases(100_000, paving.slabs[0]):
            asked = replace(paving, angle=case.angle)
            found = layout(case.area, asked)
            corners, land = boxes(found), found.laid.counted.ground.polygon
            ours = milliseconds(lambda a=case.area, p=asked: layout(a, p), 31)
            theirs = milliseconds(lambda c=corners, g=land: by_arrays(c, g), 3)
            slabs = found.slabs_whole + found.slabs_cut
            told = f"{theirs / ours:7.0f}x   {difference(found, corners)} counts differ"
            print(f"  {case.name:20}{slabs:12,}{ours:9.2f}{theirs:9.0f}{told}")


def growth() -> None:
    print("growth                       slabs    count")
    for paving in (STACKED, BLOCKS):
        for k, name in enumerate(("rectangle", "L at 45 degrees", "ring")):
            times = []
            for slabs in (10_000, 100_000, 1_000_000):
                case = cases(slabs, paving.slabs[0])[k]
                asked = replace(paving, angle=case.angle)
                times.append(milliseconds(lambda a=case.area, p=asked: layout(a, p), 15))
            power = math.log10(times[2] / times[0]) / 2
            listed = " ".join(f"{t:.2f}" for t in times)
            print(
                f"  {paving.pattern.value:15}{name:17} 10k, 100k, 1M: {listed}   grows as slabs to the power {power:.2f}"
            )


def cutting() -> None:
    print(
        "cutting                      slabs   shapes   listed     loop    plain   loop and plain to shapes, to listed"
    )
    for case in cases(10_000, FLAG):
        asked = replace(STACKED, angle=case.angle, detail=Detail.pieces, effort=Effort.quick)
        found = layout(case.area, asked)
        corners, land = boxes(found), found.laid.counted.ground.polygon
        shapes = milliseconds(lambda a=case.area, p=asked: cut_shapes(a, p), 15)
        listed = milliseconds(lambda a=case.area, p=asked: layout(a, p), 15)
        loop = milliseconds(lambda c=corners, g=land: by_loop(c, g), 3)
        plain = milliseconds(lambda c=corners, g=land: by_plain_loop(c, g), 3)
        told = f"{loop / shapes:6.0f}x {plain / shapes:3.0f}x, {loop / listed:3.0f}x {plain / listed:3.0f}x"
        times = f"{shapes:9.1f}{listed:9.1f}{loop:9.0f}{plain:9.0f}"
        print(f"  {case.name:20}{len(found.pieces):12,}{times}{told}   {difference(found, corners)} counts differ")


def cut_shapes(area: areas.Area, paving: Paving) -> tuple[tuple[Course, ...], tuple[Piece, ...]]:
    """Whole slabs in courses, and every cut one with its outlines."""
    found = layout(area, replace(paving, detail=Detail.counts)).laid
    return courses(found.counted), cut_slabs(found.cuts, found.frame, [slab.name for slab in paving.slabs])


def searching() -> None:
    print("origin with the fewest cuts  slabs       ms")
    for slabs in (100, 1_000):
        for case in cases(slabs, FLAG):
            asked = replace(STACKED, angle=case.angle, origin=Search.fewest_cuts)
            still = layout(case.area, replace(STACKED, angle=case.angle))
            found = layout(case.area, asked)
            ours = milliseconds(lambda a=case.area, p=asked: layout(a, p), 5)
            print(
                f"  {case.name:20}{slabs:12,}{ours:9.1f}   {still.slabs_cut} -> {found.slabs_cut} cuts; {found.search}"
            )


if __name__ == "__main__":
    counting()
    growth()
    cutting()
    searching()
