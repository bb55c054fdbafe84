"""Plots: an area in modules.

A right-angled area is modular if each of its edges stands where slabs end: at a whole
module, or up to a joint before it. Then every module is either paved or not, and nothing
is cut. Any other area is laid over from end to end and cut afterwards.

    0         1         2    modules
    +-------+ +-------+ +
    | slab  |j| slab  |j|    an edge may stand anywhere in j
    +-------+ +-------+ +
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.laying.arrays import Whole
from service.paving.laying.sites import Site


@dataclass(frozen=True)
class Plot:
    """A site on a module grid.

    Parameters
    ----------
    site : Site
        The area.
    side : int
        The module, joint included [µm].
    joint : int
        Width of the joints [µm].
    strip : int
        Width that is neither sawn nor laid [µm].
    """

    site: Site
    side: int
    joint: int
    strip: int

    @cached_property
    def modular(self) -> bool:
        """Whether it can be laid without a cut."""
        over = (self.site.ground.starts + self.strip) % self.side
        stands = (over <= 2 * self.strip) | (over >= self.side - self.joint)
        return self.site.right_angled and bool(np.all(stands)) and min(self.size) > 0 and bool(self.inside.any())

    @cached_property
    def first(self) -> tuple[int, int]:
        """First column and row."""
        left, low, _, _ = self.site.bounds
        return self._line(left), self._line(low)

    @cached_property
    def size(self) -> tuple[int, int]:
        """Columns and rows."""
        _, _, right, high = self.site.bounds
        (column, row), side = self.first, self.side
        return -(-(right - self.strip) // side) - column, -(-(high - self.strip) // side) - row

    def _line(self, place: int) -> int:
        """Which module begins at an edge, or lies across it."""
        return (place + self.joint + self.strip) // self.side

    @cached_property
    def inside(self) -> Whole:
        """1 for every module of a right-angled area, 0 for the others, row by row from below."""
        columns, rows = self.size
        found = np.zeros((rows, columns + 1), dtype=np.int64)
        at = [
            (ends + self.joint + self.strip) // self.side for ends in (self.site.ground.starts, self.site.ground.ends)
        ]
        (x0, y0), (_, y1) = at
        for x, start, end in zip(x0 - self.first[0], y0 - self.first[1], y1 - self.first[1], strict=True):
            if start != end:
                found[min(start, end) : max(start, end), min(max(x, 0), columns)] += 1 if end < start else -1
        return np.cumsum(found, axis=1)[:, :columns]

    @property
    def covered(self) -> Whole:
        """1 for every module to be laid."""
        columns, rows = self.size
        return self.inside if self.modular else np.ones((rows, columns), dtype=np.int64)
