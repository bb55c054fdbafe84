"""Mends: why a mix can't be laid, and the smallest change found with which it can.

Every change that is named has been tried: with it a laying was found. All the trying together takes no
more than so many steps, so that a large area is refused in seconds too; with a change that took
more no one was the wiser, and it isn't named.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice, product

from service.paving.errors import OutOfRange
from service.paving.laying.mixed.amounts import divisor
from service.paving.laying.mixed.fields import Size
from service.paving.laying.mixed.patches import Patch, nearest_patches, patches
from service.paving.laying.mixed.tasks import SINGLE, Fault, Task

Place = tuple[str | int, ...]
#: How much longer joints are tried one by one, and a length tried after that [modules].
_LONGER, _LONGEST = 3, 10
#: Most changes of one kind that are tried, and modules of an area where only those likely to do are.
_MOST_TRIES, _LARGE = 4, 400
#: Steps of a refusal, those of the laying that failed among them (see `mixes`), and the part of the rest for one try.
_MOST_STEPS, _PART = 350_000, 2 / 3
#: How far from an area another one is looked for [modules].
_ROUND = 3


@dataclass(frozen=True)
class Words:
    """What is needed to speak of a task as whoever gave it does.

    Parameters
    ----------
    names : tuple of str
        Names of the sizes.
    side, joint : int
        The module and the joint in it [µm].
    """

    names: tuple[str, ...]
    side: int
    joint: int

    def slab(self, size: Size) -> str:
        """A size by its sides."""
        return " x ".join(f"{(n * self.side - self.joint) / 1000:g}" for n in size) + " mm"

    def length(self, modules: int) -> str:
        """A length of so many modules."""
        return f"{(modules * self.side - self.joint) / 1e6:g} m"


class _Tries:
    """What is left of the steps of a refusal. A try takes a part of it at most, so that the next has a chance too.

    Parameters
    ----------
    task : Task
        What isn't laid.
    """

    def __init__(self, task: Task) -> None:
        self._left = _MOST_STEPS - task.steps

    def laid(self, other: Task) -> bool:
        """Whether another task was seen to be laid; not so if too few steps are left to cover it at all."""
        most = int(self._left * _PART)
        if most < other.modules:
            return False
        works, steps = other.tried(most)
        self._left -= steps
        return works


def refusal(task: Task, words: Words) -> OutOfRange:
    """The reason why a task isn't laid, and what would do."""
    tries = _Tries(task)
    if task.fault is Fault.limit:
        return _limit(tries, task)
    if task.fault is Fault.numbers:
        return _numbers(tries, task, words)
    if task.fault is Fault.singles:
        return _singles(tries, task, words)
    return _joints(tries, task, words) if task.fault is Fault.joints else _lacking(tries, task, words)


def _limit(tries: _Tries, task: Task) -> OutOfRange:
    longest = max(size[0] for size in task.sizes)
    return OutOfRange(
        f"A slab is {longest} modules long, and so is the joint along it. {_sentence(_longer_joints(tries, task))}",
        "run_limit",
    )


def _numbers(tries: _Tries, task: Task, words: Words) -> OutOfRange:
    common = divisor([size for size, held in zip(task.sizes, task.held, strict=True) if held])
    why = f"each covers a multiple of {common}" if common > 1 else "no numbers of them add up to that"
    ways = _stocked(tries, task, words, SINGLE, 1)
    other = _other_area(tries, task)
    if other is not None:
        ways.append(f"make the area {words.length(other[0])} by {words.length(other[1])}")
    return OutOfRange(f"These sizes can't cover {task.modules} modules: {why}. {_sentence(ways)}", *_stock(task))


def _singles(tries: _Tries, task: Task, words: Words) -> OutOfRange:
    k = task.sizes.index(SINGLE)
    number = task.amounts.numbers[k] if task.amounts else 0
    place: Place = ("pack",) if task.pack is not None else ("slabs", k, "share")
    return OutOfRange(
        f"{number} of {words.names[k]} can't be laid without crossed joints, proved by counting corners. "
        f"{_sentence(_fewer_singles(tries, task, words.names[k]))}",
        *place,
    )


def _joints(tries: _Tries, task: Task, words: Words) -> OutOfRange:
    longer = _longer_joints(tries, task)
    place: Place = ("run_limit",) if longer else ("slabs",)
    ways = longer or _other_sizes(tries, task, words)
    return OutOfRange(
        f"No laying without crossed joints and with straight ones of at most {task.limit} modules was found. "
        f"{_sentence(ways)}",
        *place,
    )


def _lacking(tries: _Tries, task: Task, words: Words) -> OutOfRange:
    needed = " and ".join(f"{n} of {words.slab(size)}" for size, n in task.lacking)
    stock = "in the pack" if task.pack is not None else "among the sizes"
    ways = [*_stocked(tries, task, words, *task.lacking[0]), *_longer_joints(tries, task)]
    return OutOfRange(
        f"The nearest laying found takes {needed}, and none are {stock}. {_sentence(ways)}", *_stock(task)
    )


def _stock(task: Task) -> Place:
    return ("pack",) if task.pack is not None else ("slabs",)


