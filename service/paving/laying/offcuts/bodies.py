"""Bodies: a convex outline round a piece, and one inside it.

What fits for the outline round a piece fits for the piece; what can't fit for an outline
inside it can't for the piece. Most pieces are convex, and both are the piece itself. A
piece with a hollow side is taken for its hull one way and cut along a side of the hollow
the other:

     _______              _______              _______
    |       \\            |       \\            |      /
    | piece  |           |  round |           |inside/
    |     .-'            |      .'            |   . '
    |____/               |____.'              |__/
"""

import math
from collections.abc import Iterator

from service.paving.laying.cut_pieces import Ring
from service.paving.laying.offcuts.parts import Part, ring_area

#: Depth of a dent that is put down to points on whole micrometres [µm].
DENT = 2.0


def hull(ring: Ring) -> Ring:
    """Corners of the convex outline round a ring, counter-clockwise.

    References
    ----------
    Andrew, A. M., "Another efficient algorithm for convex hulls in two dimensions",
    Information Processing Letters 9 (1979) (from memory)

    Examples
    --------
    >>> hull(((0, 0), (4, 0), (4, 4), (2, 1), (0, 4)))
    ((0, 0), (4, 0), (4, 4), (0, 4))
    """
    points = sorted(set(ring))
    return (*_chain(points)[:-1], *_chain(points[::-1])[:-1])


def _chain(points: list[tuple[int, int]]) -> list[tuple[int, int]]:
    chain: list[tuple[int, int]] = []
    for point in points:
        while len(chain) > 1 and _left_of(chain[-2], chain[-1], point) <= 0:
            chain.pop()
        chain.append(point)
    return chain


def _left_of(a: tuple[int, int], b: tuple[int, int], point: tuple[int, int]) -> int:
    """How far a point lies left of the line from a to b, times their distance."""
    return (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])


def ring_length(ring: Ring) -> float:
    """Length round a ring [µm].

    Examples
    --------
    >>> ring_length(((0, 0), (3, 0), (3, 4)))
    12.0
    """
    return sum(map(math.dist, ring, (*ring[1:], ring[0])))


def convex(ring: Ring, around: Ring) -> bool:
    """Whether no corner of a ring lies deeper in the hull around it than a rounding.

    Examples
    --------
    >>> around = ((0, 0), (90, 0), (0, 90))
    >>> convex(((0, 0), (90, 0), (45, 44), (0, 90)), around), convex(((0, 0), (90, 0), (30, 30), (0, 90)), around)
    (True, False)
    """
    if len(ring) == len(around):
        return True
    corners = set(around)
    first = next(k for k, point in enumerate(ring) if point in corners)
    start = ring[first]
    dents = []
    for point in (*ring[first + 1 :], *ring[: first + 1]):
        if point not in corners:
            dents.append(point)
            continue
        deepest = max((_left_of(start, point, dent) for dent in dents), default=0)
        if deepest > DENT * math.dist(start, point):
            return False
        start, dents = point, []
    return True


def body_inside(part: Part, around: Ring) -> Ring | None:
    """The largest convex outline inside a piece that one cut along one of its sides leaves; None if none does.

    Parameters
    ----------
    part : Part
        The piece.
    around : Ring
        Its hull.
    """
    if len(part.rings) > 1:
        return None
    if convex(part.rings[0], around):
        return around
    return max(_cut_convex(part.rings[0]), key=ring_area, default=None)


def _cut_convex(ring: Ring) -> Iterator[Ring]:
    """What is left of a ring when it is cut along a side next to a hollow corner, where that is convex."""
    for k, corner in enumerate(ring):
        before, after = ring[k - 1], ring[(k + 1) % len(ring)]
        if _left_of(before, corner, after) >= 0:
            continue
        for side in ((before, corner), (corner, after)):
            left = _cut_along(ring, *side)
            around = hull(left)
            if len(around) > 2 and convex(left, around):
                yield around


def _cut_along(ring: Ring, a: tuple[int, int], b: tuple[int, int]) -> Ring:
    """The part of a ring left of the line from a to b."""
    left = []
    for point, following in zip(ring, (*ring[1:], ring[0]), strict=True):
        here, there = _left_of(a, b, point), _left_of(a, b, following)
        if here >= 0:
            left.append(point)
        if here * there < 0:
            way = here / (here - there)
            left.append(
                (round(point[0] + way * (following[0] - point[0])), round(point[1] + way * (following[1] - point[1])))
            )
    return tuple(left)
