"""Cuts: the slabs to be cut, each with the parts kept of it."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.laying.arrays import Real, Whole
from service.paving.laying.counts import Counted
from service.paving.laying.loops import Part, Tracer
from service.paving.laying.tolerances import least_strip


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
    def _tracer(self) -> Tracer:
        count = self.counted
        return Tracer(count.ground, count.lattice, count.measured, count.rows.places)

    @cached_property
    def parts(self) -> tuple[tuple[Part, ...], ...]:
        """Parts kept of each cut slab, in the order of `counted.cut`."""
        return tuple(self._kept(box) for box in self.counted.cut.tolist())

    @cached_property
    def _several(self) -> dict[int, tuple[Part, ...]]:
        """Parts of those slabs that may fall into several, by their place among the cut ones."""
        entries = self.counted.sawn.entries[self.counted.cut]
        cut = self.counted.cut.tolist()
        return {k: self._kept(cut[k]) for k in np.flatnonzero(entries > 1).tolist()}

    def _kept(self, box: int) -> tuple[Part, ...]:
        """Parts big enough to be laid; the biggest in any case."""
        parts = self._tracer.parts(box)
        if len(parts) == 1:
            return parts
        strip = least_strip().value * self.counted.lattice.units
        slab = self._tracer.slabs[self._tracer.kinds[box]]
        kept = tuple(part for part in parts if part.area > strip * (slab.cut_length(part.loops) + strip))
        return kept or (max(parts, key=lambda part: part.area),)

    @cached_property
    def pieces(self) -> int:
        """How many pieces are kept of all cut slabs."""
        return self.counted.cut.size + sum(len(parts) - 1 for parts in self._several.values())

    @cached_property
    def thickness(self) -> Real:
        """Thickness of the thinnest piece of each cut slab, measured along its sides [m]."""
        sawn = self.counted.sawn
        thin = np.minimum(sawn.high_x - sawn.low_x, sawn.high_y - sawn.low_y)[self.counted.cut]
        for k, parts in self._several.items():
            thin[k] = min(min(right - left, high - low) for left, low, right, high in (p.bounds for p in parts))
        return thin / self.counted.lattice.units

    @cached_property
    def tiles(self) -> Whole:
        """Which tile of the repeat each cut slab is."""
        return self.counted.touched.kinds[self.counted.cut]
