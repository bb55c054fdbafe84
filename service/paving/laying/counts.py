"""Counts: whole and cut slabs, areas, joints and sawing of one layout."""

from dataclasses import dataclass
from functools import cached_property
from operator import mul

import numpy as np

from service.paving.errors import BrokenIdentity
from service.paving.laying.arrays import Whole
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import Lattice
from service.paving.laying.rows import Rows, all_places, rows, seen
from service.paving.laying.tolerances import slab_states
from service.paving.laying.touched import Measured, Touched, measured

#: Greatest difference between the cells of a layout and its ground [m2]: a square millimetre.
_SLACK = 1e-6


def settled(area: float, other: float) -> float:
    """An area, or another one that the grid can't tell from it [m2].

    Examples
    --------
    >>> settled(2.1599999, 2.16), settled(2.15, 2.16)
    (2.16, 2.15)
    """
    return other if abs(area - other) <= _SLACK else area


@dataclass(frozen=True)
class Counted:
    """A pattern laid on a ground.

    Parameters
    ----------
    ground : Ground
        What is paved.
    lattice : Lattice
        What it is paved with.
    rows : Rows
        Where the ground crosses the rows of the lattice.
    measured : Measured
        What the ground leaves of the boxes its edges touch.
    """

    ground: Ground
    lattice: Lattice
    rows: Rows
    measured: Measured

    @property
    def touched(self) -> Touched:
        return self.measured.touched

    @cached_property
    def _states(self) -> tuple[Whole, Whole]:
        states = slab_states(self.touched, self.lattice)
        return np.flatnonzero(states.whole), np.flatnonzero(states.cut)

    @property
    def whole(self) -> Whole:
        """Which of the touched boxes are slabs laid whole."""
        return self._states[0]

    @property
    def cut(self) -> Whole:
        """Which of the touched boxes are slabs to cut."""
        return self._states[1]

    @cached_property
    def inner(self) -> Whole:
        """Slabs of each tile inside the ground that no edge touches."""
        tiles = self.lattice.slabs
        touched = np.bincount(self.touched.kinds, weights=self.touched.winding, minlength=tiles)
        return self.rows.inside[:tiles] - np.rint(touched).astype(np.int64)

    @cached_property
    def whole_by_tile(self) -> Whole:
        """Whole slabs by tile of the repeat."""
        tiles = self.lattice.slabs
        return self.inner + np.bincount(self.touched.kinds[self.whole], minlength=tiles)

    @cached_property
    def cut_by_tile(self) -> Whole:
        """Cut slabs by tile of the repeat."""
        return np.bincount(self.touched.kinds[self.cut], minlength=self.lattice.slabs)

    @cached_property
    def paved_area(self) -> float:
        """Area of the slabs laid [m2]."""
        laid = float(self.touched.area[self.whole].sum() + self.touched.area[self.cut].sum())
        inner = self._sum(self.inner, 0)
        return (inner + laid) / self.lattice.units**2

    @cached_property
    def sawing_length(self) -> float:
        """Length of the area's edges across cut slabs [m]."""
        return float(self.touched.cut[self.cut].sum()) / self.lattice.units

    @cached_property
    def joint_length(self) -> float:
        """Length of the joints inside the area along their centre lines, each once [m].

        Every cell adds its left and its bottom side, as far as they are paved.
        """
        cells = self.lattice.cells
        sides = float(self.rows.inside[cells] @ self.lattice.boxes[2:, cells].sum(axis=0))
        return (sides + self.measured.cells.joints) / self.lattice.units

    def _sum(self, numbers: Whole, first: int) -> int:
        """Area of so many boxes of each kind, from the first kind on [grid units squared]."""
        return sum(map(mul, numbers.tolist(), self.lattice.faces[first:]))

    def check(self) -> None:
        """Slabs with their shares of the joints must add up to the ground.

        Raises
        ------
        BrokenIdentity
            If they differ by more than a square millimetre, or an inner count is below nought.
        """
        cells = self.lattice.cells
        difference = self._sum(self.rows.inside[cells], cells.start) - self.ground.area + self.measured.cells.area
        if abs(difference) > _SLACK * self.lattice.units**2 or (self.inner < 0).any():
            millimetres = difference / self.lattice.units**2 * 1e6
            raise BrokenIdentity(f"Slabs and joints differ from the area by {millimetres:.3g} mm2.")


def counted(ground: Ground, lattice: Lattice) -> Counted:
    """Lay a pattern on a ground and count it; the sum of slabs and joints is checked.

    Raises
    ------
    BrokenIdentity
        If slabs and joints don't add up to the ground.
    """
    view = seen(ground, lattice)
    crossed = rows(lattice, view, all_places(lattice, view))
    count = Counted(ground, lattice, crossed, measured(ground, lattice, view, crossed))
    count.check()
    return count
