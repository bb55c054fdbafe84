"""How many slabs offcuts save, and how long that takes: `python -m tests.benchmarks.offcuts [--patterns]`.

Thirty generated layouts: a rectangle, an L and a ring, each at five angles, in seven pavings and
three sizes, taken in turn so that every case is another combination. Kerf 3 mm. For each way of
turning, in one run:

    cut          slabs cut, as if no offcut were used again
    rectangles   slabs when each piece is the rectangle round it; its bound says nothing of true shapes
    true shapes  slabs by true shape, made edges given up or kept; the bound is of every cutting
    quick        one pass over rectangles, as inside a whole job

Times are medians of some runs, of the processor and by the clock: on a machine that others use
too, the clock runs on while they work. With `--patterns` the linear program over patterns
(tests/paving/laying/offcuts/patterns.py) is solved as well: what a stronger bound would say.
"""

import math
import statistics
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from service.paving import areas
from service.paving.laying.cut_pieces import CutPieces, MadeEdges, Turning
from service.paving.laying.offcuts import Effort, slabs_to_buy
from service.paving.laying.offcuts.boards import Board
from service.paving.laying.offcuts.cuttings import TRIES, rectangles, true_shapes
from service.paving.laying.offcuts.parts import parts
from service.paving.laying.offcuts.rectangle_bounds import rectangle_bound
from service.paving.laying.offcuts.rules import Stock
from service.paving.laying.pieces import cut_pieces
from service.paving.layouts import Detail, Pattern, Paving, layout
from service.paving.slabs import Slab
from tests.paving.laying.offcuts.patterns import pattern_bound

KERF = 3000
RUNS = 5
ANGLES = (0.0, 15.0, 27.5, 45.0, 62.0)
SIZES = (0.6, 1.0, 1.6)
PAVINGS: tuple[tuple[float, float, dict[str, Any]], ...] = (
    (0.600, 0.600, {"pattern": Pattern.stack_bond}),
    (0.600, 0.300, {"pattern": Pattern.stretcher_bond}),
    (0.900, 0.600, {"pattern": Pattern.stretcher_bond, "offset": Fraction(1, 3)}),
    (0.600, 0.300, {"pattern": Pattern.herringbone_90}),
    (0.605, 0.300, {"pattern": Pattern.basket_weave}),
    (0.450, 0.450, {"pattern": Pattern.stretcher_bond}),
    (0.600, 0.400, {"pattern": Pattern.stack_bond}),
)


@dataclass(frozen=True)
class Case:
    """The cut pieces of one layout."""

    name: str
    length: int
    width: int
    cuts: CutPieces

    @property
    def cut(self) -> int:
        """Slabs cut."""
        return len(set(self.cuts.places.tolist()))