def _stocked(tries: _Tries, task: Task, words: Words, size: Size, number: int) -> list[str]:
    """How much of a size to add to the pack, or to the sizes, so that it is laid."""
    if task.pack is None:
        whole, sizes = task.modules, (*task.sizes, size)
        share = math.ceil(100 * number * size[0] * size[1] / whole) / 100
        shares = None if task.shares is None else (*(n * (1 - share) for n in task.shares), share)
        fits = tries.laid(replace(task, sizes=sizes, shares=shares))
        part = "" if shares is None else f" for {share:.0%} of the area"
        return [f"add {words.slab(size)} to the sizes{part}"] if fits else []
    packs = task.amounts.packs if task.amounts and task.amounts.packs else 1
    least = -(-number // packs)
    sizes = task.sizes if size in task.sizes else (*task.sizes, size)
    for n in range(least, least + _LONGER):
        held = {**dict(zip(task.sizes, task.pack, strict=True)), size: n}
        if tries.laid(replace(task, sizes=sizes, pack=tuple(held[each] for each in sizes))):
            return [f"have {n} of {words.slab(size)} in each pack"]
    return []


def _longer_joints(tries: _Tries, task: Task) -> list[str]:
    """Longer joints with which it is laid; on a large area those of a prepared mix in these sizes alone."""
    first = max(task.limit + 1, *(size[0] for size in task.sizes))
    limits = [*range(first, first + _LONGER), *range(max(first + _LONGER, _LONGEST), _LONGEST + 1)]
    if task.modules > _LARGE:
        known = {patch.limit for patch in patches() if patch.shares.keys() == set(task.sizes)}
        limits = [n for n in limits if n in known]
    works = (n for n in limits if tries.laid(replace(task, limit=n)))
    return [f"allow straight joints of {n} modules" for n in islice(works, 1)]


def _other_sizes(tries: _Tries, task: Task, words: Words) -> list[str]:
    """Sizes that a prepared mix with these has besides, and its shares."""
    shares = dict(zip(task.sizes, task.mix, strict=True))
    richer = (patch for patch in nearest_patches(shares, task.limit) if patch.shares.keys() > set(task.sizes))
    tried = (_enriched(task, words, patch) for patch in islice(richer, _MOST_TRIES))
    return list(islice((way for other, way in tried if tries.laid(other)), 1))


def _enriched(task: Task, words: Words, patch: Patch) -> tuple[Task, str]:
    """A task with the sizes and shares of a prepared mix, and how to come to it."""
    more = sorted(patch.shares.keys() - set(task.sizes), reverse=True)
    sizes, limit = (*task.sizes, *more), max(task.limit, patch.limit)
    mix = _percents([patch.shares[size] for size in sizes])
    parts = ", ".join(f"{words.slab(size)} {n} %" for size, n in zip(sizes, mix, strict=True))
    joints = f", with straight joints of {limit} modules" if limit > task.limit else ""
    return (
        replace(task, sizes=sizes, shares=tuple(n / 100 for n in mix), pack=None, limit=limit),
        f"add {' and '.join(map(words.slab, more))}, in shares of {parts}{joints}",
    )


def _percents(shares: Sequence[float]) -> list[int]:
    """Shares in whole per cent that make up a hundred."""
    down = [int(share * 100) for share in shares]
    most_lost = sorted(range(len(shares)), key=lambda k: down[k] - shares[k] * 100)
    for k in most_lost[: 100 - sum(down)]:
        down[k] += 1
    return down


def _fewer_singles(tries: _Tries, task: Task, name: str) -> list[str]:
    """Fewer single modules in a pack, or a smaller share of them, with which it is laid."""
    k = task.sizes.index(SINGLE)
    scaled = _smaller_shares(task, k) if task.pack is None else _smaller_packs(task, task.pack, k)
    fewer = ((other, words) for other, words in scaled if not other.singles_over)
    tried = islice(fewer, _MOST_TRIES)
    works = (words.format(name=name) for other, words in tried if tries.laid(other))
    return list(islice(works, 1))


def _smaller_packs(task: Task, pack: tuple[int, ...], k: int) -> Iterator[tuple[Task, str]]:
    """Packs with fewer of one size, the most first."""
    return (
        (replace(task, pack=(*pack[:k], n, *pack[k + 1 :])), f"have at most {n} of {{name}} in a pack")
        for n in reversed(range(pack[k]))
    )


def _smaller_shares(task: Task, k: int) -> Iterator[tuple[Task, str]]:
    """Smaller shares of one size in whole per cent, the greatest first."""
    shares = task.mix
    others = sum(shares) - shares[k]
    parts = [share / others if others else 1 / (len(shares) - 1) for share in shares]
    words = "lay at most {percent} % of the area in {{name}}, the others more by as much"

    def scaled(percent: int) -> tuple[float, ...]:
        return tuple(percent / 100 if n == k else part * (1 - percent / 100) for n, part in enumerate(parts))

    percents = reversed(range(int(shares[k] * 100) + 1))
    return ((replace(task, shares=scaled(percent)), words.format(percent=percent)) for percent in percents)


def _other_area(tries: _Tries, task: Task) -> tuple[int, int] | None:
    """The rectangle nearest in modules that is laid."""
    if not task.rectangular:
        return None
    covered = islice((other for other in _other_areas(task) if other.amounts), 3 * _MOST_TRIES)
    return next(((other.columns, other.rows) for other in covered if tries.laid(other)), None)


def _other_areas(task: Task) -> Iterator[Task]:
    moves = sorted(product(range(-_ROUND, _ROUND + 1), repeat=2), key=lambda move: sum(map(abs, move)))
    for x, y in moves:
        if task.columns + x > 0 and task.rows + y > 0:
            yield task.of(task.columns + x, task.rows + y)


def _sentence(ways: Sequence[str]) -> str:
    if not ways:
        return "No small change with which one is was found either: choose other sizes or another pattern."
    words = "; or ".join(ways)
    return f"{words[0].upper()}{words[1:]}."
