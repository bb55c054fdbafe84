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

from service.paving.laying.arrays import Flags, Real
from service.paving.reference import Assumption, default


def least_strip() -> Assumption:
    """Width of the widest strip that is neither sawn nor laid [m]."""
    return default("laying", "least_strip")


def nothing(area: Real, cut: Real, strip: float) -> Flags:
    """Whether so little area along so long a cut counts as nothing; all in one unit of length."""
    return area <= strip * (cut + strip)
