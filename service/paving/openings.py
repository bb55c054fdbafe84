"""Openings: whether they lie inside the area and clear of each other."""

from collections.abc import Sequence

import shapely

from service.paving.errors import ImpossibleShape
from service.paving.outlines import Outline, Point
from service.paving.shapes import NO_AREA, Shape

#: Least x, least y, greatest x, greatest y [m].
Box = tuple[float, float, float, float]

#: Overlap that counts as none along arcs, which are compared by chords half a millimetre off [m2].
_ARC_SLACK = 1e-4


def check_openings(outline: Outline, openings: Sequence[Shape]) -> None:
    """Check openings against the outline they lie in and against each other.

    Raises
    ------
    ImpossibleShape
        If an opening leaves the outline, overlaps another, or nothing is left to pave; at
        ``("openings", k)`` or ``("openings",)``.
    """
    curved = bool(outline.arcs) or any(opening.outline.arcs for opening in openings)
    slack = _ARC_SLACK if curved else NO_AREA
    if not _plainly_apart(outline, openings):
        _compare(outline, openings, slack)
    if outline.area - sum(opening.outline.area for opening in openings) <= slack:
        raise ImpossibleShape("The openings leave nothing to pave.", "openings")


def _plainly_apart(outline: Outline, openings: Sequence[Shape]) -> bool:
    """Whether the boxes round the openings already show that they lie inside the outline and apart.

    A box that no straight side of the outline enters, and whose middle lies inside, is inside.
    """
    boxes = [opening.outline.bounds for opening in openings]
    if outline.arcs or any(_meet(box, other) for k, box in enumerate(boxes) for other in boxes[:k]):
        return False
    return all(
        not any(_enters(side, box) for side in outline.sides)
        and _encloses(outline, ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2))
        for box in boxes
    )


def _meet(first: Box, second: Box) -> bool:
    return first[0] < second[2] and second[0] < first[2] and first[1] < second[3] and second[1] < first[3]


def _enters(side: tuple[Point, Point], box: Box) -> bool:
    """Whether a side may enter a box: it isn't all on one side of it, and the box's corners lie on both sides of it."""
    (x0, y0), (x1, y1) = side
    left, low, right, high = box
    if (x0 <= left and x1 <= left) or (x0 >= right and x1 >= right):
        return False
    if (y0 <= low and y1 <= low) or (y0 >= high and y1 >= high):
        return False
    turns = [(x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) for x in (left, right) for y in (low, high)]
    return min(turns) < 0 < max(turns)


def _encloses(outline: Outline, point: Point) -> bool:
    """Whether a point lies inside straight sides: a ray from it crosses them an odd number of times."""
    x, y = point
    crossed = False
    for (x0, y0), (x1, y1) in outline.sides:
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            crossed = not crossed
    return crossed


def _compare(outline: Outline, openings: Sequence[Shape], slack: float) -> None:
    whole = shapely.Polygon(outline.ring)
    holes = [shapely.Polygon(opening.outline.ring) for opening in openings]
    for k, hole in enumerate(holes):
        if hole.area - hole.intersection(whole).area > slack:
            raise ImpossibleShape(_outside(outline, openings[k].outline, k), "openings", k)
        for j in range(k):
            if hole.intersection(holes[j]).area > slack:
                overlap = f"Opening {k + 1} overlaps opening {j + 1}; move one, or join them."
                raise ImpossibleShape(overlap, "openings", k)


def _outside(outline: Outline, opening: Outline, k: int) -> str:
    left, low, right, high = outline.bounds
    x0, y0, x1, y1 = opening.bounds
    return (
        f"Opening {k + 1} reaches outside the area: it stands at x {x0:g} to {x1:g} m, y {y0:g} to {y1:g} m; "
        f"the area at x {left:g} to {right:g} m, y {low:g} to {high:g} m."
    )
