"""Mixed-size laying of an area, and why it can't be laid if it can't."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from service.paving.errors import OutOfRange
from service.paving.laying.mixed.fields import Size
from service.paving.laying.mixed.mends import Words, refusal
from service.paving.laying.mixed.mixes import Mixed
from service.paving.laying.mixed.modules import Module
from service.paving.laying.mixed.plots import Plot
from service.paving.laying.mixed.tasks import Task
from service.paving.laying.placed import Placed
from service.paving.laying.tolerances import least_strip
from service.paving.reference import default

_LAID_OVER = "The area isn't right-angled on whole modules: laid over from end to end, and cut."


@dataclass(frozen=True)
class MixedArea:
    """A mix laid on an area.

    Parameters
    ----------
    slabs : tuple of Placed
        Every slab, and the places where there is nothing to lay.
    wanted, laid : tuple of int
        Slabs of each size that were wanted, and that are laid; on an area that is cut, over its
        whole length and width.
    notes : tuple of str
        What was decided on the way.
    """

    slabs: tuple[Placed, ...]
    wanted: tuple[int, ...]
    laid: tuple[int, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True)
class Wish:
    """How much of what is wanted, and how.

    Parameters
    ----------
    names : tuple of str
        Names of the sizes.
    shares : tuple of float or None
        Share of the area of each.
    pack : tuple of int or None
        How many of each a pack holds, in place of shares.
    limit : int
        Modules along the longest straight joint.
    seed : int
        Number that chance follows from.
    """

    names: tuple[str, ...]
    shares: tuple[float, ...] | None
    pack: tuple[int, ...] | None
    limit: int
    seed: int


def mixed_area(plot: Plot, module: Module, wish: Wish) -> MixedArea:
    """Lay a mix on an area.

    Raises
    ------
    OutOfRange
        If the sizes, shares, pack or run limit rule out every laying, if none was found, or if nothing of
        the area is laid.
    """
    sizes = tuple((max(size), min(size)) for size in module.sizes)
    _check_sizes(sizes, wish)
    columns, rows = plot.size
    if columns <= 0 or rows <= 0:
        raise OutOfRange(f"The area is no wider than {least_strip().value * 1000:g} mm: nothing is laid.", "area")
    if columns * rows > default("random_layings", "most_modules_laid").value:
        raise OutOfRange(f"{columns} by {rows} modules are more than are laid in one mix.", "area")
    inside = tuple(bool(n) for n in plot.covered.ravel().tolist())
    task = Task(columns, rows, inside, sizes, wish.shares, wish.pack, wish.limit, wish.seed)
    if not plot.modular:
        task = _grown(task)
    if task.fault is not None or task.amounts is None:
        raise refusal(task, Words(wish.names, module.side, plot.joint))
    wanted, laid = task.amounts.numbers, task.found.numbers[: len(sizes)]
    notes = [] if plot.modular else [_LAID_OVER]
    if laid != wanted:
        notes.append(_difference(wish.names, wanted, laid))
    return MixedArea((*_placed(plot, module, task.found), *_gaps(plot)), wanted, laid, tuple(notes))


def _grown(task: Task) -> Task:
    """A column or a row more where the sizes can't cover just these: what lies over the area is cut off anyway."""
    more = (task.of(task.columns + x, task.rows + y) for x, y in ((0, 0), (0, 1), (1, 0), (1, 1)))
    return next((other for other in more if other.amounts is not None), task)


def _check_sizes(sizes: Sequence[Size], wish: Wish) -> None:
    if len(sizes) < 2:
        raise OutOfRange("Mixed sizes need two sizes or more; one size is laid in a bond.", "slabs")
    for k, size in enumerate(sizes):
        if size in sizes[:k]:
            raise OutOfRange(f"{wish.names[k]} is as many modules as {wish.names[sizes.index(size)]}.", "slabs", k)


def _placed(plot: Plot, module: Module, found: Mixed) -> list[Placed]:
    side, joint = plot.side, plot.joint
    (column, row), slabs = plot.first, []
    kinds = {(max(size), min(size)): k for k, size in enumerate(module.sizes)}
    for x, y, length, width in found.slabs:
        k = kinds[max(length, width), min(length, width)]
        turned = int((length, width) != module.sizes[k])
        slabs.append(
            Placed(
                k, (column + x) * side, (row + y) * side, length * side - joint, width * side - joint,
                length * side, width * side, turned,
            )
        )  # fmt: skip
    return slabs


def _gaps(plot: Plot) -> list[Placed]:
    """Places of the plot's rectangle outside the area."""
    side, (column, row) = plot.side, plot.first
    found = []
    for y, line in enumerate(plot.covered.tolist()):
        x = 0
        for within, run in groupby(line):
            modules = len(list(run))
            if not within:
                place = (column + x) * side, (row + y) * side
                found.append(Placed(None, *place, modules * side, side, modules * side, side))
            x += modules
    return found


def _difference(names: Sequence[str], wanted: Sequence[int], laid: Sequence[int]) -> str:
    """What to add and what is left over of each size."""
    words = [
        f"{abs(b - a)} {'more' if b > a else 'fewer'} of {name}"
        for name, a, b in zip(names, wanted, laid, strict=True)
        if a != b
    ]
    return f"The numbers wanted weren't met exactly; the nearest laying takes {', '.join(words)}."
