"""No-cut shapes: where the sides of a right-angled area must stand for a pattern to need no cut.

Every side where the paving begins stands at a whole number of meshes and joints from the
first, every side where it ends a joint short of that:

    begins       ends          pitch = mesh + joint
    |            |
    +----+ +----+ +----+
    |    | |    | |    |
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from service.paving.areas import Area
from service.paving.errors import OutOfRange
from service.paving.no_cut_nets import Net
from service.paving.outlines import Point
from service.paving.reference import default
from service.paving.runs_of_slabs import JointRange


@dataclass(frozen=True, slots=True)
class Moved:
    """A side of a shape and where it should stand [m], along x or y."""

    axis: str
    stands: float
    move_to: float


@dataclass(frozen=True, slots=True)
class NoCutShape:
    """Whether a right-angled area needs no cut, and where its sides should stand if it does.

    Parameters
    ----------
    fits : bool
        Whether it needs no cut as it stands.
    joint, joint_across : float
        Joint along x and along y [m].
    slabs, half_slabs : int
        How many slabs it then takes, and how many half slabs beside them.
    laid : str
        How, in words.
    change : float
        How far its sides move, all together [m].
    sides : tuple of Moved
        Every side.
    """

    fits: bool
    joint: float
    joint_across: float
    slabs: int
    half_slabs: int
    laid: str
    change: float
    sides: tuple[Moved, ...]


@dataclass(frozen=True, slots=True)
class Stop:
    """A place along one axis where the paving begins or ends [m]."""

    at: float
    ends: bool


@dataclass(frozen=True, slots=True)
class _Axis:
    """One axis with its best joint: the whole number of pitches and the place of every stop."""

    joint: float
    steps: dict[Stop, int]
    places: dict[Stop, float]

    @property
    def change(self) -> float:
        return sum(abs(place - stop.at) for stop, place in self.places.items())


def no_cut_shape(area: Area, nets: Iterable[Net]) -> NoCutShape | None:
    """Where the sides of a right-angled area must stand for whole meshes of a net.

    Parameters
    ----------
    area : Area
        The area as wanted.
    nets : iterable of Net
        The nets; the one with the least change is taken. None of them, no shape.

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
    >>> whole = JointRange(0, 0)
    >>> found = no_cut_shape(area(l_shape(3.0, 2.4, 1.2, 0.6)), [Net((0.6, 0.6), (whole, whole), "stack bond")])
    >>> found.fits, found.slabs
    (True, 18)
    """
    if not area.right_angled:
        raise OutOfRange(
            "A side that doesn't run along x or y always cuts slabs: nothing but a right-angled area can do without.",
            "area",
        )
    rings = stops(area)
    return min((_laid(rings, net) for net in nets), key=lambda shape: shape.change, default=None)


def stops(area: Area) -> list[list[tuple[Stop, Stop]]]:
    """The corners of a right-angled area's rings, each as where the paving begins or ends along x and y.

    The paving lies to the left of the walk round a ring.
    """
    return [
        [(_stop(0, *three), _stop(1, *three)) for three in _corners(ring) if not _straight(*three)]
        for ring in area.rings
    ]


def _corners(ring: Sequence[Point]) -> Iterator[tuple[Point, Point, Point]]:
    return zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True)


def _straight(before: Point, at: Point, after: Point) -> bool:
    return before[0] == at[0] == after[0] or before[1] == at[1] == after[1]


def _stop(k: int, before: Point, at: Point, after: Point) -> Stop:
    """Of the two sides at a corner the one across axis k."""
    start, end = (before, at) if before[k] == at[k] else (at, after)
    onward = end[1 - k] > start[1 - k]
    return Stop(at[k], onward if k == 0 else not onward)


def _laid(rings: list[list[tuple[Stop, Stop]]], net: Net) -> NoCutShape:
    x, y = (
        _axis({corner[k] for ring in rings for corner in ring}, side, joints)
        for k, (side, joints) in enumerate(zip(net.sides, net.joints, strict=True))
    )
    sides = tuple(
        Moved(name, stop.at, axis.places[stop])
        for name, axis in (("x", x), ("y", y))
        for stop in sorted(axis.places, key=lambda stop: stop.at)
    )
    change = x.change + y.change
    fits = change <= default("no_cut_sizes", "same_place").value * len(sides)
    slabs, halves = net.count([[(x.steps[a], y.steps[b]) for a, b in ring] for ring in rings])
    return NoCutShape(fits, x.joint, y.joint, slabs, halves, net.laid, change, sides)


def _axis(stops: set[Stop], side: float, joints: JointRange) -> _Axis:
    first = min(stop.at for stop in stops)
    tried = (_placed(stops, first, side, joint) for joint in _joints(stops, first, side, joints))
    return min(tried, key=lambda placed: placed.change)


def _joints(stops: set[Stop], first: float, side: float, joints: JointRange) -> Iterator[float]:
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


def _placed(stops: set[Stop], first: float, side: float, joint: float) -> _Axis:
    steps, places = {}, {}
    for stop in stops:
        short = joint if stop.ends else 0.0
        steps[stop] = max(round((stop.at + short - first) / (side + joint)), 1 if stop.ends else 0)
        places[stop] = first + steps[stop] * (side + joint) - short
    return _Axis(joint, steps, places)
