"""Laid: a paving laid on an area at one origin, and what that takes."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.areas import Area
from service.paving.laying.arrays import Whole
from service.paving.laying.buying import Purchase, purchases
from service.paving.laying.counts import Counted, counted, settled
from service.paving.laying.cuts import Cuts
from service.paving.laying.grounds import Frame, ground
from service.paving.laying.lattices import Lattice
from service.paving.laying.pavings import Paving
from service.paving.reference import default


@dataclass(frozen=True)
class Laid:
    """A paving laid on an area.

    Parameters
    ----------
    paving : Paving
        Slabs and how they are laid.
    frame : Frame
        Where the pattern stands on plan.
    cuts : Cuts
        The count, and the slabs to cut.
    """

    paving: Paving
    frame: Frame
    cuts: Cuts

    @property
    def counted(self) -> Counted:
        return self.cuts.counted

    @cached_property
    def names(self) -> tuple[str, ...]:
        """Names of the slabs, by size."""
        return tuple(slab.name for slab in self.paving.slabs)

    @cached_property
    def whole(self) -> tuple[int, ...]:
        """Slabs laid whole, by size."""
        return self._by_size(self.counted.whole_by_tile)

    @cached_property
    def cut(self) -> tuple[int, ...]:
        """Slabs laid cut, by size."""
        return self._by_size(self.counted.cut_by_tile)

    @cached_property
    def purchases(self) -> tuple[Purchase, ...]:
        """Slabs to buy for the cut ones, by size."""
        return purchases(self.cuts, self.paving)

    @cached_property
    def to_buy(self) -> tuple[int, ...]:
        """Slabs to buy, by size."""
        return tuple(whole + bought.slabs for whole, bought in zip(self.whole, self.purchases, strict=True))

    @property
    def least(self) -> int:
        """Slabs that can't be undercut."""
        return sum(self.whole) + sum(bought.bound for bought in self.purchases)

    @property
    def bound_model(self) -> str:
        """What that holds for, size by size where they differ."""
        return ", ".join(dict.fromkeys(bought.model for bought in self.purchases))

    @cached_property
    def waste(self) -> float:
        """Part of the slabs to buy that isn't laid."""
        sizes = zip(self.to_buy, self.paving.slabs, strict=True)
        face = sum(number * slab.length * slab.width for number, slab in sizes)
        return max(1 - settled(self.counted.paved_area, face) / face, 0.0) if face else 0.0

    @property
    def thinnest(self) -> float | None:
        """Thickness of the thinnest piece [m]; none if nothing is cut."""
        return float(self.cuts.thickness.min()) if self.cuts.thickness.size else None

    @cached_property
    def slivers(self) -> int:
        """Cut slabs with a piece thinner than a third of the slab."""
        lattice = self.counted.lattice
        widths = lattice.boxes[2:, : lattice.slabs].min(axis=0) / lattice.units
        thin = self.cuts.thickness < default("laying", "sliver").value * widths[self.cuts.tiles]
        return int(np.count_nonzero(thin))

    def _by_size(self, by_tile: Whole) -> tuple[int, ...]:
        numbers = np.bincount(self.counted.lattice.sizes, weights=by_tile, minlength=len(self.paving.slabs))
        return tuple(int(number) for number in numbers)


def laid(area: Area, paving: Paving, lattice: Lattice, frame: Frame) -> Laid:
    """Lay a paving with the origin of its pattern where the frame says."""
    return Laid(paving, frame, Cuts(counted(ground(area.rings, frame, lattice.fineness), lattice)))
