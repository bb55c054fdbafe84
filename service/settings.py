"""Settings, read from the environment once."""

from dataclasses import dataclass
from os import environ
from pathlib import Path


@dataclass(frozen=True)
class Settings:
    """What can be set from outside.

    Parameters
    ----------
    catalogue : Path or None
        The merchant's catalogue; the built-in generic one if None.
    most_body_bytes : int
        Longest request body.
    cache_seconds : int
        How long a GET may be kept.
    kept_bytes : int
        Room that each worker has for the answers it gave last; 0 keeps none.
    """

    catalogue: Path | None = None
    most_body_bytes: int = 1_048_576
    cache_seconds: int = 3600
    kept_bytes: int = 4_194_304

    @classmethod
    def from_environment(cls) -> "Settings":
        """Settings as PAVING_QUANTITIES_* variables give them."""
        catalogue = environ.get("PAVING_QUANTITIES_CATALOGUE")
        return cls(
            catalogue=Path(catalogue) if catalogue else None,
            most_body_bytes=int(environ.get("PAVING_QUANTITIES_MOST_BODY_BYTES", cls.most_body_bytes)),
            cache_seconds=int(environ.get("PAVING_QUANTITIES_CACHE_SECONDS", cls.cache_seconds)),
            kept_bytes=int(environ.get("PAVING_QUANTITIES_KEPT_BYTES", cls.kept_bytes)),
        )
