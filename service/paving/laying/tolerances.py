"""The one rule that says whether a slab is whole, cut, or not there at all.

A layer doesn't saw off half a millimetre, and doesn't lay half a millimetre. A slab of
which less than that is missing along the cut is whole; one of which less than that is
left is taken up in the joint:

    area left     <=  half a millimetre x length of cut   ->  not there
    area missing  <=  half a millimetre x length of cut   ->  whole

The length of cut is taken half a millimetre longer than it is, so that a corner no
bigger than a grain of sand isn't a piece either.

References
----------
Common practice. Half a millimetre is also the distance at which chords stand for arcs.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.laying.arrays import Flags, Real, Whole
from service.paving.laying.lattices import Lattice
from service.paving.reference import Assumption, default


def least_strip() -> Assumption:
    """Width of the widest strip that is neither sawn nor laid [m]."""
    return default("laying", "least_strip")


def nothing(area: Real | float, cut: Real | float, strip: float) -> Flags:
    """Whether so little area along so long a cut counts as nothing; all in one unit of length."""
    return np.asarray(area <= strip * (cut + strip))


@dataclass(frozen=True)
class SlabStates:
    """What becomes of slabs that edges run through.

    Parameters
    ----------
    lattice : Lattice
        What they are of.
    kinds : Whole
        Which slab of the repeat each is.
    area, length : Real
        What is left of each [grid units squared], and the length of the edges through it [grid units].
    """

    lattice: Lattice
    kinds: Whole
    area: Real
    length: Real

    @cached_property
    def strip(self) -> float:
        """The least strip in grid units."""
        return least_strip().value * self.lattice.units

    @cached_property
    def gone(self) -> Flags:
        return nothing(self.area, self.length, self.strip)

    @cached_property
    def whole(self) -> Flags:
        missing = np.array(self.lattice.faces, dtype=float)[self.kinds] - self.area
        return nothing(missing, self.length, self.strip) & ~self.gone

    @cached_property
    def cut(self) -> Flags:
        return ~(self.gone | self.whole)
