"""Standing cautions: what to beware of, why it applies here, and who says so.

The sentences live in reference/cautions.toml; the trade raises them by code.
"""

from functools import lru_cache
from typing import NamedTuple

from service.paving.reference import cited, table


class Caution(NamedTuple):
    """A warning that goes with an answer.

    Parameters
    ----------
    code : str
        Short name.
    text : str
        What to do or beware of.
    because : str
        Why it applies to this job.
    source : str
        Where it comes from, or empty for common practice.
    """

    code: str
    text: str
    because: str
    source: str


@lru_cache
def caution(code: str, because: str) -> Caution:
    """A standing caution with the reason it applies here."""
    entry = table("cautions")[code]
    return Caution(code, entry["text"], because, cited(entry.get("source", "")))
