"""How long the short choices take: packs for a quantity, and the nearest size without a cut.

`python -m tests.benchmarks.choices`: medians of many, in microseconds of processor time.
"""

import statistics
import sys
import time
from collections.abc import Callable, Iterator

from service.paving.no_cut_sizes import JointRange, Laying, no_cut_sizes
from service.paving.ordering.goods import Pack
from service.paving.ordering.packs import cover
from service.paving.slabs import Slab

#: Most microseconds that either is to take.
MOST = 1000.0

STONE = Pack("25 kg bag", 0.025, "S", most=20), Pack("bulk bag", 0.85, "B"), Pack("loose", 0.5, "L", least=4)
BLOCKS = Pack("block", 1, "O"), Pack("layer", 45, "Y"), Pack("crate", 405, "C")

Work = Callable[[], object]


def packs() -> Iterator[Work]:
    for k in range(1, 400):
        yield lambda k=k: cover(k * 0.0717, STONE)
        yield lambda k=k: cover(float(7 * k), BLOCKS)


def sizes() -> Iterator[Work]:
    asked = (Slab("flag", 0.6, 0.3, 0.04),), Laying.stack_bond, JointRange(0.003, 0.010)
    for k in range(200):
        yield lambda k=k: no_cut_sizes(*asked, 3.0 + 0.037 * k, 2.0 + 0.029 * k, 0.6)


def microseconds(all_work: Iterator[Work]) -> float:
    found = []
    for work in all_work:
        start = time.process_time()
        work()
        found.append((time.process_time() - start) * 1e6)
    return statistics.median(found)


def main() -> int:
    """Print the figures; 0 if the target is met."""
    found = {"packs for a quantity": microseconds(packs()), "nearest size without a cut": microseconds(sizes())}
    for name, median in found.items():
        print(f"{name:28}{median:8.0f} us, at most {MOST:.0f}")
    return 0 if max(found.values()) <= MOST else 1


if __name__ == "__main__":
    sys.exit(main())
