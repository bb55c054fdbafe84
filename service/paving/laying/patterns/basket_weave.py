"""Basket weave: pairs of slabs laid by turns along and across."""

from fractions import Fraction

from service.paving.laying.lattices import Box, Exact, Repeat, Tile


def basket_weave(length: int, width: int, joint: int) -> Repeat:
    """The repeat of basket weave.

    Parameters
    ----------
    length, width, joint : int
        Slab, about twice as long as wide, and joint [µm].

    Returns
    -------
    Repeat
        Four slabs, a pair along and a pair across::

            +---+-+-+
            |   | | |
            +---+ | |
            |   | | |
            +---+-+-+

    Notes
    -----
    Each pair fills a square module. Where two widths and a joint aren't exactly one
    length, the module takes the greater of the two: either the joint between the pair or
    the joint at the ends of it is that much wider, and the pair stays flush with the
    lower left of its module.

    References
    ----------
    Geometry
    """
    module = max(length, 2 * width + joint) + joint
    half, rim = Fraction(module, 2), Fraction(joint, 2)
    second = module - joint - width
    tiles: list[Tile] = []
    for k, y in enumerate((0, second)):
        low = k * half - rim
        tiles.append(_tile(Box(0, y, length, width), Box(-rim, low, module, half), 0))
        tiles.append(_tile(Box(module + y, 0, width, length), Box(module + low, -rim, half, module), 1))
    return Repeat((2 * module, 0), (module, module), tuple(tiles))


def _tile(box: Box, cell: Box, quarter_turns: int) -> Tile:
    return Tile(0, box, cell, quarter_turns)


def uneven_joint(length: int, width: int, joint: int) -> Exact:
    """How much wider than asked the widest joint of the weave is [µm].

    Examples
    --------
    >>> uneven_joint(200_000, 100_000, 3_000)
    3000
    """
    return abs(length - 2 * width - joint)
