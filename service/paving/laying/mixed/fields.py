"""Fields: modules with slabs on them, and the two rules of mixed laying.

A field is a rectangle of modules; some may lie outside the area. A row of modules outside
stands all round, so no rule needs to ask where the field ends:

    . . . . . .      .  outside (0)
    . a a b b .      _  bare (-1)
    . a a c _ .      a  a slab, by its number
    . . . . . .
"""

from collections.abc import Sequence
from copy import copy

Size = tuple[int, int]
#: A slab on the field: its lower left module, counted as the field counts them, length along x, width along y.
Spot = tuple[int, int, int]

OUTSIDE, BARE = 0, -1
#: Bare modules in a row, by their number.
_BLANK = [[BARE] * n for n in range(64)]


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
        self.tried = 0

    def copy(self) -> "Field":
        """A field of the same modules, bare as this must be."""
        other = copy(self)
        other.slabs, other._listed, other.numbers = {}, {}, [0] * len(self.sizes)
        other.by_kind, other.modules = tuple([] for _ in self.sizes), self.modules.copy()
        return other

    def at(self, column: int, row: int) -> int:
        """A module by its column and row, as the field counts modules."""
        return (row + 1) * self.stride + column + 1

    def place(self, module: int) -> tuple[int, int]:
        """Column and row of a module."""
        row, column = divmod(module, self.stride)
        return column - 1, row - 1

    def bare(self, spot: Spot) -> bool:
        """Whether a slab can lie there."""
        module, length, width = spot
        modules, stride, blank = self.modules, self.stride, _BLANK[length]
        # all() over the same takes twice as long, and this is where the time goes
        for low in range(module, module + width * stride, stride):  # noqa: SIM110
            if modules[low : low + length] != blank:
                return False
        return True

    def number(self) -> int:
        """A number no slab has had: how many were tried or laid so far."""
        self.tried += 1
        return self.tried

    def mark(self, spot: Spot, number: int) -> None:
        """Write a number, or `BARE`, into the modules of a spot, without any slab lying there yet."""
        module, length, width = spot
        modules, stride, row = self.modules, self.stride, [number] * length
        for low in range(module, module + width * stride, stride):
            modules[low : low + length] = row

    def lay(self, spot: Spot) -> int:
        """Lay a slab and return its number."""
        number = self.number()
        self.mark(spot, number)
        self.enter(spot, number)
        return number

    def enter(self, spot: Spot, number: int) -> None:
        """Count a slab whose modules are marked."""
        _, length, width = spot
        self.slabs[number] = spot
        kind = self.kinds[length, width]
        self.numbers[kind] += 1
        self._listed[number] = len(self.by_kind[kind])
        self.by_kind[kind].append(number)

    def lift(self, number: int) -> Spot:
        """Take a slab up again and return where it lay."""
        spot = self.slabs.pop(number)
        self.mark(spot, BARE)
        kind = self.kinds[spot[1], spot[2]]
        self.numbers[kind] -= 1
        last, place = self.by_kind[kind].pop(), self._listed.pop(number)
        if last != number:
            self.by_kind[kind][place] = last
            self._listed[last] = place
        return spot

    def sound(self, spot: Spot) -> bool:
        """Whether no joints cross at the corners of a slab, and those along it are short enough."""
        module, length, width = spot
        modules, stride = self.modules, self.stride
        top, right = module + width * stride, module + length
        # as `crossed` has it, without the cost of four calls
        for corner in (module, right, top, top + length):
            a, b, c, d = modules[corner - stride - 1], modules[corner - stride], modules[corner - 1], modules[corner]
            if a != b != d and a != c != d and a > 0 < b and c > 0 < d:
                return False
        return not (
            self.overlong(module, stride, 1, width)
            or self.overlong(right, stride, 1, width)
            or self.overlong(module, 1, stride, length)
            or self.overlong(top, 1, stride, length)
        )

    def crossed(self, module: int) -> bool:
        """Whether four slabs meet at the lower left corner of a module."""
        modules, below = self.modules, module - self.stride
        a, b, c, d = modules[below - 1], modules[below], modules[module - 1], modules[module]
        apart = a != b and c != d and a != c and b != d  # noqa: PLR1714 -- two neighbours at a time
        return apart and min(a, b, c, d) > 0

    def flawed(self, module: int) -> bool:
        """Whether a rule is broken at a module, or nothing lies there."""
        return (
            self.modules[module] < 0
            or self.crossed(module)
            or self.overlong(module, self.stride, 1, 1)
            or self.overlong(module, 1, self.stride, 1)
        )

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
