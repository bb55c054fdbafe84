"""Buying: how many slabs of each size the cut slabs of a layout take."""

import math
from dataclasses import dataclass

import numpy as np

from service.paving.laying.cuts import Cuts
from service.paving.laying.pavings import Paving


@dataclass(frozen=True, slots=True)
class Purchase:
    """Slabs of one size to buy for its cut slabs.

    Parameters
    ----------
    slabs : int
        Slabs to buy.
    bound : int
        Fewer will not do.
    model : str
        What the bound holds for.
    """

    slabs: int
    bound: int
    model: str


def purchases(cuts: Cuts, paving: Paving) -> tuple[Purchase, ...]:
    """Slabs to buy for the cut ones, size by size, with offcuts used again unless only counts are asked for."""
    return each_its_own(cuts, len(paving.slabs))


def each_its_own(cuts: Cuts, sizes: int) -> tuple[Purchase, ...]:
    """A slab for every cut one, size by size; no offcut is used again, and the bound is by area."""
    tiles = cuts.counted.lattice.repeat.tiles
    kinds = np.array([tile.slab for tile in tiles])[cuts.tiles]
    faces = np.array([float(tile.box.area) for tile in tiles])[cuts.tiles] * cuts.counted.lattice.fineness**2
    shares = np.bincount(kinds, weights=cuts.counted.touched.area[cuts.counted.cut] / faces, minlength=sizes)
    numbers = np.bincount(kinds, minlength=sizes)
    return tuple(
        Purchase(number, min(number, math.ceil(share - 1e-9)), "area of the pieces")
        for number, share in zip(numbers.tolist(), shares.tolist(), strict=True)
    )
