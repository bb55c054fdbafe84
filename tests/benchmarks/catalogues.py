"""How long a catalogue of 50,000 lines takes to load and what it weighs: `python -m tests.benchmarks.catalogues`.

Half the lines are goods, half their packs. Memory is the proportional set size of Linux: a page that four processes
share counts a quarter to each. `alone` is a process before and after it loads; `shared` is loaded before the fork, as
a server loads it, with what each of four workers adds after it has looked up every good.
"""

import gc
import os
import statistics
import sys
import tempfile
import time
from pathlib import Path

from service.catalogue import read
from service.paving.ordering.goods import Goods

LINES, RUNS, WORKERS = 50_000, 3, 4


def written(folder: Path, lines: int) -> Path:
    """A catalogue of so many lines, priced."""
    count = lines // 2
    goods = (f"S{k:05},Sand number {k},sharp_sand,t,FULL\n" for k in range(count))
    packs = (f"S{k:05},bulk bag,0.85,S{k:05}-BB,{40 + k % 30}.{k % 100:02},1\n" for k in range(count))
    (folder / "catalogue.csv").write_text("setting,value\ncurrency,EUR\n", "utf-8")
    (folder / "taxes.csv").write_text("code,name,percent\nFULL,Full rate,20\n", "utf-8")
    (folder / "goods.csv").write_text("sku,name,item,unit,tax\n" + "".join(goods), "utf-8")
    (folder / "packs.csv").write_text("good,name,content,sku,price,per_pallet\n" + "".join(packs), "utf-8")
    return folder


def memory(process: int | str = "self") -> float:
    """Proportional set size of a process [MB]."""
    text = Path(f"/proc/{process}/smaps_rollup").read_text("ascii")
    (line,) = [line for line in text.splitlines() if line.startswith("Pss:")]
    return int(line.split()[1]) / 1024


def looked_up(goods: Goods) -> float:
    """Seconds to look up one good by its stock number."""
    skus = [good.sku for good in goods]
    began = time.perf_counter()
    for sku in skus:
        goods.good(sku)
    return (time.perf_counter() - began) / len(skus)


def worker_memories(goods: Goods) -> list[float]:
    """What each of some forked workers weighs beside the others [MB], once it has touched every good."""
    gc.collect()
    gc.freeze()
    workers = []
    for _ in range(WORKERS):
        said, say = os.pipe()
        done, stop = os.pipe()
        process = os.fork()
        if not process:
            looked_up(goods)
            os.write(say, b".")
            os.read(done, 1)
            os._exit(0)
        os.read(said, 1)
        workers.append((process, stop))
    weighed = [memory(process) for process, _ in workers]
    for process, stop in workers:
        os.write(stop, b".")
        os.waitpid(process, 0)
    return weighed


def main() -> int:
    """Measure, print, and say whether 50,000 lines load in under two seconds of the processor."""
    with tempfile.TemporaryDirectory() as folder:
        path = written(Path(folder), LINES)
        before = memory()
        goods = read(path)
        gc.collect()
        after = memory()
        took = []
        for _ in range(RUNS):
            began = time.process_time()
            read(path)
            took.append(time.process_time() - began)
    gc.collect()
    print(f"{LINES} lines, {len(goods)} goods: {statistics.median(took):.2f} s of the processor, median of {RUNS}")
    print(f"alone     {before:.0f} MB before, {after:.0f} MB after: the catalogue is {after - before:.0f} MB")
    print(f"look-up   {looked_up(goods) * 1e6:.2f} us a stock number")
    print(f"shared    {WORKERS} workers: {', '.join(f'{mb:.0f}' for mb in worker_memories(goods))} MB each, all told")
    return 0 if statistics.median(took) < 2 else 1


if __name__ == "__main__":
    sys.exit(main())
