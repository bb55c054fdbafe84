"""Tallies: what has been laid against what is wanted, so that chance keeps to the shares."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

#: How many slabs ahead of its share one may run before it becomes rare. More is more random.
_LEAD = 3
#: What is left of the want for a slab that has run ahead of its share.
_LEAST = 0.05


@dataclass
class Tally:
    """How often each of a few slabs was drawn.

    Parameters
    ----------
    shares : sequence of float
        Share of the number wanted of each, sum 1.
    """

    shares: Sequence[float]
    drawn: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.drawn = self.drawn or [0] * len(self.shares)

    def wants(self) -> list[float]:
        """How much each is wanted next.

        Examples
        --------
        >>> tally = Tally([0.5, 0.5])
        >>> tally.add([0, 0, 0])
        >>> tally.wants()
        [0.025, 3.0]
        """
        ahead = sum(self.drawn) + _LEAD
        return [max(s * ahead - n, s * _LEAST) for s, n in zip(self.shares, self.drawn, strict=True)]

    def add(self, numbers: Iterable[int]) -> None:
        for k in numbers:
            self.drawn[k] += 1

    def drop(self, numbers: Iterable[int]) -> None:
        for k in numbers:
            self.drawn[k] -= 1
