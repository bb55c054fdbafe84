"""Views: where in a field the next window is opened."""

from collections.abc import Sequence

from service.paving.laying.mixed.chances import Chance
from service.paving.laying.mixed.fields import Field
from service.paving.laying.mixed.windows import MORE_NODES, NODES, Window

#: Least and greatest side of a window [modules], and of a larger one that is tried when so many haven't helped.
USUAL, LARGER = (3, 6), (4, 8)
_NODES = {USUAL: NODES, LARGER: MORE_NODES}
#: How often a slab no one wants is moved anywhere instead of towards the next one like it.
_ASTRAY = 0.3
#: Slabs looked at for the nearest, where more lie: to look at all takes longer than to lay a window.
_LOOKED_AT = 60


def window_round(field: Field, module: int, chance: Chance, sides: tuple[int, int] = USUAL) -> Window:
    """A window left to chance round a module."""
    column, row = field.place(module)
    least, most = sides
    length, width = (least + chance.below(most - least + 1) for _ in range(2))
    corner = chance.one_of((1, -1)), chance.one_of((1, -1))
    return Window(column - chance.below(length), row - chance.below(width), length, width, corner, _NODES[sides])


def window_of_too_many(field: Field, numbers: Sequence[int], chance: Chance, sides: tuple[int, int]) -> Window:
    """A window round a slab of a size there are too many of, from there to the nearest other if none are wanted."""
    kind = chance.one_of([k for k, wanted in enumerate(numbers) if field.numbers[k] > wanted])
    slab = chance.one_of(field.by_kind[kind])
    module = field.slabs[slab][0]
    if numbers[kind] or field.numbers[kind] < 2 or chance.draw() < _ASTRAY:
        return window_round(field, module, chance, sides)
    return _window_towards(field, module, _nearest_other(field, slab, kind, chance), chance)


def _nearest_other(field: Field, slab: int, kind: int, chance: Chance) -> int:
    """The module of the slab of one size nearest to another of it, of those looked at."""
    like = field.by_kind[kind]
    start = chance.below(len(like) - _LOOKED_AT) if len(like) > _LOOKED_AT else 0
    others = [field.slabs[n][0] for n in like[start : start + _LOOKED_AT] if n != slab]
    column, row = field.place(field.slabs[slab][0])
    places = [field.place(other) for other in others]
    away = [(max(abs(x - column), abs(y - row)), place) for (x, y), place in zip(places, others, strict=True)]
    return min(away, key=lambda found: found[0])[1]


def _window_towards(field: Field, module: int, other: int, chance: Chance) -> Window:
    """A window that begins beyond a module and ends towards another, beyond it if it is near."""
    (column, row), (column_to, row_to) = field.place(module), field.place(other)
    left, length, rightwards = _reach(column, column_to, chance)
    low, width, upwards = _reach(row, row_to, chance)
    return Window(left, low, length, width, (rightwards, upwards))


def _reach(start: int, end: int, chance: Chance) -> tuple[int, int, int]:
    """Least place, length and direction of a window from one place towards another."""
    most = USUAL[1]
    direction = 1 if end > start else -1 if end < start else chance.one_of((1, -1))
    end = min(max(end, start - most), start + most)
    margins = chance.below(3), chance.below(3)
    low, high = min(start, end) - margins[0], max(start, end) + margins[1]
    return low, high - low + 1, direction
