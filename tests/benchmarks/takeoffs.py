"""How long a take-off takes in process, from the body to the answer's bytes: `python -m tests.benchmarks.takeoffs`.

Medians in milliseconds of processor time. A job whose slabs have just been laid out is quicker: the layout is kept.
"""

import statistics
import sys
import time

from service import create_app
from service.settings import Settings
from tests.benchmarks.jobs import DEMO, encoded, other_beds, other_layouts, whole_job

#: Most milliseconds that a job with everything in it is to take.
MOST = 10.0


def main() -> int:
    """Print the figures; 0 if the target is met."""
    client = create_app(Settings()).test_client()

    def milliseconds(bodies: list[bytes]) -> float:
        found = []
        for body in bodies:
            start = time.process_time()
            answer = client.post("/v1/takeoffs", data=body, content_type="application/json")
            found.append((time.process_time() - start) * 1000)
            assert answer.status_code == 200, answer.text
        return statistics.median(found)

    print("take-off, ms              other slabs each time   the same slabs, another bed")
    slowest = 0.0
    for name, job in (("demo job", DEMO), ("job with everything in it", whole_job())):
        anew, again = milliseconds(encoded(other_layouts(job))), milliseconds(encoded(other_beds(job)))
        slowest = max(slowest, anew)
        print(f"{name:26}{anew:21.2f}{again:30.2f}")
    print(f"the most is to be {MOST:g}: {'met' if slowest <= MOST else 'missed'}")
    return 0 if slowest <= MOST else 1


if __name__ == "__main__":
    sys.exit(main())
