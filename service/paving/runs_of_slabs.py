"""Runs of slabs: lengths that whole slabs make up, with a joint that may stretch within a range.

|<--------------- length ---------------->|
+------+ +------+ +------+ +------+ +------+
|  a   |j|  a   |j|  a   |j|  a   |j|  a   |     n slabs, n - 1 joints
+------+ +------+ +------+ +------+ +------+
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from service.paving.errors import OutOfRange
from service.paving.reference import default


@dataclass(frozen=True, slots=True)
class JointRange:
    """Narrowest and widest joint that will be laid [m].

    Raises
    ------
    OutOfRange
        If the widest is narrower than the narrowest, at ``("joint_most",)``.
    """

    least: float
    most: float

    def __post_init__(self) -> None:
        if self.least > self.most:
            raise OutOfRange("The widest joint must be at least the narrowest.", "joint_most")

    def allow(self, joint: float) -> bool:
        """Whether a joint may be laid, but for rounding."""
        slack = default("no_cut_sizes", "same_place").value
        return self.least - slack <= joint <= self.most + slack


@dataclass(frozen=True, slots=True)
class Run:
    """A length made up of whole slabs.

    Parameters
    ----------
    length : float
        The length [m].
    slabs : int
        How many slabs.
    joint : float
        The joint between them [m].
    change : float
        How far the length is from the one wanted [m], either way.
    """

    length: float
    slabs: int
    joint: float
    change: float


def nearest_runs(wanted: float, side: float, joints: JointRange, within: float) -> list[Run]:
    """Every number of slabs that makes up a length within reach of the one wanted, nearest first.

    Parameters
    ----------
    wanted : float
        Length wanted [m], above 0.
    side : float
        Side of the slab along it [m], above 0.
    joints : JointRange
        Joints that may be laid.
    within : float
        How far the length may be from the one wanted [m].

    Notes
    -----
    n slabs with joints from j to k make up every length from n a + (n − 1) j to n a + (n − 1) k,
    and no other: the nearest length of each n is the wanted one itself, or an end of that span.

    References
    ----------
    Geometry

    Examples
    --------
    >>> [(round(run.length, 3), run.slabs) for run in nearest_runs(3.7, 0.6, JointRange(0.003, 0.008), 0.3)]
    [(3.64, 6)]
    """
    return sorted(_runs(wanted, side, joints, within), key=lambda run: (run.change, -run.slabs))


def _runs(wanted: float, side: float, joints: JointRange, within: float) -> Iterator[Run]:
    fewest = max(1, math.floor((wanted - within + joints.most) / (side + joints.most)))
    most = math.ceil((wanted + within + joints.least) / (side + joints.least))
    for slabs in range(fewest, most + 1):
        gaps = slabs - 1
        length = min(max(wanted, slabs * side + gaps * joints.least), slabs * side + gaps * joints.most)
        change = abs(length - wanted)
        if change <= within:
            yield Run(length, slabs, (length - slabs * side) / gaps if gaps else joints.least, change)
