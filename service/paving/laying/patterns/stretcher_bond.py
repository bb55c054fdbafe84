"""Stretcher bond: each course is shifted along by a part of a slab."""

from fractions import Fraction

from service.paving.laying.lattices import Repeat
from service.paving.laying.patterns.cells import laid


def stretcher_bond(length: int, width: int, joint: int, offset: Fraction) -> Repeat:
    """The repeat of stretcher bond.

    Parameters
    ----------
    length, width, joint : int
        Slab and joint [µm].
    offset : Fraction
        Shift of each course against the one below, as a part of a slab with its joint, 0 to 1.

    Returns
    -------
    Repeat
        One slab::

            --+---+---+-
              |   |   |
            +-+-+-+-+-+-+
            |   |   |   |
            +---+---+---+

    Notes
    -----
    The shift is exact: a third of 605 mm stays 605/3 mm however many courses are laid.

    References
    ----------
    Geometry
    """
    pitch = length + joint
    return Repeat((pitch, 0), (pitch * offset, width + joint), (laid(0, 0, 0, length, width, Fraction(joint)),))
