"""Prepares other middles of the patches of mixed-size laying with a solver: `python -m tests.offline.mixed_middles`.

A patch repeated for ever can be seen to repeat. So each is parted into a frame, the slabs that lie across
the two lines where it meets itself, and what lies between them, which is laid anew in several ways:

    |  |  |  |        the frame       +--+     stays as it is
    +-==--+-=+--      the middle      .  .     any of several, each time the patch is laid
    |  |  |  |

Any middle may lie beside any other, because along the lines

    a joint may end on one side only where none may on the other, so none cross there
    a joint beside a slab of the frame runs on so far that it is short enough with the longest on the other side

and each has as many slabs of each size as the patch. Among those the solver looks for one that has
fewest slabs in common with the middles before.

Needs ortools, as `mixed_patches` does. Writes `service/paving/laying/mixed/middles.csv`: mix, run limit, the
place x y of the lines and the slabs between them, from there. Middles already there are kept.
"""

import csv
import sys
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import product
from multiprocessing import Pool
from pathlib import Path

from ortools.sat.python import cp_model

from service.paving.laying.mixed.patches import Patch, patches
from tests.offline.mixed_patches import Slab, uneven, written

FILE = Path(__file__).parents[2] / "service/paving/laying/mixed/middles.csv"
#: Middles of each patch besides its own, and places of the lines that are tried for them.
MIDDLES, PLACES = 7, 8
#: Part of the slabs in common with which no other place is tried.
ENOUGH = 0.3
Module = tuple[int, int]


@dataclass
class Parted:
    """A patch seen from the place of its lines.

    Parameters
    ----------
    patch : Patch
        The patch.
    x, y : int
        Where the lines are.
    """

    patch: Patch
    x: int
    y: int
    frame: list[Slab] = field(init=False)
    middle: list[Slab] = field(init=False)

    def __post_init__(self) -> None:
        p = self.patch.period
        moved = [((x - self.x) % p, (y - self.y) % p, length, width) for x, y, length, width in self.patch.stones]
        self.frame = [slab for slab in moved if slab[0] + slab[2] > p or slab[1] + slab[3] > p]
        self.middle = [slab for slab in moved if slab not in self.frame]

    def crosswise(self) -> "Parted":
        """The same with x and y changed."""
        stones = tuple((y, x, width, length) for x, y, length, width in self.patch.stones)
        return Parted(Patch(self.patch.mix, self.patch.limit, self.patch.period, stones), self.y, self.x)


def main() -> None:
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 4.0
    kept = rows()
    names = {(row["mix"], row["run_limit"]) for row in kept}
    waiting = [(patch, seconds) for patch in patches() if (patch.mix, str(patch.limit)) not in names]
    with Pool(2) as pool:
        for found in pool.imap(laid_anew, waiting):
            kept += found
            write(kept)


def laid_anew(asked: tuple[Patch, float]) -> list[dict[str, str]]:
    """Rows of the file for one patch: from the place of the lines with the most middles, of those tried."""
    patch, seconds = asked
    places = sorted((len(Parted(patch, x, y).frame), x, y) for x, y in product(range(patch.period), repeat=2))
    tried = []
    for _, x, y in places[:PLACES]:
        parted = Parted(patch, x, y)
        found = middles(parted, seconds)
        tried.append((alike(parted, found), x, y, found))
        if tried[-1][0] < ENOUGH:
            break
    part, x, y, best = min(tried)
    print(patch.mix, patch.limit, f"{len(best)} middles, {part:.2f} alike", flush=True)
    place = {"mix": patch.mix, "run_limit": str(patch.limit), "x": str(x), "y": str(y)}
    return [{**place, "slabs": written(slabs)} for slabs in best]


def alike(parted: Parted, found: list[list[Slab]]) -> float:
    """Part of the slabs that a patch and the next one of the same have in common, on average."""
    ways = [set(slabs) for slabs in (parted.middle, *found)]
    shared = sum(len(a & b) for a in ways for b in ways) / len(ways) ** 2
    return (len(parted.frame) + shared) / len(parted.patch.stones)


def middles(parted: Parted, seconds: float) -> list[list[Slab]]:
    """Other middles, each as unlike those before as is found in time."""
    model = cp_model.CpModel()
    laid = {slab: model.new_bool_var(str(slab)) for slab in spots(parted)}
    for slabs in covering(parted, laid):
        model.add_exactly_one(laid[slab] for slab in slabs)
    for slabs, most in corners(parted, laid):
        model.add(sum(laid[slab] for slab in slabs) <= most)
    for swapped in (False, True):
        seen = parted.crosswise() if swapped else parted
        for slabs in spanning(seen, [turned(slab) if swapped else slab for slab in laid]):
            model.add_bool_or([laid[turned(slab) if swapped else slab] for slab in slabs])
    for size, number in Counter(sizes(parted.middle)).items():
        model.add(sum(var for slab, var in laid.items() if size in sizes([slab])) == number)
    used, found = Counter(parted.middle), [parted.middle]
    for _ in range(MIDDLES):
        model.minimize(sum(used[slab] * laid[slab] for slab in laid if used[slab]))
        solver = cp_model.CpSolver()
        solver.parameters.random_seed, solver.parameters.num_workers = len(found), 1
        solver.parameters.max_time_in_seconds = seconds
        if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            break
        slabs = [slab for slab, var in laid.items() if solver.boolean_value(var)]
        if any(set(slabs) == set(other) for other in found):
            break
        found.append(slabs)
        used.update(slabs)
    return found[1:]


