"""What the trade refuses, as a family of errors.

    PavingError
    |-- ImpossibleShape     edges cross, an opening leaves the area, a triangle can't close
    |-- OutOfRange          a size that no one lays, or that another size rules out
    |-- UnknownName         a material, pattern or pack that isn't on the list
    |-- BrokenIdentity      a sum failed its own check: our fault, never the asker's

Every error carries the `place` of the input at fault, from the outside in, as the trade
names it: ``("openings", 1, "at")``. The wire turns a place into a pointer.
"""

from collections.abc import Iterable, Sequence
from difflib import get_close_matches
from typing import NoReturn

#: Names of a list that are told to someone whose name is like none of them.
_NAMED = 5


class PavingError(Exception):
    """A job that can't be done as asked; says what, why, and how to mend it."""

    def __init__(self, detail: str, *place: str | int) -> None:
        super().__init__(detail)
        self.detail = detail
        self.place: tuple[str | int, ...] = place


class ImpossibleShape(PavingError):
    """A shape that can't be drawn on the ground."""


class OutOfRange(PavingError):
    """A size outside what can be laid, or outside what another size allows."""


class UnknownName(PavingError):
    """A name that isn't on the list it was looked up in."""


class BrokenIdentity(PavingError):
    """A result that contradicts itself; better no answer than a wrong one."""


class within:  # noqa: N801 - it reads as a word: with within("openings", 1)
    """Prefix the place of any error raised inside the block."""

    __slots__ = ("place",)

    def __init__(self, *place: str | int) -> None:
        self.place = place

    def __enter__(self) -> None:
        pass

    def __exit__(self, kind: object, error: BaseException | None, trace: object) -> None:
        if isinstance(error, PavingError):
            error.place = (*self.place, *error.place)


def refuse_unknown(kind: str, name: str, known: Iterable[str], *place: str | int) -> NoReturn:
    """Refuse a name and offer the nearest ones on the list.

    Raises
    ------
    UnknownName
        Always.
    """
    names = sorted(known)
    near = get_close_matches(name, names, n=3, cutoff=0.5)
    raise UnknownName(f"No {kind} is called '{name}'; {nearest_said(near) if near else some_said(names)}.", *place)


def nearest_said(near: Sequence[str]) -> str:
    """The nearest names, one at least.

    Examples
    --------
    >>> nearest_said(["gravel"]), nearest_said(["grit", "gravel"])
    ('the nearest is gravel', 'the nearest are grit, gravel')
    """
    return f"the nearest {'is' if len(near) == 1 else 'are'} {', '.join(near)}"


def some_said(names: Sequence[str]) -> str:
    """The names on a list where none is near; of a long list the first.

    Examples
    --------
    >>> some_said(["a", "b"]), some_said(list("abcdefghij"))
    ('there are a, b', 'there are a, b, c, d, e and others')
    """
    return f"there are {', '.join(names[:_NAMED])}{' and others' if len(names) > _NAMED else ''}"
