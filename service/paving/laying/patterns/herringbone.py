"""Herringbone: slabs at right angles, the end of one against the side of the next."""

from fractions import Fraction

from service.paving.laying.lattices import Repeat
from service.paving.laying.patterns.cells import laid, turned


def herringbone(length: int, width: int, joint: int) -> Repeat:
    """The repeat of herringbone, slabs along and across the frame.

    Parameters
    ----------
    length, width, joint : int
        Slab, longer than wide, and joint [µm].

    Returns
    -------
    Repeat
        Two slabs::

            +---+-+
            |   | |
            +-+-+ |
            | |   |
            | +---+

    Notes
    -----
    With pitches A and B (slab and joint), slabs lie at (0, 0) along x and at (A, B − A)
    along y, repeated along (A, −A) and (B, B). The cells cover the plane for any A above
    B, not only for A = 2 B.

    References
    ----------
    Geometry
    """
    a, b = length + joint, width + joint
    along = laid(0, 0, 0, length, width, Fraction(joint))
    across = turned(0, a, b - a, length, width, Fraction(joint))
    return Repeat((a, -a), (b, b), (along, across))
