"""Crops: a patch laid over a field again and again, and made whole at the field's edges."""

from collections.abc import Sequence
from itertools import product

from service.paving.laying.mixed.chances import Chance
from service.paving.laying.mixed.fields import BARE, Field
from service.paving.laying.mixed.patches import Patch, Stone
from service.paving.laying.mixed.windows import Filling


def cropped(field: Field, patch: Patch, wants: Sequence[float], chance: Chance) -> int:
    """Lay a patch over a bare field from a place and in a turn left to chance; how many gaps it left to fill.

    Which of its middles lies where is left to chance too, so that it isn't seen to repeat.

    Slabs that don't fit wholly, and sizes that aren't to be had, are made up of smaller ones; joints
    may cross there, or run too long.
    """
    turn, period = chance.below(8), patch.period
    stones = [_turned(stone, turn, period) for stone in patch.stones]
    lefts = lows = list(range(period))
    if min(wants) < 0:
        lefts = _best_shifts([(x, length, width) for x, _, length, width in stones], field.columns, period)
        lows = _best_shifts([(y, width, length) for _, y, length, width in stones], field.rows, period)
    left, low = chance.one_of(lefts), chance.one_of(lows)
    first, row = _turned((*patch.lines, period, period), turn, period)[:2]
    first, row = (first + left) % period - period, (row + low) % period - period
    for place in product(range(first, field.columns, period), range(row, field.rows, period)):
        _lay(field, (*patch.frame, *chance.one_of(patch.middles)), turn, place, period)
    return _fill_up(field, wants, chance)


def _best_shifts(stones: Sequence[tuple[int, int, int]], modules: int, period: int) -> list[int]:
    """How far to move a patch along a field so that fewest slabs leave an odd number of modules at its ends.

    A slab is given by its place, its side along the field and its side across.
    """
    odd = [0] * period
    for place, along, across in stones:
        for k in range(1, along):
            odd[(place + k) % period] += k * across % 2 + (along - k) * across % 2
    counts = [odd[-shift % period] + odd[(modules - shift) % period] for shift in range(period)]
    return [shift for shift, count in enumerate(counts) if count == min(counts)]


def _turned(stone: Stone, turn: int, period: int) -> Stone:
    """A slab of a patch in one of the eight ways the patch can be turned and mirrored."""
    x, y, length, width = stone
    if turn & 1:
        x = period - x - length
    if turn & 2:
        y = period - y - width
    return (y, x, width, length) if turn & 4 else (x, y, length, width)


def _lay(field: Field, stones: Sequence[Stone], turn: int, place: tuple[int, int], period: int) -> None:
    """Lay those slabs of a patch in a turn that the field has room for and whose size it has."""
    left, low = place
    for stone in stones:
        x, y, length, width = _turned(stone, turn, period)
        column, row = left + x, low + y
        if column < 0 or row < 0 or column + length > field.columns or row + width > field.rows:
            continue
        spot = (field.at(column, row), length, width)
        if (length, width) in field.kinds and field.bare(spot):
            field.lay(spot)


def _fill_up(field: Field, wants: Sequence[float], chance: Chance) -> int:
    """Fill what is bare, a few modules at a time, by the rules if that goes and without them if not; how often."""
    filled = 0
    for module in range(len(field.modules)):
        if field.modules[module] == BARE:
            filled += 1
            gaps = _near(field, module)
            if not Filling(field, gaps, [abs(want) for want in wants], chance).done():
                _fill_anyhow(field, module)
    return filled


def _near(field: Field, module: int) -> list[int]:
    """Bare modules joined to one, at most so many as a window holds."""
    found, waiting = {module}, [module]
    while waiting and len(found) < 12:
        here = waiting.pop(0)
        for beside in (here + 1, here - 1, here + field.stride, here - field.stride):
            if beside not in found and field.modules[beside] == BARE:
                found.add(beside)
                waiting.append(beside)
    return sorted(found)


def _fill_anyhow(field: Field, module: int) -> None:
    """Lay the largest slab that fits at a bare module: at worst a single one, which is always at hand."""
    spots = ((module, length, width) for length, width in field.kinds)
    field.lay(max((spot for spot in spots if field.bare(spot)), key=lambda spot: spot[1] * spot[2]))
