"""Runs: a course laid along the sides of an outline, from corner to corner.

    mitred                      butted
    +----+----+----+---/        +----+----+----+--+
    |    |    |    |  /|        |    |    |    |  |
    +----+----+----+/--+        +----+----+----+--+
                   |   |                       |  |

Sides that meet without a corner, such as the two halves of a circle, are one run.
"""

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from service.paving.counts import ceil, floor
from service.paving.courses import Corner, Course, Run, even_joint, slabs_to_cover
from service.paving.errors import ImpossibleShape
from service.paving.outlines import Outline
from service.paving.reference import default
from service.paving.sheets import Sheet
from service.paving.sides import Side, sides_of


def runs_along(
    sheet: Sheet, outline: Outline, course: Course, chosen: Collection[int] | None = None
) -> tuple[Run, ...]:
    """Lay a course along an outline.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    outline : Outline
        What it follows.
    course : Course
        How it is laid.
    chosen : collection of int or None
        Sides it follows, counted from 0; all of them if None.

    Raises
    ------
    ImpossibleShape
        If a side is too short, or an arc too tight, for a course so wide, or a corner too sharp to mitre.

    Notes
    -----
    Along an arc slabs keep their joint on the face nearer to the centre; at a mitre between
    an arc and another side the arc counts as its tangent there.
    """
    sides = sides_of(outline)
    wanted = frozenset(range(len(sides)) if chosen is None else chosen)
    return tuple(
        _run(sheet.section(f"runs.{k}"), [sides[n] for n in chain], _ends(sides, chain, course, wanted), course)
        for k, chain in enumerate(_chains(sides, wanted))
    )


@dataclass(frozen=True, slots=True)
class _End:
    """What a run gains in length at one end, how far a mitre reaches back, what its middle line gains [m]."""

    gain: float = 0.0
    mitre: float = 0.0
    middle: float = 0.0


def _smooth(side: Side) -> bool:
    """Whether a side follows on from the one before it without a corner."""
    return abs(side.turn) < default("edgings", "least_corner").value


def _chains(sides: Sequence[Side], wanted: frozenset[int]) -> list[list[int]]:
    """The wanted sides, those that follow each other without a corner together."""
    count = len(sides)
    firsts = [k for k in sorted(wanted) if (k - 1) % count not in wanted or not _smooth(sides[k])]
    if not firsts and wanted:
        return [list(range(count))]
    chains = [[first] for first in firsts]
    for chain in chains:
        while (after := (chain[-1] + 1) % count) in wanted and after not in firsts:
            chain.append(after)
    return chains


def _ends(sides: Sequence[Side], chain: list[int], course: Course, wanted: frozenset[int]) -> tuple[_End, _End]:
    """How a run starts and how it ends; open where the next side isn't wanted."""
    count = len(sides)
    before, after = (chain[0] - 1) % count, (chain[-1] + 1) % count
    if len(chain) == count and _smooth(sides[chain[0]]):
        # Round and closed: one more joint than an open run has, and no end.
        return _End(-course.joint), _End()
    start = _meeting(sides[chain[0]], course)[1] if before in wanted else _End()
    end = _meeting(sides[after], course)[0] if after in wanted else _End()
    return start, end


def _meeting(side: Side, course: Course) -> tuple[_End, _End]:
    """How the run before a side ends and the run along it starts."""
    opens = side.turn * course.outwards
    _refuse_sharp(side)
    middle = course.across / 2 * math.tan(opens / 2)
    if course.corner is Corner.BUTTED and side.square_within(default("edgings", "least_corner").value):
        through, against = (course.across, 0.0) if opens > 0 else (0.0, -course.across)
        return _End(through, middle=middle), _End(against - course.joint, middle=middle)
    reach = course.across * math.tan(abs(opens) / 2)
    half_joint = course.joint / 2 / math.cos(opens / 2)
    end = _End((reach if opens > 0 else 0.0) - half_joint, reach, middle)
    return end, end


def _refuse_sharp(side: Side) -> None:
    sharpest = default("edgings", "sharpest_corner").value
    if abs(side.turn) > sharpest:
        angle, least = (math.degrees(math.pi - turn) for turn in (abs(side.turn), sharpest))
        raise ImpossibleShape(
            f"The corner at the start of side {side.number + 1} is too sharp to mitre: "
            f"{angle:.0f} degrees; {least:.0f} is the least."
        )


def _run(sheet: Sheet, sides: Sequence[Side], ends: tuple[_End, _End], course: Course) -> Run:
    covered = sum(_straightened(side, course) for side in sides) + sum(end.gain for end in ends)
    if covered <= sum(end.mitre for end in ends):
        raise ImpossibleShape(
            f"Side {sides[0].number + 1} is too short for a course {course.across * 1000:g} mm wide round its corners."
        )
    whole, closing = slabs_to_cover(sheet, covered, course.along, course.joint)
    slabs = whole + (1 if closing else 0)
    middle = course.outwards * sum(side.bend for side in sides) * course.across / 2 + sum(end.middle for end in ends)
    return Run(
        name=_name(sides),
        length=sum(side.length for side in sides) + middle,
        slabs=slabs,
        cut=_cut(covered, slabs, ends, course),
        closing_length=closing,
        widest_joint=max(_widest_joint(side, course) for side in sides),
        even_joint=even_joint(covered, whole, course.along),
    )


def _name(sides: Sequence[Side]) -> str:
    first, last = sides[0].number + 1, sides[-1].number + 1
    return f"side {first}" if first == last else f"sides {first} to {last}"


def _cut(covered: float, slabs: int, ends: tuple[_End, _End], course: Course) -> int:
    """Slabs that are cut: those that a mitre reaches, and the one that closes the run."""
    left = min(ceil(ends[0].mitre / course.pitch), slabs)
    # The one that closes the run is shorter than the rest, so it never counts as clear.
    reach = covered - ends[1].mitre - course.along
    clear = min(floor(reach / course.pitch) + 1 if reach >= 0 else 0, slabs)
    return left + slabs - max(clear, left)


def _inner_radius(side: Side, course: Course) -> float:
    """Radius of the face of the course that is nearer to the centre of an arc [m]."""
    radius = side.radius if side.bend * course.outwards > 0 else side.radius - course.across
    if radius <= 0:
        raise ImpossibleShape(
            f"The arc of side {side.number + 1}, {side.radius:g} m in radius, is too tight for a course "
            f"{course.across * 1000:g} mm wide."
        )
    return radius


def _straightened(side: Side, course: Course) -> float:
    """Length of the straight course that takes as many slabs [m].

    Along an arc each slab turns the course by twice the angle whose tangent is half a pitch
    over the radius of the inner face.
    """
    if not side.bend:
        return side.length
    turned = 2 * math.atan(course.pitch / 2 / _inner_radius(side, course))
    return abs(side.bend) / turned * course.pitch


def _widest_joint(side: Side, course: Course) -> float:
    if not side.bend:
        return course.joint
    return course.joint + course.across * course.pitch / _inner_radius(side, course)
