"""A solver set the task of mixed laying: exact numbers, no crossed joint, none straight for longer.

The task is written as sums over every place a slab may lie, and given to HiGHS as scipy brings it:

    each module under one slab
    at most three corners of slabs at any point
    in any row of one module more than the limit along a joint, a slab across it
    so many slabs of each size
"""

from collections import defaultdict
from itertools import product

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

from tests.paving.laying.random.judges import Spot

Size = tuple[int, int]
#: Which places, the least and the most of them that are taken.
Row = tuple[list[int], float, float]

#: What milp says when the time is up.
OUT_OF_TIME = 1


def solved(side: int, numbers: dict[Size, int], limit: int, seconds: float) -> list[Spot] | None:
    """Slabs on a square of modules; none if it is proved that there are none.

    Raises
    ------
    TimeoutError
        If nothing was found or proved in the time.
    """
    turned = sorted({way for size in numbers for way in (size, size[::-1])})
    places = [(x, y, a, b) for a, b in turned for x, y in product(range(side - a + 1), range(side - b + 1))]
    rows = list(sums(places, side, numbers, limit))
    entries = [(n, k) for n, (spots, _, _) in enumerate(rows) for k in spots]
    which = csr_matrix((np.ones(len(entries)), np.array(entries).T), shape=(len(rows), len(places)))
    found = milp(
        np.zeros(len(places)),
        integrality=np.ones(len(places)),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(which, [low for _, low, _ in rows], [high for _, _, high in rows]),
        options={"time_limit": seconds},
    )
    if found.x is None and found.status == OUT_OF_TIME:
        raise TimeoutError(found.message)
    return None if found.x is None else [place for place, taken in zip(places, found.x, strict=True) if taken > 0.5]


def sums(places: list[Spot], side: int, numbers: dict[Size, int], limit: int):
    """The rules as sums."""
    over, corners, across = defaultdict(list), defaultdict(list), defaultdict(list)
    for n, (x, y, a, b) in enumerate(places):
        for i, k in product(range(a), range(b)):
            over[x + i, y + k].append(n)
        for i, k in product((0, a), (0, b)):
            corners[x + i, y + k].append(n)
        for i, k in product(range(1, a), range(b)):
            across[0, x + i, y + k].append(n)
        for i, k in product(range(a), range(1, b)):
            across[1, y + k, x + i].append(n)
    yield from ((spots, 1, 1) for spots in over.values())
    yield from ((spots, 0, 3) for spots in corners.values())
    for way, line, start in product((0, 1), range(1, side), range(side - limit)):
        yield sorted({n for k in range(limit + 1) for n in across[way, line, start + k]}), 1, np.inf
    for size, number in numbers.items():
        yield [n for n, spot in enumerate(places) if size in (spot[2:], spot[:1:-1])], number, number
