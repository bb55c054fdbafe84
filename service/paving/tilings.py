"""Tilings of a rectangle by one size of slab: which rectangles can be laid without a cut.

Whole numbers throughout: sides in one common measure, each with its joint added once.
"""

from collections.abc import Iterator
from math import gcd


def tileable(length: int, width: int, slab_length: int, slab_width: int) -> bool:
    """Whether a rectangle can be laid with whole slabs of one size, turned as needed.

    Parameters
    ----------
    length, width : int
        Sides of the rectangle, above 0.
    slab_length, slab_width : int
        Sides of the slab, above 0, in the same measure.

    Notes
    -----
    With the slab's sides brought to lowest terms a x b, a p x q rectangle can be laid if and
    only if a divides p or q, b divides p or q, and p and q are each sums of a's and b's.

    References
    ----------
    de Bruijn, Filling boxes with bricks, American Mathematical Monthly, 1969; Klarner, Packing
    a rectangle with congruent n-ominoes, Journal of Combinatorial Theory, 1969

    Examples
    --------
    >>> tileable(5, 6, 2, 3), tileable(17, 28, 4, 7), tileable(10, 15, 1, 6)
    (True, False, False)
    """
    common = gcd(slab_length, slab_width)
    if length % common or width % common:
        return False
    p, q, a, b = length // common, width // common, slab_length // common, slab_width // common
    divided = all(p % side == 0 or q % side == 0 for side in (a, b))
    return divided and sums_to(p, a, b) and sums_to(q, a, b)


def sums_to(length: int, first: int, second: int, least: int = 0) -> bool:
    """Whether a length is so many of one side and so many of another.

    Parameters
    ----------
    length, first, second : int
        Lengths, above 0.
    least : int
        Fewest of each, 0 or more.

    Examples
    --------
    >>> sums_to(17, 4, 7), sums_to(18, 4, 7)
    (False, True)
    """
    return next(ways(length, first, second, least), None) is not None


def ways(length: int, first: int, second: int, least: int = 0) -> Iterator[tuple[int, int]]:
    """Every pair of counts in which a length is made up of two sides.

    Examples
    --------
    >>> list(ways(30, 5, 3))
    [(0, 10), (3, 5), (6, 0)]
    """
    for count in range(least, length // first + 1):
        rest = length - count * first
        if rest % second == 0 and rest // second >= least:
            yield count, rest // second


def fault_free(length: int, width: int, slab_length: int, slab_width: int) -> bool:
    """Whether a rectangle can be laid so that no straight joint runs through from side to side.

    Notes
    -----
    For a rectangle of more than one slab, sides in lowest terms: a and b each divide p or q; p
    and q are each a sum of a's and b's, at least one of both, in two ways or more; and it isn't
    the 6 x 6 square of 1 x 2 slabs.

    References
    ----------
    Graham, Fault-free tilings of rectangles, in The Mathematical Gardner, 1981

    Examples
    --------
    >>> fault_free(5, 6, 1, 2), fault_free(6, 6, 1, 2), fault_free(4, 6, 1, 2)
    (True, False, False)
    """
    common = gcd(slab_length, slab_width)
    if not tileable(length, width, slab_length, slab_width):
        return False
    p, q, a, b = length // common, width // common, slab_length // common, slab_width // common
    if p * q == a * b:
        return True
    if (sorted((p, q)), sorted((a, b))) == ([6, 6], [1, 2]):
        return False
    return all(sum(1 for _ in ways(side, a, b, 1)) >= 2 for side in (p, q))
