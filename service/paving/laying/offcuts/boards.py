"""Boards: pieces with everything that is known of how they go together."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from service.paving.laying.arrays import Flags, Real
from service.paving.laying.cut_pieces import Ring
from service.paving.laying.offcuts.area_bounds import area_bound, round_spread_area, slab_shares, spread_area
from service.paving.laying.offcuts.bodies import DENT, body_inside, hull, ring_length
from service.paving.laying.offcuts.edge_bounds import edge_bound
from service.paving.laying.offcuts.gaps import Short, Standing, room_for_blade, standing, widest_gaps
from service.paving.laying.offcuts.nests import Nester
from service.paving.laying.offcuts.pair_bounds import lone_bound, pairing_bound
from service.paving.laying.offcuts.parts import Part
from service.paving.laying.offcuts.rules import Stock
from service.paving.laying.offcuts.sharings import sharings
from service.paving.laying.offcuts.stands import Stand, stands


@dataclass(frozen=True)
class Board:
    """Pieces to be cut by their true shapes.

    Parameters
    ----------
    parts : sequence of Part
        The pieces.
    stock : Stock
        Slab and rules.
    """

    parts: Sequence[Part]
    stock: Stock

    @cached_property
    def _each(self) -> list[list[Stand]]:
        return [stands(part, self.stock) for part in self.parts]

    @cached_property
    def stands(self) -> list[Stand]:
        """Every stand of every piece in turn."""
        return [stand for each in self._each for stand in each]

    @cached_property
    def _standing(self) -> Standing:
        return standing(self._each)

    @cached_property
    def _hulls(self) -> list[Ring]:
        return [hull(part.rings[0]) for part in self.parts]

    @cached_property
    def _inside(self) -> list[Ring | None]:
        return [body_inside(part, around) for part, around in zip(self.parts, self._hulls, strict=True)]

    @cached_property
    def _gaps(self) -> Short:
        return widest_gaps(self._hulls, self._standing, self.stock)

    @cached_property
    def siblings(self) -> list[list[int]]:
        """Pieces that belong to one slab, where there are several."""
        return siblings(self.parts)

    @cached_property
    def _clear(self) -> Flags:
        clear = room_for_blade(self._gaps, self.stock)
        first = np.searchsorted(self._standing.owners, np.arange(len(self.parts)))
        for pieces in self.siblings:
            clear[np.ix_(first[pieces], first[pieces])] = True
        return clear

    @cached_property
    def nester(self) -> Nester:
        """Cuts the pieces by their true shapes."""
        return Nester(self._clear, self._standing.owners, [part.area for part in self.parts], self.stock.area)

    @cached_property
    def together(self) -> set[int]:
        """Pieces that have siblings."""
        return {piece for pieces in self.siblings for piece in pieces}

    @cached_property
    def shares(self) -> Real:
        """Share of a slab that each piece takes up at least."""
        together = self.together
        spread = [self._spread(piece) for piece in range(len(self.parts)) if piece not in together]
        areas = np.array([part.area for part in self.parts])
        areas[[piece for piece in range(areas.size) if piece not in together]] = spread
        return slab_shares(areas, self.stock)

    def _spread(self, piece: int) -> float:
        """Area of a piece spread by half the kerf, at least."""
        area, around = self.parts[piece].area, self._hulls[piece]
        kerf = max(0.0, self.stock.kerf - 2 * DENT)
        if self._inside[piece] is around:
            return spread_area(area, ring_length(around), kerf)
        return round_spread_area(area, kerf)

    @cached_property
    def sharings(self) -> Flags:
        """Which two pieces can share a slab, as far as isn't proved impossible."""
        gaps = self._gaps
        if any(body is not around for body, around in zip(self._inside, self._hulls, strict=True)):
            bodies = [body or around for body, around in zip(self._inside, self._hulls, strict=True)]
            gaps = widest_gaps(bodies, self._standing, self.stock)
        sharing = sharings(gaps, self._inside, self.stands, self._standing, self.stock)
        sharing &= self.shares + self.shares[:, None] <= 1
        for pieces in self.siblings:
            sharing[np.ix_(pieces, pieces)] = True
        return sharing & ~np.eye(len(self.parts), dtype=bool)

    @cached_property
    def area_bound(self) -> int:
        """Slabs that no cutting can do without, by area."""
        return area_bound(self.shares)

    @cached_property
    def pair_bound(self) -> int:
        """Slabs that no cutting can do without, by which pieces can share one."""
        return max(pairing_bound(self.shares, self.sharings), lone_bound(self.shares, self.sharings))

    @cached_property
    def edge_bound(self) -> int:
        """Slabs that no cutting can do without, by the made edges to be kept."""
        return edge_bound(self.parts, self.stock, self.together)


def siblings(parts: Sequence[Part]) -> list[list[int]]:
    """Pieces that belong to one slab, where there are several."""
    places = [part.place for part in parts]
    if len(set(places)) == len(places):
        return []
    found: dict[int, list[int]] = defaultdict(list)
    for piece, place in enumerate(places):
        found[place].append(piece)
    return [pieces for pieces in found.values() if len(pieces) > 1]