def turned(slab: Slab) -> Slab:
    x, y, length, width = slab
    return y, x, width, length


def sizes(slabs: Iterable[Slab]) -> list[Module]:
    return [(max(length, width), min(length, width)) for _, _, length, width in slabs]


def modules(slab: Slab, period: int) -> set[Module]:
    x, y, length, width = slab
    return {((x + i) % period, (y + k) % period) for i in range(length) for k in range(width)}


def spots(parted: Parted) -> Iterator[Slab]:
    """Where a slab may lie between the lines."""
    p = parted.patch.period
    under = set().union(*(modules(slab, p) for slab in parted.frame))
    for length, width in sorted({way for a, b in parted.patch.numbers for way in ((a, b), (b, a))}):
        for x, y in product(range(p - length + 1), range(p - width + 1)):
            slab = x, y, length, width
            at = (x + parted.x) % p, (y + parted.y) % p, length, width
            if not modules(slab, p) & under and ((1, 1) in parted.patch.numbers or not uneven(at)):
                yield slab


def covering(parted: Parted, laid: Iterable[Slab]) -> Iterable[list[Slab]]:
    found = defaultdict(list)
    for slab in laid:
        for module in modules(slab, parted.patch.period):
            found[module].append(slab)
    assert len(found) == len(set().union(*(modules(slab, parted.patch.period) for slab in parted.middle)))
    return found.values()


def corners(parted: Parted, laid: Iterable[Slab]) -> Iterator[tuple[list[Slab], int]]:
    """Slabs with a corner at a point, and how many of them may lie: three between the lines, on them those of one side."""
    p, found = parted.patch.period, defaultdict(list)
    fixed = Counter(((x + i) % p, (y + k) % p) for x, y, a, b in parted.frame for i in (0, a) for k in (0, b))
    for slab in laid:
        x, y, length, width = slab
        for i, k in product((0, length), (0, width)):
            found[x + i, y + k].append(slab)
    for (x, y), slabs in found.items():
        if 0 < x < p and 0 < y < p:
            yield slabs, 3 - fixed[x, y]
    for y in range(1, p):
        yield from barred(parted, y, found[0, y], found[p, y])
    for x in range(1, p):
        low, high = found[x, 0], found[x, p]
        for slabs, most in barred(parted.crosswise(), x, low, high):
            yield slabs, most


def barred(parted: Parted, y: int, right: list[Slab], left: list[Slab]) -> Iterator[tuple[list[Slab], int]]:
    """The slabs on one side of the upright line that may not have a corner at a height: there the other side may."""
    p = parted.patch.period
    across = [slab for slab in parted.frame if slab[0] + slab[2] > p]
    if any((y - slab[1]) % p <= slab[3] for slab in across):
        return
    ends = {(x + length) % p == 0 for x, low, length, width in (*parted.middle, *parted.frame)
            if y in (low % p, (low + width) % p) and 0 in (x % p, (x + length) % p)}  # fmt: skip
    yield (right if (True in ends or (not ends and y % 2)) else left), 0


def spanning(parted: Parted, laid: Iterable[Slab]) -> Iterator[list[Slab]]:
    """Slabs of which one must lie across an upright joint, so that it ends."""
    p, limit = parted.patch.period, parted.patch.limit
    over: dict[Module, list[Slab]] = defaultdict(list)
    for x, y, length, width in laid:
        for i, k in product(range(1, length), range(width)):
            over[x + i, y + k].append((x, y, length, width))
    fixed, base = crossed(parted.frame, p), crossed((*parted.frame, *parted.middle), p)
    for x, y in product(range(1, p), range(p - limit)):
        run = [(x, y + k) for k in range(limit + 1)]
        if not fixed & set(run):
            yield list(dict.fromkeys(slab for place in run for slab in over[place]))
    for x, y, length, width in parted.frame:
        if y + width <= p:
            continue
        for side in {x % p, (x + length) % p} - {0}:
            down, up = extent(base, side, y - 1, -1, p), extent(base, side, (y + width) % p, 1, p)
            spare = limit - width - down - up
            assert spare >= 0
            for start, step, most in ((y - 1, -1, down + spare // 2), ((y + width) % p, 1, up + spare - spare // 2)):
                run = [(side, start + step * k) for k in range(most + 1)]
                assert all(0 <= place < p for _, place in run)
                if not fixed & set(run):
                    yield list(dict.fromkeys(slab for place in run for slab in over[place]))


def crossed(slabs: Iterable[Slab], period: int) -> set[Module]:
    """Pieces of upright lines that slabs lie across."""
    return {((x + i) % period, (y + k) % period) for x, y, a, b in slabs for i in range(1, a) for k in range(b)}


def extent(base: set[Module], x: int, y: int, step: int, period: int) -> int:
    """Modules along an upright joint from a module on."""
    number = 0
    while (x, (y + step * number) % period) not in base:
        number += 1
    return number


def rows() -> list[dict[str, str]]:
    if not FILE.exists():
        return []
    with FILE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def write(lines: list[dict[str, str]]) -> None:
    with FILE.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, ["mix", "run_limit", "x", "y", "slabs"], lineterminator="\n")
        writer.writeheader()
        writer.writerows(sorted(lines, key=lambda row: (row["mix"], int(row["run_limit"]))))


if __name__ == "__main__":
    main()