def cases() -> Iterator[Case]:
    """Thirty layouts; three, five and seven have no common divisor, so no two are alike."""
    for k in range(30):
        size, angle = SIZES[k // 10], ANGLES[k % 5]
        name, area = _area(k % 3, size)
        length, width, pattern = PAVINGS[k % 7]
        paving = Paving(
            slabs=(Slab("flag", length, width, 0.04),),
            joint=0.005,
            angle=math.radians(angle),
            origin=(0.037, 0.092),
            detail=Detail.counts,
            **pattern,
        )
        (cuts,) = cut_pieces(layout(area, paving).laid.cuts, 1)
        kind = f"{name} x{size:g} at {angle:g}, {pattern['pattern'].value} {1000 * length:.0f} x {1000 * width:.0f}"
        yield Case(kind, round(1e6 * length), round(1e6 * width), cuts)


def _area(kind: int, size: float) -> tuple[str, areas.Area]:
    if kind == 0:
        return "rectangle", areas.area(areas.rectangle(6.4 * size, 4.3 * size))
    if kind == 1:
        return "L", areas.area(areas.l_shape(7.0 * size, 5.6 * size, 3.8 * size, 2.5 * size))
    opening = areas.circle(2.6 * size).at(1.9 * size, 1.9 * size)
    return "ring", areas.area(areas.circle(6.4 * size), [opening])


@dataclass(frozen=True)
class Timed:
    """Slabs, a bound, and the medians of what they took [ms]."""

    slabs: int
    bound: int
    processor: float
    clock: float


def timed(work: Callable[[], tuple[int, int]]) -> Timed:
    """Do it a few times."""
    processor, clock = [], []
    for _ in range(RUNS):
        began, started = time.process_time(), time.perf_counter()
        slabs, bound = work()
        processor.append(1000 * (time.process_time() - began))
        clock.append(1000 * (time.perf_counter() - started))
    return Timed(slabs, bound, statistics.median(processor), statistics.median(clock))


def by_rectangles(case: Case, stock: Stock) -> tuple[int, int]:
    """The rectangle model alone, and its own bound."""
    measured = parts(case.cuts, stock)
    boxes = [(part.length, part.width) for part in measured]
    return rectangles(measured, stock, TRIES).slabs, rectangle_bound(boxes, stock)


def by_shapes(case: Case, stock: Stock) -> tuple[int, int]:
    """True shapes alone, with the bound of every cutting."""
    board = Board(parts(case.cuts, stock), stock)
    found = true_shapes(board, TRIES).slabs
    return found, max(board.area_bound, board.pair_bound, board.edge_bound)


def bought(case: Case, stock: Stock, effort: Effort) -> tuple[int, int]:
    """What is answered."""
    found = slabs_to_buy(case.cuts, stock.length, stock.width, stock.kerf, stock.turning, stock.made_edges, effort)
    return found.slabs, found.bound


def compare(turning: Turning, drawn: Sequence[Case]) -> None:
    """Print one table and its totals."""
    ways: dict[str, list[Timed]] = {}
    print(f"\nturning: {turning.value}")
    print(f"{'case':58} cut  rectangles  shapes free  shapes kept   answer  quick   (slabs / bound)")
    for case in drawn:
        free, kept = (
            Stock(case.length, case.width, KERF, turning, edges) for edges in (MadeEdges.free, MadeEdges.kept)
        )
        row = {
            "rectangles": timed(lambda c=case, s=free: by_rectangles(c, s)),
            "true shapes, made edges free": timed(lambda c=case, s=free: by_shapes(c, s)),
            "true shapes, made edges kept": timed(lambda c=case, s=kept: by_shapes(c, s)),
            "answer, thorough": timed(lambda c=case, s=free: bought(c, s, Effort.thorough)),
            "answer, quick": timed(lambda c=case, s=free: bought(c, s, Effort.quick)),
        }
        print(f"{case.name:58} {case.cut:3} " + "  ".join(f"{t.slabs:4} /{t.bound:4}" for t in row.values()))
        for way, one in row.items():
            ways.setdefault(way, []).append(one)
    _print_totals(ways, sum(case.cut for case in drawn))


def _print_totals(ways: dict[str, list[Timed]], cut: int) -> None:
    print(
        f"\n{'total of ' + str(cut) + ' cut slabs':30} slabs  bound   gap   proved   processor ms median/most   clock ms"
    )
    for way, ones in ways.items():
        slabs, bound = sum(one.slabs for one in ones), sum(one.bound for one in ones)
        proved = sum(one.slabs == one.bound for one in ones)
        processor, clock = [one.processor for one in ones], [one.clock for one in ones]
        print(
            f"{way:30} {slabs:5}  {bound:5}  {slabs / bound - 1:5.1%}  {proved:2}/{len(ones)}"
            f"   {statistics.median(processor):12.2f} /{max(processor):7.2f}"
            f"   {statistics.median(clock):10.2f} /{max(clock):7.2f}"
        )
    rectangle, shape = (sum(one.slabs for one in ways[way]) for way in list(ways)[:2])
    print(f"true shapes against rectangles, same turning: {shape / rectangle - 1:+.1%}")


def compare_patterns(turning: Turning, drawn: Sequence[Case]) -> None:
    """Print what the linear program over patterns proves, where ours leaves a gap."""
    found = ours = program = 0
    for case in drawn:
        stock = Stock(case.length, case.width, KERF, turning, MadeEdges.free)
        slabs, bound = bought(case, stock, Effort.thorough)
        found, ours = found + slabs, ours + bound
        board = Board(parts(case.cuts, stock), stock)
        program += bound if slabs == bound else max(bound, pattern_bound(board.shares, board.sharings))
    print(f"turning {turning.value}: found {found}, our bound {ours}, by the linear program over patterns {program}")


def main() -> None:
    """Run all."""
    drawn = list(cases())
    pieces = [case.cuts.places.size for case in drawn]
    print(f"{len(drawn)} cases of {min(pieces)} to {max(pieces)} pieces, {sum(pieces)} in all; kerf {KERF / 1000:g} mm")
    for turning in Turning:
        compare(turning, drawn)
    if "--patterns" in sys.argv:
        print()
        for turning in Turning:
            compare_patterns(turning, drawn)


if __name__ == "__main__":
    main()
