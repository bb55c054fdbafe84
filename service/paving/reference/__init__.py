"""Reference data: every default of the trade, each with its range, unit, basis and source.

The tables are TOML files beside this module. An entry is

    [greatest_lift]
    value = 0.225
    low = 0.15
    high = 0.225
    unit = "m"
    basis = "published"
    source = "nhbc_10_2_6"

`basis` is "published" (then `source` is a key of sources.toml) or "common practice".
"""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, NamedTuple


@dataclass(frozen=True, slots=True)
class Source:
    """A work that a value comes from."""

    key: str
    title: str
    author: str
    edition: str
    clause: str
    note: str = ""


class Assumption(NamedTuple):
    """A value the answer rests on.

    Parameters
    ----------
    name : str
        What it is.
    value : float
        The value used, in `unit`.
    unit : str
        SI base units, "1" for a ratio.
    low, high : float
        The range it may lie in.
    basis : str
        "published", "common practice", "catalogue" or "given".
    source : str
        The published source, or empty.
    """

    name: str
    value: float
    unit: str
    low: float
    high: float
    basis: str
    source: str

    def given(self, value: float | None) -> "Assumption":
        """This assumption with the asker's own value in its place, if there is one."""
        if value is None:
            return self
        return self._replace(value=value, low=value, high=value, basis="given", source="")


def table(name: str) -> dict[str, Any]:
    """One file of reference data, as read."""
    return _read(name)


@cache
def _read(name: str) -> dict[str, Any]:
    return tomllib.loads(files(__name__).joinpath(f"{name}.toml").read_text("utf-8"))


@cache
def sources() -> dict[str, Source]:
    """The bibliography by key."""
    return {key: Source(key=key, **entry) for key, entry in _read("sources").items()}


@cache
def default(file: str, name: str) -> Assumption:
    """One default by the file it stands in and its name."""
    return assumption(name, _read(file)[name])


def assumption(name: str, entry: dict[str, Any]) -> Assumption:
    """An assumption from an entry of a reference table."""
    return Assumption(
        name=name,
        value=float(entry["value"]),
        unit=entry["unit"],
        low=float(entry["low"]),
        high=float(entry["high"]),
        basis=entry["basis"],
        source=cited(entry.get("source", "")),
    )


@cache
def cited(key: str) -> str:
    """A source as it is quoted in an answer; empty stays empty."""
    if not key:
        return ""
    source = sources()[key]
    return ", ".join(part for part in (source.author, source.title, source.edition, source.clause) if part)
