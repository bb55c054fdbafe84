"""Counts: whole and cut slabs, areas, joints and sawing of one layout."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.errors import BrokenIdentity
from service.paving.laying.arrays import Whole
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import Lattice
from service.paving.laying.rows import Rows, all_places, rows, seen
from service.paving.laying.tolerances import SlabStates
from service.paving.laying.touched import Measured, Sawn, Touched, measured

#: Greatest difference between the cells of a layout and its ground [m2]: a square millimetre.
_SLACK = 1e-6


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

    @property
    def sawn(self) -> Sawn:
        return self.measured.sawn

    @cached_property
    def _states(self) -> tuple[Whole, Whole]:
        size = self.sawn.cut.size
        states = SlabStates(self.lattice, self.touched.kinds[:size], self.touched.area[:size], self.sawn.cut)
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
        """Boxes of each kind inside the ground that no edge touches."""
        touched = np.bincount(self.touched.kinds, weights=self.touched.winding, minlength=self.lattice.kinds)
        return self.rows.inside - np.rint(touched).astype(np.int64)

    @cached_property
    def whole_by_tile(self) -> Whole:
        """Whole slabs by tile of the repeat."""
        tiles = self.lattice.slabs
        return self.inner[:tiles] + np.bincount(self.touched.kinds[self.whole], minlength=tiles)

    @cached_property
    def cut_by_tile(self) -> Whole:
        """Cut slabs by tile of the repeat."""
        return np.bincount(self.touched.kinds[self.cut], minlength=self.lattice.slabs)

    @cached_property
    def paved_area(self) -> float:
        """Area of the slabs laid [m2]."""
        laid = float(np.sum(self.touched.area[self.whole]) + np.sum(self.touched.area[self.cut]))
        tiles = self.lattice.slabs
        inner = sum(int(n) * area for n, area in zip(self.inner[:tiles], self.lattice.faces[:tiles], strict=True))
        return (inner + laid) / self.lattice.units**2

    @cached_property
    def sawing_length(self) -> float:
        """Length of the area's edges across cut slabs [m]."""
        return float(np.sum(self.sawn.cut[self.cut])) / self.lattice.units

    @cached_property
    def joint_length(self) -> float:
        """Length of the joints inside the area along their centre lines, each once [m]."""
        cells = self.lattice.cells
        _, _, length, width = self.lattice.boxes[:, cells]
        sides = float(np.sum(self.inner[cells] * (length + width)) - np.sum(self.measured.along[cells]))
        touched = self._touched_cells
        sides += float(np.sum(self.touched.left[touched]) + np.sum(self.touched.bottom[touched]))
        return sides / self.lattice.units

    @cached_property
    def _touched_cells(self) -> Whole:
        return np.flatnonzero(self.touched.kinds >= self.lattice.cells.start)

    def check(self) -> None:
        """Slabs with their shares of the joints must add up to the ground.

        Raises
        ------
        BrokenIdentity
            If they differ by more than a square millimetre, or an inner count is below nought.
        """
        inner = sum(
            int(n) * area
            for n, area in zip(self.inner[self.lattice.cells], self.lattice.faces[self.lattice.cells], strict=True)
        )
        difference = inner - self.ground.area + float(np.sum(self.touched.area[self._touched_cells]))
        if abs(difference) > _SLACK * self.lattice.units**2 or np.any(self.inner < 0):
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
