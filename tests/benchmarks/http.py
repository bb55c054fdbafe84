"""How fast the service answers, as a share of bare Flask: python -m tests.benchmarks.http [--no-workings]

Both run under docker/gunicorn.conf.py at the same time, on the same body, round by round in turn. A machine's speed
comes and goes, so only the ratio of two neighbouring rounds counts, and of those the median. Where other work is going
on, the workers' own time says more: it leaves the load and the waiting out.

A worker keeps the answers it gave last, so each body is asked of two services: one as it is run, which answers it
`again` and again, and one that keeps no answers and works it out `anew` each time.
"""

import os
import platform
import statistics
import sys
from dataclasses import dataclass
from pathlib import Path

from service import create_app
from service.routes.resources import RESOURCES
from service.settings import Settings
from tests.benchmarks.jobs import DEMO, encoded, other_beds, other_layouts, whole_job
from tests.benchmarks.loads import CONNECTIONS, Load, load
from tests.container.servers import Server, served

ROUNDS, SECONDS = 7, 1.0
#: The least share of bare Flask's requests a second that each resource is to reach.
TARGETS = {"areas": 0.65, "layers": 0.65, "beds": 0.65, "mixes": 0.65, "joints": 0.65}
#: Take-offs: the demo job and a job with everything in it.
JOBS = {"demo": 0.20, "all": 0.15}
MOST_START_SECONDS = 2.0
BARE = "tests.benchmarks.bare:app"


@dataclass(frozen=True)
class Asked:
    """A row of the table: what is sent where, the least ratio it is to reach, and whether answers are kept."""

    name: str
    path: str
    bodies: list[bytes]
    target: float
    kept: bool = False


def asked(more: dict[str, bool]) -> list[Asked]:
    """What the service is asked: the contract's own examples and whole jobs, with a field or two more."""
    create_app(Settings())
    examples = {resource.noun: resource.example for resource in RESOURCES}
    rows = []
    for noun, target in TARGETS.items():
        body = encoded([examples[noun] | more])
        rows += [Asked(f"{noun} {way}", f"/v1/{noun}", body, target, way == "again") for way in ("again", "anew")]
    for (name, target), job in zip(JOBS.items(), (DEMO, whole_job()), strict=True):
        asked = job | more
        bodies = {
            "again": [asked],
            "anew": [asked],
            "other beds": other_beds(asked),
            "other slabs": other_layouts(asked),
        }
        rows += [
            Asked(f"{name} {way}", "/v1/takeoffs", encoded(sent), target, way == "again")
            for way, sent in bodies.items()
        ]
    return rows


@dataclass(frozen=True)
class Side:
    """One server in one round: requests a second, and what its workers spent on a request [s of one core]."""

    rate: float
    cost: float


def rounds(service: Server, bare: Server, one: Asked, loaded: Load) -> list[tuple[Side, Side]]:
    """Bare Flask and the service, round by round, after one round each to warm up."""
    turns = [tuple(side(server, one, loaded) for server in (bare, service)) for _ in range(ROUNDS + 1)]
    return [(flask, ours) for flask, ours in turns[1:]]


def side(server: Server, one: Asked, loaded: Load) -> Side:
    """A server under load for one round."""
    before = worker_seconds(server)
    rate = loaded(server.port, one.path, one.bodies, SECONDS)
    return Side(rate, (worker_seconds(server) - before) / (rate * SECONDS))


def workers(server: Server) -> list[Path]:
    """Where the kernel describes each worker."""
    process = server.process.pid
    children = Path(f"/proc/{process}/task/{process}/children").read_text("ascii").split()
    return [Path("/proc", worker) for worker in children]


def worker_seconds(server: Server) -> float:
    """What the workers have used of the processor so far [s]."""
    spent = 0
    for worker in workers(server):
        fields = (worker / "stat").read_text("ascii").rpartition(")")[2].split()
        spent += int(fields[11]) + int(fields[12])
    return spent / os.sysconf("SC_CLK_TCK")


def worker_memory(server: Server) -> list[float]:
    """Each worker's proportional share of memory [MB]."""
    found = []
    for worker in workers(server):
        lines = (worker / "smaps_rollup").read_text("ascii").splitlines()
        found += [int(line.split()[1]) / 1024 for line in lines if line.startswith("Pss:")]
    return found


def start_seconds() -> float:
    """From the command to the first answer: the best of three starts [s]."""
    times = []
    for _ in range(3):
        with served() as server:
            times.append(server.started_in)
    return min(times)


def machine() -> str:
    """The processor, its cores and the Python."""
    lines = Path("/proc/cpuinfo").read_text("utf-8").splitlines()
    model = next((line.partition(":")[2].strip() for line in lines if line.startswith("model name")), "unknown")
    return f"{model}, {os.cpu_count()} cores, Python {platform.python_version()}"


def row(one: Asked, turns: list[tuple[Side, Side]]) -> tuple[str, float]:
    """A line of the table, and the ratio that counts."""
    ratios = sorted(ours.rate / flask.rate for flask, ours in turns)
    ratio = statistics.median(ratios)
    flask, ours = (statistics.median(each.rate for each in column) for column in zip(*turns, strict=True))
    flask_cost, our_cost = (1e6 * min(each.cost for each in column) for column in zip(*turns, strict=True))
    return (
        f"{one.name:<18}{len(one.bodies[0]):>6}{flask:>8.0f}{ours:>8.0f}{ratio:>8.2f}{f'{ratios[0]:.2f}-{ratios[-1]:.2f}':>12}"
        f"{one.target:>8.2f}{flask_cost:>9.0f}{our_cost:>8.0f}{flask_cost / our_cost:>8.2f}"
    ), ratio


def main() -> int:
    """Print the figures; 0 if every target is met."""
    name, loaded = load()
    print(f"{machine()}; load by {name}, {CONNECTIONS} connections, {ROUNDS} rounds of {SECONDS:.0f} s")
    print("                          requests a second, median   of the rounds             us of a worker, least")
    print("POST                bytes   Flask    ours   ratio     between  target    Flask    ours   ratio")
    missed = []
    busy = os.getloadavg()[0]
    with served(BARE) as bare, served() as service, served(PAVING_QUANTITIES_KEPT_BYTES="0") as forgetful:
        for one in asked({"workings": False} if "--no-workings" in sys.argv[1:] else {}):
            line, ratio = row(one, rounds(service if one.kept else forgetful, bare, one, loaded))
            print(line, flush=True)
            missed += [one.name] if ratio < one.target else []
        memory = worker_memory(service)
    start = start_seconds()
    missed += ["start"] if start > MOST_START_SECONDS else []
    print(f"first answer {start:.2f} s after the command; {max(memory):.0f} MB a worker (PSS, {len(memory)} workers)")
    if busy > 1:
        print(f"the machine was at other work: a load average of {busy:.1f} when this began")
    print(f"missed: {', '.join(missed) or 'none'}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
