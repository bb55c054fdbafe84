"""How fast packs are chosen for a quantity: `python -m tests.benchmarks.packs`.

Median of many in microseconds of the process's own time; target: 1000.
"""

import statistics
import sys
import time

from service.paving.ordering.goods import Pack
from service.paving.ordering.packs import cover

#: Most microseconds that it is to take.
MOST = 1000.0

STONE = Pack("25 kg bag", 0.025, "S", most=20), Pack("bulk bag", 0.85, "B"), Pack("loose", 0.5, "L", least=4)
BLOCKS = Pack("block", 1, "O"), Pack("layer", 45, "Y"), Pack("crate", 405, "C")


def main() -> int:
    """Print the figures; 0 if the target is met."""
    found = []
    for k in range(1, 1000):
        for quantity, packs in ((k * 0.0717, STONE), (float(7 * k), BLOCKS)):
            start = time.process_time()
            cover(quantity, packs)
            found.append((time.process_time() - start) * 1e6)
    median = statistics.median(found)
    print(f"packs for a quantity: {median:.0f} us, the slowest {max(found):.0f}; at most {MOST:.0f} asked for")
    return 0 if median <= MOST else 1


if __name__ == "__main__":
    sys.exit(main())
