"""Laying patterns as a list to choose from."""

from dataclasses import dataclass

from service.paving.reference import table


@dataclass(frozen=True, slots=True)
class PatternNote:
    """A pattern: its key, what the trade calls it, and what it needs."""

    key: str
    name: str
    note: str


def patterns() -> tuple[PatternNote, ...]:
    """Every pattern, simplest first.

    Examples
    --------
    >>> patterns()[0].name
    'Stack bond'
    """
    return tuple(PatternNote(key, entry["name"], entry["note"]) for key, entry in table("patterns").items())
