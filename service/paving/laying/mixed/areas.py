"""Mixed-size laying of an area, and why it can't be laid if it can't."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from service.paving.errors import OutOfRange
from service.paving.laying.mixed.amounts import Amounts, by_packs, by_shares, divisor, single_modules_too_many
from service.paving.laying.mixed.fields import Size
from service.paving.laying.mixed.mixes import Mix, Mixed, mixed
from service.paving.laying.mixed.modules import Module
from service.paving.laying.mixed.patches import patches
from service.paving.laying.mixed.plots import Plot
from service.paving.laying.placed import Placed
from service.paving.reference import default

_SINGLE: Size = (1, 1)
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
        If the sizes, shares, pack or run limit rule out every laying, or if none was found.
    """
    sizes = tuple((max(size), min(size)) for size in module.sizes)
    _check_sizes(sizes, wish)
    _check_limit(sizes, wish)
    columns, rows = plot.size
    if columns * rows > default("random_layings", "most_modules_laid").value:
        raise OutOfRange(f"{columns} by {rows} modules are more than are laid in one mix.", "area")
    amounts = _amounts(plot, sizes, wish)
    _check_singles(plot, sizes, amounts, wish)
    found, rest = _laid(plot, sizes, amounts, wish)
    notes = [] if plot.modular else [_LAID_OVER]
    if rest != amounts.numbers:
        notes.append(_difference(wish.names, amounts.numbers, rest))
    return MixedArea((*_placed(plot, module, found), *_gaps(plot)), amounts.numbers, rest, tuple(notes))


def _check_sizes(sizes: Sequence[Size], wish: Wish) -> None:
    if len(sizes) < 2:
        raise OutOfRange("Mixed sizes need two sizes or more; one size is laid in a bond.", "slabs")
    for k, size in enumerate(sizes):
        if size in sizes[:k]:
            raise OutOfRange(f"{wish.names[k]} is as many modules as {wish.names[sizes.index(size)]}.", "slabs", k)


def _check_limit(sizes: Sequence[Size], wish: Wish) -> None:
    longest = max(size[0] for size in sizes)
    if wish.limit < longest:
        raise OutOfRange(
            f"A slab is {longest} modules long, and so is the joint along it: {longest} at least.", "run_limit"
        )


def _amounts(plot: Plot, sizes: Sequence[Size], wish: Wish) -> Amounts:
    modules = int(plot.covered.sum())
    if wish.pack is None:
        amounts = by_shares(modules, sizes, wish.shares or _usual(sizes))
    else:
        amounts = by_packs(modules, sizes, wish.pack)
    if amounts is None:
        common = divisor(sizes)
        why = f"each covers a multiple of {common}" if common > 1 else "no numbers of them add up to that"
        raise OutOfRange(
            f"These sizes can't cover {modules} modules: {why}. Add a slab of one module, or change the area by "
            f"{_modules(modules % common if common > 1 else 1)}.",
            "pack" if wish.pack is not None else "slabs",
        )
    return amounts


def _usual(sizes: Sequence[Size]) -> list[float]:
    """Shares of the first patch in just these sizes, or equal ones."""
    for patch in patches():
        if patch.shares.keys() == set(sizes):
            return [patch.shares[size] for size in sizes]
    return [1 / len(sizes)] * len(sizes)


def _check_singles(plot: Plot, sizes: Sequence[Size], amounts: Amounts, wish: Wish) -> None:
    """Joints cross for sure if there are too many single modules; proved for a full rectangle only."""
    if not plot.covered.all():
        return
    over = single_modules_too_many(*plot.size, sizes, amounts.numbers)
    if over:
        k = sizes.index(_SINGLE)
        most = amounts.numbers[k] - over
        place = ("pack",) if wish.pack is not None else ("slabs", k, "share")
        most = max(most, 0)
        raise OutOfRange(
            f"{amounts.numbers[k]} of {wish.names[k]} can't be laid without crossed joints: more than {most} never can "
            f"here, {most / plot.covered.sum():.0%} of the area.",
            *place,
        )


def _laid(plot: Plot, sizes: tuple[Size, ...], amounts: Amounts, wish: Wish) -> tuple[Mixed, tuple[int, ...]]:
    """The laying and the numbers in it; single modules are laid meanwhile where they aren't among the sizes."""
    columns, rows = plot.size
    inside = tuple(bool(n) for n in plot.covered.ravel().tolist())
    spare = () if _SINGLE in sizes else (_SINGLE,)
    mix = Mix(columns, rows, inside, (*sizes, *spare), (*amounts.numbers, *(0 for _ in spare)), wish.limit)
    found = mixed(mix, wish.seed)
    if found.flaws:
        raise OutOfRange(
            f"No laying with straight joints of at most {wish.limit} modules was found; allow {wish.limit + 1}.",
            "run_limit",
        )
    if spare and found.numbers[-1]:
        raise OutOfRange(
            f"No laying without {found.numbers[-1]} single modules was found: add a slab of one module, "
            f"allow straight joints of more than {wish.limit} modules, or take another seed.",
            "slabs",
        )
    return found, found.numbers[: len(sizes)]


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


def _modules(number: int) -> str:
    return f"{number} module{'s' if number != 1 else ''}"
