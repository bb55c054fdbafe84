"""Modules: the length that all sides of a mix, with their joints, are whole numbers of."""

from collections.abc import Sequence
from dataclasses import dataclass

from service.paving.errors import OutOfRange
from service.paving.laying.mixed.fields import Size
from service.paving.reference import default

_MICROMETRES = 1_000_000
#: Steps in which another joint is looked for [µm].
_JOINT_STEP = 500


@dataclass(frozen=True)
class Module:
    """The module of a mix.

    Parameters
    ----------
    side : int
        Its side, joint included [µm].
    sizes : tuple of Size
        Every slab in modules, along its length and its width.
    """

    side: int
    sizes: tuple[Size, ...]


def module(sides: Sequence[tuple[int, int]], joint: int) -> Module:
    """The greatest module of some slabs (length, width) with a joint [µm].

    Raises
    ------
    OutOfRange
        If there is none; says which side or what joint to change.

    Examples
    --------
    >>> module([(845_000, 560_000), (275_000, 275_000)], 10_000)
    Module(side=285000, sizes=((3, 2), (1, 1)))
    """
    strip = round(default("laying", "least_strip").value * _MICROMETRES)
    found = _fitting(sides, joint, min(strip, joint))
    if found is None:
        raise OutOfRange(_mend(sides, joint), "slabs")
    return found


def _fitting(sides: Sequence[tuple[int, int]], joint: int, slack: int) -> Module | None:
    for side in _candidates(sides, joint):
        if all(abs(to - n) <= slack for n, to in _changes(sides, joint, side)):
            sizes = tuple((round((a + joint) / side), round((b + joint) / side)) for a, b in sides)
            return Module(side, sizes)
    return None


def _candidates(sides: Sequence[tuple[int, int]], joint: int) -> list[int]:
    """Sides a module may have: the shortest side with its joint, and whole parts of it, the greatest first."""
    shortest, longest = min(min(pair) for pair in sides) + joint, max(max(pair) for pair in sides) + joint
    most = int(default("random_layings", "most_modules").value)
    return [shortest // k for k in range(1, most + 1) if round(longest / (shortest / k)) <= most and shortest % k == 0]


def _mend(sides: Sequence[tuple[int, int]], joint: int) -> str:
    what = f"With a joint of {joint / 1000:g} mm these sizes aren't on one module: side and joint make whole modules."
    other = _nearest_joint(sides, joint)
    if other is not None:
        return f"{what} They are with a joint of {other / 1000:g} mm."
    base, changes = min(((m, _changes(sides, joint, m)) for m in _candidates(sides, joint)), key=_change)
    sizes = ", ".join(f"{n / 1000:g} mm would be {to / 1000:g} mm" for n, to in changes)
    return f"{what} On a module of {base / 1000:g} mm, {sizes}."


def _changes(sides: Sequence[tuple[int, int]], joint: int, side: int) -> list[tuple[int, int]]:
    """Sides that aren't on a module, and what they would be."""
    wanted = {n: max(round((n + joint) / side), 1) * side - joint for pair in sides for n in pair}
    return sorted((n, to) for n, to in wanted.items() if n != to)


def _change(found: tuple[int, list[tuple[int, int]]]) -> tuple[int, int]:
    return sum(abs(to - n) for n, to in found[1]), -found[0]


def _nearest_joint(sides: Sequence[tuple[int, int]], joint: int) -> int | None:
    widest = round(default("laying", "widest_joint").value * _MICROMETRES)
    others = sorted(range(0, widest + 1, _JOINT_STEP), key=lambda other: (abs(other - joint), other))
    return next((other for other in others if _fitting(sides, other, 0) is not None), None)
