"""Bought: the slabs to buy for cut pieces, and from which slab each piece comes."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple


class Source(NamedTuple):
    """From which bought slab a piece comes, and where it lies there.

    Parameters
    ----------
    slab : int
        Bought slab, counted from 0.
    turns : int
        Quarter turns of the piece's outline counter-clockwise about (0, 0), first.
    x, y : int
        How far it is moved, then [µm].
    """

    slab: int
    turns: int
    x: int
    y: int


@dataclass(frozen=True)
class Bought:
    """Slabs of one size to buy for its cut pieces.

    Parameters
    ----------
    slabs : int
        Slabs to buy, at most one for each cut slab.
    bound : int
        Fewer will not do, by what `bound_model` says.
    model : str
        How the pieces were seen: `rectangles` or `true_shapes`.
    bound_model : str
        What the bound holds for. `areas`: any cutting with this kerf, pieces turned at will.
        `made_edges`: any that keeps made edges. `pairs`: any with this kerf, pieces turned and
        made edges kept as the rules say.
    pieces : int
        How many pieces there are.
    drawn : callable
        Says where each piece comes from, by its number.
    """

    slabs: int
    bound: int
    model: str
    bound_model: str
    pieces: int
    drawn: Callable[[], dict[int, Source]]

    @cached_property
    def sources(self) -> tuple[Source, ...]:
        """Where each piece comes from, in the order given."""
        drawn = self.drawn()
        return tuple(drawn[k] for k in range(self.pieces))

    @property
    def least(self) -> bool:
        """Whether fewer slabs are known to be impossible."""
        return self.slabs == self.bound
