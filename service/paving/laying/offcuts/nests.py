"""Nests: pieces cut from slabs by their true shapes.

Whether pieces fit together is known for every two stands. A slab keeps, as bits of one
whole number, the stands that still go with everything in it; a piece fits if one of its
own bits is left, and the lowest is the one it likes best.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from service.paving.laying.arrays import Flags, Whole


class Nest(NamedTuple):
    """A slab with the pieces nested in it.

    Parameters
    ----------
    free : int
        Stands that still fit, as bits.
    area : float
        Area of its pieces [µm2].
    members, stands : tuple of int
        Its pieces, and the stand of each.
    """

    free: int
    area: float
    members: tuple[int, ...]
    stands: tuple[int, ...]


class Nester:
    """Cuts pieces from slabs by which stands go together.

    Parameters
    ----------
    clear : Flags
        Which two stands go together, square.
    owners : Whole
        Which piece each stand is of.
    areas : sequence of float
        Area of each piece [µm2].
    face : float
        Area of a slab [µm2].
    """

    def __init__(self, clear: Flags, owners: Whole, areas: Sequence[float], face: float) -> None:
        self.areas = areas
        self._face = face
        packed = np.packbits(clear, axis=1, bitorder="little")
        self._fits = [int.from_bytes(row.tobytes(), "little") for row in packed]
        starts = np.searchsorted(owners, np.arange(len(areas) + 1)).tolist()
        self._first = starts[:-1]
        self._own = [(1 << end) - (1 << start) for start, end in pairwise(starts)]

    def deal(self, piece: int, slabs: list[Nest]) -> None:
        """Cut the piece from the first slab with room for it, or from a new one."""
        own, area, room = self._own[piece], self.areas[piece], self._face - self.areas[piece]
        for k, nest in enumerate(slabs):
            if nest.area <= room and (left := nest.free & own):
                stand = (left & -left).bit_length() - 1
                slabs[k] = Nest(
                    nest.free & self._fits[stand], nest.area + area, (*nest.members, piece), (*nest.stands, stand)
                )
                return
        stand = self._first[piece]
        slabs.append(Nest(self._fits[stand], area, (piece,), (stand,)))
