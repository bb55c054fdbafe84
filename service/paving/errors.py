"""What the trade refuses, as a family of errors.

    PavingError
    |-- ImpossibleShape     edges cross, an opening leaves the area, a triangle can't close
    |-- OutOfRange          a size that no one lays, or that another size rules out
    |-- UnknownName         a material, pattern or pack that isn't on the list
    |-- BrokenIdentity      a sum failed its own check: our fault, never the asker's

Every error carries the `place` of the input at fault, from the outside in, as the trade
names it: ``("openings", 1, "at")``. The wire turns a place into a pointer.
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from difflib import get_close_matches
from typing import NoReturn


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


@contextmanager
def within(*place: str | int) -> Iterator[None]:
    """Prefix the place of any error raised inside the block."""
    try:
        yield
    except PavingError as error:
        error.place = (*place, *error.place)
        raise


def refuse_unknown(kind: str, name: str, known: Iterable[str], *place: str | int) -> NoReturn:
    """Refuse a name and offer the nearest ones on the list.

    Raises
    ------
    UnknownName
        Always.
    """
    names = sorted(known)
    near = get_close_matches(name, names, n=3, cutoff=0.5) or names[:5]
    raise UnknownName(f"No {kind} is called '{name}'; the nearest are {', '.join(near)}.", *place)
