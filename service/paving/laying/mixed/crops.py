"""Crops: a patch laid over a field again and again, and made whole at the field's edges."""

from collections.abc import Sequence
from itertools import product

from service.paving.laying.mixed.chances import Chance
from service.paving.laying.mixed.fields import BARE, Field
from service.paving.laying.mixed.patches import Patch, Stone
from service.paving.laying.mixed.windows import Filling


def cropped(field: Field, patch: Patch, wants: Sequence[float], chance: Chance) -> int:
    """Lay a patch over a bare field from a place and in a turn left to chance; how many gaps it left to fill.

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
    for x, y, length, width in stones:
        _repeat(field, ((x + left) % period, (y + low) % period, length, width), period)
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


def _repeat(field: Field, stone: Stone, period: int) -> None:
    x, y, length, width = stone
    if (length, width) not in field.kinds:
        return
    across, up = range(x, field.columns - length + 1, period), range(y, field.rows - width + 1, period)
    for column, row in product(across, up):
        spot = (field.at(column, row), length, width)
        if field.bare(spot):
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
