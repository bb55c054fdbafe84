"""Buying: how many slabs of each size the cut slabs of a layout take."""

import math
from dataclasses import dataclass

import numpy as np

from service.paving.laying.cut_pieces import CutPieces
from service.paving.laying.cuts import Cuts
from service.paving.laying.lattices import micrometres
from service.paving.laying.offcuts import Effort, slabs_to_buy
from service.paving.laying.pavings import Detail, Paving
from service.paving.laying.pieces import cut_pieces
from service.paving.reference import default
from service.paving.slabs import Slab


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
        What the bound holds for: `areas`, `made_edges` or `pairs`, as `offcuts` says.
    """

    slabs: int
    bound: int
    model: str


def purchases(cuts: Cuts, paving: Paving) -> tuple[Purchase, ...]:
    """Slabs to buy for the cut ones, size by size, with offcuts used again unless only counts are asked for."""
    if paving.detail is Detail.counts:
        return each_its_own(cuts, len(paving.slabs))
    effort = effort_spent(paving, cuts.counted.cut.size)
    pieces = cut_pieces(cuts, len(paving.slabs))
    return tuple(_reused(some, slab, paving, effort) for some, slab in zip(pieces, paving.slabs, strict=True))


def effort_spent(paving: Paving, cut: int) -> Effort:
    """How hard so many cut slabs are looked at: no harder than a request has time for."""
    most = default("laying", "most_cuts_thorough").value
    return paving.effort if cut <= most else Effort.quick


def _reused(pieces: CutPieces, slab: Slab, paving: Paving, effort: Effort) -> Purchase:
    length, width, kerf = (micrometres(size) for size in (slab.length, slab.width, paving.kerf))
    bought = slabs_to_buy(pieces, length, width, kerf, paving.turning, paving.made_edges, effort)
    return Purchase(bought.slabs, bought.bound, bought.bound_model)


def each_its_own(cuts: Cuts, sizes: int) -> tuple[Purchase, ...]:
    """A slab for every cut one, size by size; no offcut is used again, and the bound is by area."""
    tiles = cuts.counted.lattice.repeat.tiles
    kinds = np.array([tile.slab for tile in tiles])[cuts.tiles]
    faces = np.array([float(tile.box.area) for tile in tiles])[cuts.tiles] * cuts.counted.lattice.fineness**2
    shares = np.bincount(kinds, weights=cuts.counted.touched.area[cuts.counted.cut] / faces, minlength=sizes)
    numbers = np.bincount(kinds, minlength=sizes)
    return tuple(
        Purchase(number, min(number, math.ceil(share - 1e-9)), "areas")
        for number, share in zip(numbers.tolist(), shares.tolist(), strict=True)
    )
