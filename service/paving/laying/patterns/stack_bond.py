"""Stack bond: all joints run through."""

from fractions import Fraction

from service.paving.laying.lattices import Repeat
from service.paving.laying.patterns.cells import laid


def stack_bond(length: int, width: int, joint: int) -> Repeat:
    """The repeat of stack bond.

    Parameters
    ----------
    length, width, joint : int
        Slab and joint [µm].

    Returns
    -------
    Repeat
        One slab::

            +---+---+---+
            |   |   |   |
            +---+---+---+
            |   |   |   |
            +---+---+---+

    References
    ----------
    Geometry
    """
    u, v = (length + joint, 0), (0, width + joint)
    return Repeat(u, v, (laid(0, 0, 0, length, width, Fraction(joint)),))
