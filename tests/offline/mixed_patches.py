"""Prepares the patches of mixed-size laying with a solver: `python -m tests.offline.mixed_patches`.

Needs ortools, which nothing else in the project does (`pip install -e .[offline]`). A patch is laid on a
torus: its right edge meets its left one, its top its bottom, so it can be repeated for ever. The
solver is asked for

    each module covered by one slab
    at most three corners of slabs at any point, so no joints cross
    in any row of R + 1 modules along a joint at least one slab across it
    the number of slabs of each size that the mix asks for

Mixes without a single module have no patch with joints of at most 5 modules: the solver finds at once that
there is none of that period that fields of any size can be cut from.

Writes `service/paving/laying/mixed/patches.csv`: mix, run limit, period, and the slabs as four
signs each, x y length width, in base 36. Patches already there are kept, so the command can be
stopped and started again.
"""

import csv
import sys
from collections.abc import Iterator
from itertools import product
from pathlib import Path

from ortools.sat.python import cp_model

FILE = Path(__file__).parents[2] / "service/paving/laying/mixed/patches.csv"
RUN_LIMITS = (5, 6, 8, 10)
PERIOD = 12
#: Lines along and across at which a field may be cut off where the mix has no single module: slabs across
#: one are of even width, so that what is left of them is in stock. Any size of field begins and ends at two of them,
#: because all differences below 12 are found between them.
EVEN_LINES = (0, 1, 3, 7)
#: Name, and slabs by size in one patch of 144 modules, largest first; the names tell the shares in percent.
MIXES: dict[str, dict[tuple[int, int], int]] = {
    "33-31-25-11": {(3, 2): 8, (2, 2): 11, (2, 1): 18, (1, 1): 16},
    "42-28-21-10": {(3, 2): 10, (2, 2): 10, (2, 1): 15, (1, 1): 14},
    "50-25-17-8": {(3, 2): 12, (2, 2): 9, (2, 1): 12, (1, 1): 12},
    "21-36-36-7": {(3, 2): 5, (2, 2): 13, (2, 1): 26, (1, 1): 10},
    "33-17-38-12": {(3, 2): 8, (2, 2): 6, (2, 1): 27, (1, 1): 18},
    "50-25-25-0": {(3, 2): 12, (2, 2): 9, (2, 1): 18},
    "42-22-36-0": {(3, 2): 10, (2, 2): 8, (2, 1): 26},
    "25-25-50-0": {(3, 2): 6, (2, 2): 9, (2, 1): 36},
    "squares 58-32-10": {(2, 2): 21, (2, 1): 23, (1, 1): 14},
    "squares 56-36-8": {(2, 2): 20, (2, 1): 26, (1, 1): 12},
    "oblongs 67-24-10": {(3, 2): 16, (2, 1): 17, (1, 1): 14},
    "large 25-25-22-18-10": {(3, 3): 4, (3, 2): 6, (2, 2): 8, (2, 1): 13, (1, 1): 14},
    "narrow 25-21-22-21-11": {(3, 2): 6, (3, 1): 10, (2, 2): 8, (2, 1): 15, (1, 1): 16},
}  # fmt: skip
Slab = tuple[int, int, int, int]


def main() -> None:
    kept = {(row["mix"], int(row["run_limit"])): row for row in rows()}
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 120.0
    for limit, (name, numbers) in product(sorted(RUN_LIMITS, reverse=True), MIXES.items()):
        if (name, limit) in kept:
            continue
        slabs = patch(numbers, limit, seconds)
        print(name, limit, "none" if slabs is None else f"{len(slabs)} slabs", flush=True)
        if slabs is not None:
            kept[name, limit] = {
                "mix": name, "run_limit": str(limit), "period": str(PERIOD), "slabs": written(slabs)
            }  # fmt: skip
            write([kept[key] for key in sorted(kept)])


