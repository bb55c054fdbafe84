"""Fields: modules with slabs on them, and the two rules of mixed laying.

A field is a rectangle of modules; some may lie outside the area. A row of modules outside
stands all round, so no rule needs to ask where the field ends:

    . . . . . .      .  outside (0)
    . a a b b .      _  bare (-1)
    . a a c _ .      a  a slab, by its number
    . . . . . .
"""

from collections.abc import Iterable, Sequence

Size = tuple[int, int]
#: A slab on the field: its lower left module, counted as the field counts them, length along x, width along y.
Spot = tuple[int, int, int]

OUTSIDE, BARE = 0, -1


class Field:
    """Modules and the slabs on them.

    Parameters
    ----------
    columns, rows : int
        Modules along x and y.
    inside : sequence of bool
        Whether each module belongs to the area, row by row from below.
    sizes : sequence of Size
        Sizes of slab in modules, the greater first.
    limit : int
        Modules along the longest straight joint.
    """

    def __init__(self, columns: int, rows: int, inside: Sequence[bool], sizes: Sequence[Size], limit: int) -> None:
        self.columns, self.rows, self.limit = columns, rows, limit
        self.stride = columns + 2
        self.slabs: dict[int, Spot] = {}
        self.kinds = {turned: k for k, size in enumerate(sizes) for turned in (size, size[::-1])}
        self.sizes = tuple(sizes)
        self.numbers = [0] * len(sizes)
        self.by_kind: tuple[list[int], ...] = tuple([] for _ in sizes)
        self._listed: dict[int, int] = {}
        self.modules = [OUTSIDE] * (self.stride * (rows + 2))
        for k, within in enumerate(inside):
            if within:
                self.modules[self.at(k % columns, k // columns)] = BARE
        self._next = 1

    def at(self, column: int, row: int) -> int:
        """A module by its column and row, as the field counts modules."""
        return (row + 1) * self.stride + column + 1

    def place(self, module: int) -> tuple[int, int]:
        """Column and row of a module."""
        row, column = divmod(module, self.stride)
        return column - 1, row - 1

    def covered(self, spot: Spot) -> Iterable[int]:
        """Modules under a slab."""
        module, length, width = spot
        stride = self.stride
        return [m for low in range(module, module + width * stride, stride) for m in range(low, low + length)]

    def bare(self, spot: Spot) -> bool:
        """Whether a slab can lie there."""
        module, length, width = spot
        modules, stride = self.modules, self.stride
        blank = [BARE] * length
        return all(modules[low : low + length] == blank for low in range(module, module + width * stride, stride))

    def lay(self, spot: Spot) -> int:
        """Lay a slab and return its number."""
        module, length, width = spot
        number, modules, stride = self._next, self.modules, self.stride
        self._next += 1
        for low in range(module, module + width * stride, stride):
            modules[low : low + length] = [number] * length
        self.slabs[number] = spot
        kind = self.kinds[length, width]
        self.numbers[kind] += 1
        self._listed[number] = len(self.by_kind[kind])
        self.by_kind[kind].append(number)
        return number

    def lift(self, number: int) -> Spot:
        """Take a slab up again and return where it lay."""
        spot = self.slabs.pop(number)
        module, length, width = spot
        modules, stride = self.modules, self.stride
        for low in range(module, module + width * stride, stride):
            modules[low : low + length] = [BARE] * length
        kind = self.kinds[length, width]
        self.numbers[kind] -= 1
        last, place = self.by_kind[kind].pop(), self._listed.pop(number)
        if last != number:
            self.by_kind[kind][place] = last
            self._listed[last] = place
        return spot

    def sound(self, spot: Spot) -> bool:
        """Whether no joints cross at the corners of a slab, and those along it are short enough."""
        module, length, width = spot
        top, right = module + width * self.stride, module + length
        return not (
            self.crossed(module)
            or self.crossed(right)
            or self.crossed(top)
            or self.crossed(top + length)
            or self.overlong(module, self.stride, 1, width)
            or self.overlong(right, self.stride, 1, width)
            or self.overlong(module, 1, self.stride, length)
            or self.overlong(top, 1, self.stride, length)
        )

    def crossed(self, module: int) -> bool:
        """Whether four slabs meet at the lower left corner of a module."""
        modules, below = self.modules, module - self.stride
        a, b, c, d = modules[below - 1], modules[below], modules[module - 1], modules[module]
        apart = a != b and c != d and a != c and b != d  # noqa: PLR1714 -- two neighbours at a time
        return apart and min(a, b, c, d) > 0

    def overlong(self, module: int, along: int, across: int, number: int) -> bool:
        """Whether a joint is too long among those through the first side of so many modules.

        `along` leads from module to module, `across` from the module beyond the joint.
        """
        modules, limit = self.modules, self.limit
        run, here = 0, module - along
        while run <= limit and modules[here - across] != modules[here] and modules[here - across] > 0 < modules[here]:
            run += 1
            here -= along
        here, last = module, module + (number - 1) * along
        while run <= limit:
            a, b = modules[here - across], modules[here]
            if a != b and a > 0 and b > 0:
                run += 1
            elif here > last:
                return False
            else:
                run = 0
            here += along
        return True
