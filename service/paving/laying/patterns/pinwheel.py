"""Pinwheel: large squares, each with a small square at its corner."""

from fractions import Fraction

from service.paving.laying.lattices import Repeat
from service.paving.laying.patterns.cells import laid


def pinwheel(large: int, small: int, joint: int, kinds: tuple[int, int]) -> Repeat:
    """The repeat of pinwheel.

    Parameters
    ----------
    large, small, joint : int
        Sides of the two squares and joint [µm].
    kinds : tuple of int
        Which slab of the list is the large one, and which the small one.

    Returns
    -------
    Repeat
        Two slabs::

            +---+
            |   +-+-
            |   | |
            +---+-+
                |

    Notes
    -----
    With pitches A and B the small square lies at (A, 0); the repeat runs along (A, B) and
    (−B, A), the tiling by two squares that proves Pythagoras' theorem: A² + B² in one repeat.

    References
    ----------
    Geometry
    """
    a, b = large + joint, small + joint
    tiles = (
        laid(kinds[0], 0, 0, large, large, Fraction(joint)),
        laid(kinds[1], a, 0, small, small, Fraction(joint)),
    )
    return Repeat((a, b), (-b, a), tiles)
