"""Cuts: the slabs to be cut, each with the parts kept of it."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.laying.arrays import Real, Whole
from service.paving.laying.counts import Counted
from service.paving.laying.loops import Part, Slab, Tracer
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
    def parts(self) -> tuple[tuple[Part, ...], ...]:
        """Parts kept of each cut slab, in the order of `counted.cut`."""
        return self._kept(self.counted.cut)

    @cached_property
    def _several(self) -> dict[int, tuple[Part, ...]]:
        """Parts of those slabs that may fall into several, by their place among the cut ones."""
        places = np.flatnonzero(self.counted.touched.entries[self.counted.cut] > 1)
        if "parts" in self.__dict__:
            return {k: self.parts[k] for k in places.tolist()}
        return dict(zip(places.tolist(), self._kept(self.counted.cut[places]), strict=True))

    def _kept(self, boxes: Whole) -> tuple[tuple[Part, ...], ...]:
        """Parts big enough to be laid of some touched slabs; the biggest in any case."""
        count = self.counted
        tracer = Tracer(count.ground, count.lattice, count.measured, count.rows.places, boxes)
        strip = least_strip().value * count.lattice.units
        return tuple(_big_enough(tracer.parts(k), tracer.slabs[k], strip) for k in range(boxes.size))

    @cached_property
    def pieces(self) -> int:
        """How many pieces are kept of all cut slabs."""
        return self.counted.cut.size + sum(len(parts) - 1 for parts in self._several.values())

    @cached_property
    def thickness(self) -> Real:
        """Thickness of the thinnest piece of each cut slab, measured along its sides [m]."""
        thin = self.counted.touched.size.min(axis=0)[self.counted.cut]
        for k, parts in self._several.items():
            thin[k] = min(min(right - left, high - low) for left, low, right, high in (p.bounds for p in parts))
        return thin / self.counted.lattice.units

    @cached_property
    def tiles(self) -> Whole:
        """Which tile of the repeat each cut slab is."""
        return self.counted.touched.kinds[self.counted.cut]


def _big_enough(parts: tuple[Part, ...], slab: Slab, strip: float) -> tuple[Part, ...]:
    if len(parts) == 1:
        return parts
    kept = tuple(part for part in parts if part.area > strip * (slab.cut_length(part.loops) + strip))
    return kept or (max(parts, key=lambda part: part.area),)
