"""Courses: slabs in one row, along an edge or round an area.

covered
|<------------------------------>|
+--------+ +--------+ +--------+ +---+
|        | |        | |        | |   |   the last one cut to close the course
+--------+ +--------+ +--------+ +---+
        joint
"""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.counts import floor
from service.paving.formulas import formula
from service.paving.reference import default
from service.paving.sheets import Sheet


class Lie(StrEnum):
    """On which side of the outline a course lies."""

    OUTSIDE = "outside"
    INSIDE = "inside"


class Corner(StrEnum):
    """How two runs meet. Only a square corner can be butted; any other is mitred."""

    MITRED = "mitred"
    BUTTED = "butted"


@dataclass(frozen=True, slots=True)
class Course:
    """How a course is laid.

    Parameters
    ----------
    along, across : float
        Size of a slab along the course and across it [m].
    joint : float
        Width of the joint [m].
    lie : Lie
        On which side of an outline it lies.
    corner : Corner
        How runs meet.
    """

    along: float
    across: float
    joint: float
    lie: Lie = Lie.OUTSIDE
    corner: Corner = Corner.MITRED

    @property
    def pitch(self) -> float:
        """A slab with its joint [m]."""
        return self.along + self.joint

    @property
    def outwards(self) -> int:
        """1 if the course lies outside the outline, -1 if inside."""
        return 1 if self.lie is Lie.OUTSIDE else -1


@dataclass(frozen=True, slots=True)
class Run:
    """A course from one corner to the next.

    Parameters
    ----------
    name : str
        Which sides it follows.
    length : float
        Length along the middle of the course [m].
    slabs : int
        Slabs laid, whole and cut.
    cut : int
        Slabs of these that are cut, at a mitre or to close the run.
    closing_length : float
        Length of the slab that closes the run [m]; 0 if none is cut for it.
    widest_joint : float
        Width of the joint on the outer face of its tightest arc [m]; the joint itself along straight sides.
    even_joint : float
        Joint with which whole slabs alone fill the run [m]; 0 if there is none to widen.
    """

    name: str
    length: float
    slabs: int
    cut: int
    closing_length: float
    widest_joint: float
    even_joint: float = 0.0


@formula
def whole_slabs(covered: float, slab_length: float, joint: float) -> float:
    """Whole slabs that a straight course holds, with a joint between one and the next.

    Parameters
    ----------
    covered : float
        Length to cover [m].
    slab_length : float
        Length of a slab along it [m], above 0.
    joint : float
        Width of the joint [m], 0 or more.

    Returns
    -------
    float
        Whole number [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> whole_slabs(4.0, 0.915, 0.006)
    4
    """
    return floor((covered + joint) / (slab_length + joint))


@formula
def closing_length(covered: float, whole_slabs: float, slab_length: float, joint: float) -> float:
    """Length of the slab that is cut to close a course; none if no more than a joint is left.

    Parameters
    ----------
    covered : float
        Length to cover [m].
    whole_slabs : float
        Whole slabs it holds [1].
    slab_length : float
        Length of a slab along it [m], above 0.
    joint : float
        Width of the joint [m], 0 or more.

    Returns
    -------
    float
        Length [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(closing_length(4.0, 4, 0.915, 0.006), 9)
    0.316
    """
    return max(covered - whole_slabs * (slab_length + joint), 0)


def slabs_to_cover(sheet: Sheet, covered: float, along: float, joint: float) -> tuple[int, float]:
    """Whole slabs of a course, and the length of the one that is cut to close it.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    covered : float
        Length to cover [m].
    along, joint : float
        Length of a slab along it and width of the joint [m].

    Notes
    -----
    What is left below the thinnest piece that can be sawn is taken up by the joints.
    """
    whole = sheet.work("whole", whole_slabs, covered, along, joint)
    closing = sheet.work("closing_length", closing_length, covered, whole, along, joint)
    return int(whole), closing if closing > default("edgings", "least_cut").value else 0.0


def even_joint(covered: float, whole: int, along: float) -> float:
    """Joint with which whole slabs alone fill a length [m]; 0 if there are fewer than two."""
    return (covered - whole * along) / (whole - 1) if whole > 1 else 0.0


def straight_run(sheet: Sheet, length: float, course: Course) -> Run:
    """Lay a straight course of some length [m], its ends square and open."""
    whole, closing = slabs_to_cover(sheet.section("runs.0"), length, course.along, course.joint)
    cut = 1 if closing else 0
    even = even_joint(length, whole, course.along)
    return Run("length", length, whole + cut, cut, closing, course.joint, even)
