"""How fast random layings are laid and counted: `python -m tests.benchmarks.random_layings`.

Medians over seeds in milliseconds of the process's own time, so that others at work on the machine
don't count. Every mixed laying is judged as the tests judge it; how many came out in the exact
numbers is printed beside it.

At the end a solver (HiGHS, which scipy brings) is set the same task: exact numbers, no crossed joint, none
straight for longer.
"""

import statistics
import time
from collections.abc import Callable
from itertools import product

from service.paving.areas import Area, area, circle, l_shape, rectangle
from service.paving.errors import OutOfRange
from service.paving.laying.mixed.amounts import by_shares
from service.paving.layouts import Detail, Layout, Pattern, Paving, layout
from service.paving.slabs import Slab
from tests.paving.laying.random.judges import modules, rectangle_of
from tests.paving.laying.random.mixes import JOINT, MODULE, SHIPPED, paving, side, slab, slabs
from tests.paving.laying.random.solver import solved

SEEDS = {20: range(1, 10), 100: range(1, 6)}
USUAL = tuple(slab(*size) for size in ((3, 2), (2, 2), (2, 1), (1, 1)))


def milliseconds(work: Callable[[int], Layout], seeds: range) -> tuple[float, float, list[Layout]]:
    """Median, longest, and what was laid."""
    times, found = [], []
    for seed in seeds:
        start = time.process_time()
        found.append(work(seed))
        times.append((time.process_time() - start) * 1000)
    return statistics.median(times), max(times), found


def laid_anew(
    shape: Area, sizes: tuple[Slab, ...], limit: int, detail: Detail = Detail.pieces
) -> Callable[[int], Layout]:
    """Lays a mix on an area, with the seed it is given."""
    return lambda seed: layout(shape, paving(sizes, limit, seed, detail))


def main() -> None:
    shipped()
    shapes()
    coursed()
    refused()
    solver()


def shipped() -> None:
    print("mix, longest joint        20 x 20 median (most)   exact    100 x 100 median (most)   exact")
    for patch in SHIPPED:
        line = f"{patch.mix + ', ' + str(patch.limit):26s}"
        for number, seeds in SEEDS.items():
            square = area(rectangle(side(number), side(number)))
            median, most, found = milliseconds(laid_anew(square, slabs(patch), patch.limit), seeds)
            for one in found:
                laid = modules(one, MODULE, JOINT, rectangle_of(number, number))
                assert (laid.fault, laid.crossings, one.slabs_cut) == ("", 0, 0)
                assert laid.longest_joint <= patch.limit
            line += f"{median:8.0f} ({most:5.0f})   {sum(not one.note for one in found)} of {len(found)}      "
        print(line, flush=True)


def shapes() -> None:
    print("33/31/25/11, joints of 5 modules, other shapes: median (most)")
    cases: dict[str, Area] = {
        "L, 20 x 20 less 8 x 8": area(l_shape(side(20), side(20), 8 * MODULE, 8 * MODULE)),
        "L, 100 x 100 less 40 x 50": area(l_shape(side(100), side(100), 40 * MODULE, 50 * MODULE)),
        "circle of 20 modules, cut": area(circle(20 * MODULE)),
        "circle of 100 modules, cut": area(circle(100 * MODULE)),
    }
    for name, shape in cases.items():
        median, most, found = milliseconds(laid_anew(shape, USUAL, 5, Detail.counts), range(1, 6))
        print(
            f"{name:28s}{median:8.0f} ({most:5.0f})   {found[0].slabs_whole} whole, {found[0].slabs_cut} cut",
            flush=True,
        )


def coursed() -> None:
    print("coursed, 100 courses: median (most)")
    for lengths, width, stagger in (
        ((300, 450, 600, 750), 4.95, 0.075),
        ((300, 450, 600, 750), 9.9, 0.075),
        ((300, 450, 600, 750), 19.95, 0.15),
        ((400, 600, 900), 6.0, 0.1),
        ((400, 600, 900), 20.0, 0.1),
    ):
        sizes = tuple(Slab(str(n), n / 1000, 0.3, 0.04) for n in lengths)
        long = area(rectangle(width, 30.0))

        def work(seed: int, sizes: tuple[Slab, ...] = sizes, long: Area = long, stagger: float = stagger) -> Layout:
            return layout(
                long,
                Paving(
                    slabs=sizes, pattern=Pattern.coursed_random, stagger=stagger, seed=seed, detail=Detail.counts
                ),
            )  # fmt: skip

        median, most, found = milliseconds(work, range(1, 10))
        cut = sum(one.slabs_cut for one in found)
        print(
            f"{lengths!s:24s} {width:5.2f} m, stagger {stagger:.3f} m {median:8.0f} ({most:5.0f})   {cut} cut",
            flush=True,
        )


def refused() -> None:
    print("refusals with what would do instead, by modules (target 2000)")
    even = (slab(3, 2, 0.5), slab(2, 2, 0.3), slab(2, 1, 0.2))
    cases: dict[str, tuple[tuple[Slab, ...], int]] = {
        "too even, joints of 5": (even, 5),
        "usual, joints of 4": (USUAL, 4),
        "nothing between, joints of 5": ((slab(2, 2), slab(1, 1)), 5),
        "no patch, joints of 8": ((slab(7, 5), slab(5, 3), slab(3, 1)), 8),
    }
    for name, (sizes, limit) in cases.items():
        line = f"{name:30s}"
        for columns, rows in ((20, 20), (100, 100), (101, 99), (141, 141), (9, 2000)):
            start = time.process_time()
            try:
                layout(area(rectangle(side(columns), side(rows))), paving(sizes, limit, 1, Detail.counts))
            except OutOfRange:
                line += f"   {columns} x {rows} {(time.process_time() - start) * 1000:5.0f}"
        print(line, flush=True)


def solver(seconds: float = 120.0) -> None:
    print("33/31/25/11, solver (HiGHS) against ours, ms of processor time")
    shares = {(3, 2): 0.33, (2, 2): 0.31, (2, 1): 0.25, (1, 1): 0.11}
    given = tuple(slab(*size, share) for size, share in shares.items())
    for number, limit in product((10, 20), (10, 6, 5)):
        amounts = by_shares(number * number, list(shares), list(shares.values()))
        assert amounts is not None
        start = time.process_time()
        try:
            solved(number, dict(zip(shares, amounts.numbers, strict=True)), limit, seconds)
            word = f"{(time.process_time() - start) * 1000:.0f}"
        except TimeoutError:
            word = f"none in {seconds:.0f} s"
        square = area(rectangle(side(number), side(number)))
        median, most, found = milliseconds(laid_anew(square, given, limit, Detail.counts), range(1, 6))
        exact = sum(not one.note for one in found)
        print(
            f"{number} x {number}, joints of {limit:2d}: solver {word}, ours {median:.0f} ({most:.0f}), {exact} of 5 exact"
        )


if __name__ == "__main__":
    main()
