"""No-cut shapes: where the sides of a right-angled area must stand for stack bond to need no cut.

Every side where the paving begins stands at a whole number of slabs and joints from the
first, every side where it ends a joint short of that:

    begins       ends          pitch = slab + joint
    |            |
    +----+ +----+ +----+
    |    | |    | |    |
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from service.paving.areas import Area
from service.paving.errors import OutOfRange
from service.paving.no_cut_sizes import Laying, Moved, NoCutSizes
from service.paving.no_cut_stacks import NoCutSize
from service.paving.outlines import Point
from service.paving.reference import default
from service.paving.runs_of_slabs import JointRange
from service.paving.slabs import Slab

_FITS = "It can be laid without a cut."
_MOVES = "In stack bond it needs cuts unless its sides are moved as listed."
_NOT_SEARCHED = " Of other ways to lay a shape none was looked for; a rectangle is decided for every way."


@dataclass(frozen=True, slots=True)
class NoCutShape:
    """Whether a right-angled area needs no cut, and where its sides should stand if it does.

    Parameters
    ----------
    fits : bool
        Whether it needs no cut as it stands.
    joint, joint_across : float
        Joint along x and along y [m].
    slabs : int
        How many slabs it then takes.
    turned : bool
        Whether the slabs lie across.
    change : float
        How far its sides move, all together [m].
    sides : tuple of Moved
        Every side.
    """

    fits: bool
    joint: float
    joint_across: float
    slabs: int
    turned: bool
    change: float
    sides: tuple[Moved, ...]


@dataclass(frozen=True, slots=True)
class _Stop:
    """A place along one axis where the paving begins or ends."""

    at: float
    ends: bool


@dataclass(frozen=True, slots=True)
class _Axis:
    """One axis with its best joint: the whole number of pitches and the place of every stop."""

    joint: float
    steps: dict[_Stop, int]
    places: dict[_Stop, float]

    @property
    def change(self) -> float:
        return sum(abs(place - stop.at) for stop, place in self.places.items())


def no_cut_shape(area: Area, slab: Slab, joints: JointRange) -> NoCutShape:
    """Where the sides of a right-angled area must stand for whole slabs in stack bond.

    Parameters
    ----------
    area : Area
        The area as wanted.
    slab : Slab
        The slab.
    joints : JointRange
        Joints that may be laid; along and across may differ.

    Raises
    ------
    OutOfRange
        If a side doesn't run along x or y: such a side always cuts slabs. Place ``("area",)``.

    References
    ----------
    Geometry

    Examples
    --------
    >>> from service.paving.areas import area, l_shape
    >>> found = no_cut_shape(area(l_shape(3.0, 2.4, 1.2, 0.6)), Slab("flag", 0.6, 0.6, 0.04), JointRange(0, 0))
    >>> found.fits, found.slabs
    (True, 18)
    """
    if not area.right_angled:
        raise OutOfRange(
            "A side that doesn't run along x or y always cuts slabs: nothing but a right-angled area can do without.",
            "area",
        )
    found = [_laid(area, slab.length, slab.width, joints, turned=False)]
    if slab.length != slab.width:
        found.append(_laid(area, slab.width, slab.length, joints, turned=True))
    return min(found, key=lambda shape: shape.change)


def _laid(area: Area, along: float, across: float, joints: JointRange, *, turned: bool) -> NoCutShape:
    x, y = _axis(area, 0, along, joints), _axis(area, 1, across, joints)
    sides = tuple(
        Moved(name, stop.at, axis.places[stop])
        for name, axis in (("x", x), ("y", y))
        for stop in sorted(axis.places, key=lambda stop: stop.at)
    )
    change = x.change + y.change
    fits = change <= default("no_cut_sizes", "same_place").value * len(sides)
    return NoCutShape(fits, x.joint, y.joint, _slabs(area, x, y), turned, change, sides)


def _stops(area: Area, axis: int) -> Iterator[tuple[Point, Point, _Stop]]:
    """Every side across an axis with its stop; the paving lies to the left of the walk round it."""
    for ring in area.rings:
        for start, end in zip(ring, (*ring[1:], ring[0]), strict=True):
            if start[axis] == end[axis]:
                onward = end[1 - axis] > start[1 - axis]
                yield start, end, _Stop(start[axis], onward if axis == 0 else not onward)


def _axis(area: Area, axis: int, side: float, joints: JointRange) -> _Axis:
    stops = {stop for _, _, stop in _stops(area, axis)}
    first = min(stop.at for stop in stops)
    tried = (_placed(stops, first, side, joint) for joint in _joints(stops, first, side, joints))
    return min(tried, key=lambda placed: placed.change)


def _joints(stops: set[_Stop], first: float, side: float, joints: JointRange) -> Iterator[float]:
    """The joints that put some stop exactly where it stands, and the ends of the range."""
    yield from (joints.least, joints.most)
    for stop in stops:
        reach = stop.at - first
        most = math.floor((reach + joints.least) / (side + joints.least) + 1) if reach > 0 else 0
        for slabs in range(max(1, math.floor(reach / (side + joints.most))), most + 1):
            gaps = slabs - 1 if stop.ends else slabs
            joint = (reach - slabs * side) / gaps if gaps else joints.least
            if joints.least <= joint <= joints.most:
                yield joint


def _placed(stops: set[_Stop], first: float, side: float, joint: float) -> _Axis:
    steps, places = {}, {}
    for stop in stops:
        short = joint if stop.ends else 0.0
        steps[stop] = max(round((stop.at + short - first) / (side + joint)), 1 if stop.ends else 0)
        places[stop] = first + steps[stop] * (side + joint) - short
    return _Axis(joint, steps, places)


def _slabs(area: Area, x: _Axis, y: _Axis) -> int:
    """The number of slabs: the area measured in slabs, by its corners on the lattice."""
    twice = 0
    for ring in area.rings:
        corners = []
        for before, at, after in zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True):
            corners.append((_step(x, 0, before, at, after), _step(y, 1, before, at, after)))
        for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True):
            twice += x0 * y1 - x1 * y0
    return twice // 2


def _step(axis: _Axis, k: int, before: Point, at: Point, after: Point) -> int:
    """How many slabs from the first a corner lies: it belongs to the side across the axis that ends or begins there."""
    start, end = (before, at) if before[k] == at[k] else (at, after)
    onward = end[1 - k] > start[1 - k]
    return axis.steps[_Stop(at[k], onward if k == 0 else not onward)]


def no_cut_area(area: Area, slab: Slab, laying: Laying, joints: JointRange) -> NoCutSizes:
    """Whether a right-angled area needs no cut, as an answer of the same form as a size's.

    Raises
    ------
    OutOfRange
        If the pattern isn't stack bond (or any), at ``("pattern",)``; else as `no_cut_shape`.
    """
    if laying not in (Laying.any, Laying.stack_bond):
        raise OutOfRange("A shape is laid without a cut in stack bond only: ask for stack_bond, or any.", "pattern")
    found = no_cut_shape(area, slab, joints)
    spans = [[side.move_to for side in found.sides if side.axis == axis] for axis in ("x", "y")]
    length, width = (max(span) - min(span) for span in spans)
    laid = "stack bond, slabs turned" if found.turned else "stack bond"
    size = NoCutSize(length, width, found.joint, found.joint_across, found.slabs, 0, found.change, laid)
    reason = _FITS if found.fits else _MOVES + (_NOT_SEARCHED if laying is Laying.any else "")
    return NoCutSizes(found.fits, reason, (size,), found.sides)
