"""Cuts: the slabs to be cut, each with the parts kept of it."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.laying.arrays import Real, Whole
from service.paving.laying.counts import Counted
from service.paving.laying.kept import Kept, kept


@dataclass(frozen=True)
class Cuts:
    """Cut slabs of a layout.

    Parameters
    ----------
    counted : Counted
        The layout.
    """

    counted: Counted

    @cached_property
    def kept(self) -> Kept:
        """What is kept of each cut slab, in the order of `counted.cut`."""
        return kept(self.counted, self.counted.cut)

    @cached_property
    def _several(self) -> tuple[Whole, Kept] | None:
        """Those that may fall into several parts, by their place among the cut ones; none if none may."""
        places = np.flatnonzero(self.counted.touched.entries[self.counted.cut] > 1)
        return (places, kept(self.counted, self.counted.cut[places])) if places.size else None

    @property
    def _traced(self) -> bool:
        """Whether all outlines are known already; then nothing need be found apart from them."""
        return "kept" in self.__dict__

    @cached_property
    def pieces(self) -> int:
        """How many pieces are kept of all cut slabs."""
        if self._traced:
            return self.kept.slabs.size
        more = 0 if self._several is None else self._several[1].slabs.size - self._several[0].size
        return self.counted.cut.size + more

    @cached_property
    def thickness(self) -> Real:
        """Thickness of the thinnest piece of each cut slab, measured along its sides [m]."""
        if self._traced:
            return self.kept.thickness / self.counted.lattice.units
        thin = self.counted.touched.size.min(axis=0)[self.counted.cut]
        if self._several is not None:
            places, several = self._several
            thin[places] = several.thickness
        return thin / self.counted.lattice.units

    @cached_property
    def tiles(self) -> Whole:
        """Which tile of the repeat each cut slab is."""
        return self.counted.touched.kinds[self.counted.cut]