def patch(numbers: dict[tuple[int, int], int], limit: int, seconds: float) -> list[Slab] | None:
    """Slabs x, y, length, width on the torus, or none found in time."""
    model = cp_model.CpModel()
    laid = {slab: model.new_bool_var(str(slab)) for slab in places(numbers)}
    for cells in covering(laid).values():
        model.add_exactly_one(laid[slab] for slab in cells)
    for corners in corner_slabs(laid).values():
        model.add(sum(laid[slab] for slab in corners) <= 3)
    for across in spanning(laid, limit):
        model.add_bool_or([laid[slab] for slab in across])
    for size, number in numbers.items():
        model.add(sum(var for slab, var in laid.items() if size in (slab[2:], slab[:1:-1])) == number)
    if (1, 1) not in numbers:
        for slab in laid:
            if uneven(slab):
                model.add(laid[slab] == 0)
    solver = cp_model.CpSolver()
    solver.parameters.random_seed = limit
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 4
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return [slab for slab, var in laid.items() if solver.boolean_value(var)]


def places(numbers: dict[tuple[int, int], int]) -> Iterator[Slab]:
    for length, width in sorted({turned for size in numbers for turned in (size, size[::-1])}):
        yield from ((x, y, length, width) for x, y in product(range(PERIOD), repeat=2))


def covering(laid: dict[Slab, object]) -> dict[tuple[int, int], list[Slab]]:
    found: dict[tuple[int, int], list[Slab]] = {}
    for slab in laid:
        x, y, length, width = slab
        for dx, dy in product(range(length), range(width)):
            found.setdefault(((x + dx) % PERIOD, (y + dy) % PERIOD), []).append(slab)
    return found


def corner_slabs(laid: dict[Slab, object]) -> dict[tuple[int, int], list[Slab]]:
    found: dict[tuple[int, int], list[Slab]] = {}
    for slab in laid:
        x, y, length, width = slab
        for dx, dy in product((0, length), (0, width)):
            found.setdefault(((x + dx) % PERIOD, (y + dy) % PERIOD), []).append(slab)
    return found


def spanning(laid: dict[Slab, object], limit: int) -> Iterator[list[Slab]]:
    """For every stretch of a joint line one module longer than the limit: slabs that lie across it."""
    across: dict[tuple[int, int, int], set[Slab]] = {}
    for slab in laid:
        x, y, length, width = slab
        for dx, dy in product(range(1, length), range(width)):
            across.setdefault((0, (x + dx) % PERIOD, (y + dy) % PERIOD), set()).add(slab)
        for dx, dy in product(range(length), range(1, width)):
            across.setdefault((1, (y + dy) % PERIOD, (x + dx) % PERIOD), set()).add(slab)
    for way, line, start in product((0, 1), range(PERIOD), range(PERIOD)):
        yield sorted(set().union(*(across[way, line, (start + k) % PERIOD] for k in range(limit + 1))))


def uneven(slab: Slab) -> bool:
    """Whether a slab of odd width lies across one of the lines where a field may be cut off."""
    x, y, length, width = slab
    across = any((x + dx) % PERIOD in EVEN_LINES for dx in range(1, length)) and width % 2 == 1
    along = any((y + dy) % PERIOD in EVEN_LINES for dy in range(1, width)) and length % 2 == 1
    return across or along


def rows() -> list[dict[str, str]]:
    if not FILE.exists():
        return []
    with FILE.open(newline="") as file:
        return list(csv.DictReader(file))


def write(found: list[dict[str, str]]) -> None:
    with FILE.open("w", newline="") as file:
        writer = csv.DictWriter(file, ["mix", "run_limit", "period", "slabs"], lineterminator="\n")
        writer.writeheader()
        writer.writerows(found)


def written(slabs: list[Slab]) -> str:
    signs = "0123456789abcdefghijklmnopqrstuvwxyz"
    return " ".join("".join(signs[n] for n in slab) for slab in slabs)


if __name__ == "__main__":
    main()
