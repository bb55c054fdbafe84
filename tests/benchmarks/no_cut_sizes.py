"""How fast the nearest sizes without a cut are found: `python -m tests.benchmarks.no_cut_sizes`.

Medians over two hundred wanted sizes in milliseconds of the process's own time; target: 1 ms.
"""

import statistics
import time

from service.paving.no_cut_sizes import Laying, no_cut_sizes
from service.paving.runs_of_slabs import JointRange
from service.paving.slabs import Slab

JOINTS = JointRange(0.003, 0.010)
CASES = (
    (Laying.any, ((0.6, 0.6),)),
    (Laying.any, ((0.6, 0.3),)),
    (Laying.any, ((0.6, 0.4),)),
    (Laying.any, ((0.45, 0.3),)),
    (Laying.any, ((0.2, 0.1),)),
    (Laying.stack_bond, ((0.6, 0.3),)),
    (Laying.stack_bond, ((0.2, 0.1),)),
    (Laying.stretcher_bond, ((0.6, 0.3), (0.2975, 0.3))),
    (Laying.herringbone_90, ((0.205, 0.1), (0.1, 0.1))),
    (Laying.herringbone_45, ((0.2, 0.1),)),
)


def main() -> None:
    for laying, sides in CASES:
        slabs = tuple(Slab("slab", length, width, 0.04) for length, width in sides)
        times = []
        for k in range(200):
            start = time.process_time()
            no_cut_sizes(slabs, laying, JOINTS, 3.0 + 0.037 * (k % 97), 2.0 + 0.029 * (k % 83), 0.6)
            times.append((time.process_time() - start) * 1000)
        print(f"{laying:16s}{sides!s:38s}{statistics.median(times):7.3f} ({max(times):.3f})")


if __name__ == "__main__":
    main()
