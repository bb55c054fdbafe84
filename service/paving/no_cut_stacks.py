"""No-cut stacks: sizes that slabs side by side and one above another make up, joints along and across apart."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from service.paving.reference import default
from service.paving.runs_of_slabs import JointRange, Run, nearest_runs
from service.paving.slabs import Slab


@dataclass(frozen=True, slots=True)
class NoCutSize:
    """A size that needs no cut.

    Parameters
    ----------
    length, width : float
        The size [m].
    joint, joint_across : float
        Joint along the length and across it [m].
    slabs : int
        How many slabs.
    half_slabs : int
        How many half slabs beside them.
    change : float
        How far it is from the size wanted [m], both sides together.
    laid : str
        How, in words.
    """

    length: float
    width: float
    joint: float
    joint_across: float
    slabs: int
    half_slabs: int
    change: float
    laid: str


def stacked(slab: Slab, joints: JointRange, wanted: tuple[float, float], within: float) -> Iterator[NoCutSize]:
    """Stack bond, and stack bond with the slabs turned."""
    for along, across, laid in _turns(slab):
        runs = nearest_runs(wanted[0], along, joints, within), nearest_runs(wanted[1], across, joints, within)
        for x, y in product(*(each[: listed()] for each in runs)):
            yield _size(x, y, x.slabs * y.slabs, laid)


def _turns(slab: Slab) -> Iterator[tuple[float, float, str]]:
    """Sides along and across, as given and turned."""
    yield slab.length, slab.width, "stack bond"
    if slab.length != slab.width:
        yield slab.width, slab.length, "stack bond, slabs turned"


def _size(x: Run, y: Run, slabs: int, laid: str) -> NoCutSize:
    return NoCutSize(x.length, y.length, x.joint, y.joint, slabs, 0, x.change + y.change, laid)


def listed() -> int:
    """How many sizes an answer lists."""
    return int(default("no_cut_sizes", "sizes_listed").value)
