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

from service.paving.laying.arrays import Flags
from service.paving.laying.lattices import Lattice
from service.paving.laying.touched import Touched
from service.paving.reference import Assumption, default


def least_strip() -> Assumption:
    """Width of the widest strip that is neither sawn nor laid [m]."""
    return default("laying", "least_strip")


@dataclass(frozen=True)
class SlabStates:
    """What becomes of slabs that edges run through.

    Parameters
    ----------
    whole, cut : Flags
        Whether each is laid whole, or cut; neither if there is nothing of it.
    """

    whole: Flags
    cut: Flags


def slab_states(touched: Touched, lattice: Lattice) -> SlabStates:
    """What becomes of the slabs of a lattice that edges run through."""
    strip = least_strip().value * lattice.units
    least = strip * (touched.cut + strip)
    there = touched.area > least
    whole = there & (touched.sides[0] * touched.sides[1] - touched.area <= least)
    return SlabStates(whole, there & ~whole)
