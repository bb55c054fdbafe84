"""Trials: what many origins of one pattern cut, counted at once.

The ground is copied once for every origin, each copy shifted and moved on by so many
repeats that no two meet; one pass over the edges of all copies then tells them apart by
their rows.
"""

from dataclasses import dataclass

import numpy as np

from service.paving.laying.arrays import Real, Whole
from service.paving.laying.encounters import encounters
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import Lattice
from service.paving.laying.pavings import Search
from service.paving.laying.rows import Places, all_places, rows, seen
from service.paving.laying.tolerances import slab_states
from service.paving.laying.touched import measured
from service.paving.reference import default

#: Pairs of an edge and a slab in one pass over several copies, so that memory stays small.
_PAIRS = 8_000


@dataclass(frozen=True)
class Trials:
    """Origins tried and what each one cuts.

    Parameters
    ----------
    shifts : Whole
        Rows x, y of the origins [grid units].
    cuts, slivers : Whole
        Cut slabs, and those with a piece thinner than a third of the slab.
    sawing : Real
        Length to saw [grid units].
    """

    shifts: Whole
    cuts: Whole
    slivers: Whole
    sawing: Real

    def criteria(self, aim: Search) -> tuple[Whole | Real, ...]:
        """What is compared, first things first."""
        first = (self.cuts, self.slivers) if aim is Search.fewest_cuts else (self.slivers, self.cuts)
        return (*first, np.rint(self.sawing))

    def order(self, aim: Search) -> Whole:
        """Which is best, second best and so on; the first tried among equals."""
        return np.lexsort(self.criteria(aim)[::-1])

    def joined(self, other: "Trials") -> "Trials":
        return Trials(
            np.concatenate((self.shifts, other.shifts), axis=1),
            np.concatenate((self.cuts, other.cuts)),
            np.concatenate((self.slivers, other.slivers)),
            np.concatenate((self.sawing, other.sawing)),
        )


def trials(ground: Ground, lattice: Lattice, shifts: Whole) -> Trials:
    """Try origins.

    Parameters
    ----------
    ground : Ground
        What is paved.
    lattice : Lattice
        The slabs it is paved with, without cells.
    shifts : Whole
        Rows x, y of the origins [grid units].
    """
    pairs = encounters(lattice, seen(ground, lattice)).edge.size
    at_once = max(_PAIRS // max(pairs, 1), 1)
    found = [_tried(ground, lattice, shifts[:, k : k + at_once]) for k in range(0, shifts.shape[1], at_once)]
    cuts, slivers, sawing = (np.concatenate(columns) for columns in zip(*found, strict=True))
    return Trials(shifts, cuts.astype(np.int64), slivers.astype(np.int64), sawing)


def _tried(ground: Ground, lattice: Lattice, shifts: Whole) -> tuple[Real, Real, Real]:
    copies = shifts.shape[1]
    one = all_places(lattice, seen(ground, lattice))
    copied = _copied(ground, lattice, shifts, one)
    view = seen(copied, lattice)
    places = all_places(lattice, view)
    touched = measured(copied, lattice, view, rows(lattice, view, places)).touched
    _, row, _ = places.box(touched.keys)
    copy = (row - one.first_row + 1) // (one.rows + 2)
    cut = slab_states(touched, lattice).cut
    least = default("laying", "sliver").value * touched.sides.min(axis=0)
    return (
        np.bincount(copy, cut, copies).astype(np.float64),
        np.bincount(copy, cut & (touched.size.min(axis=0) < least), copies).astype(np.float64),
        np.bincount(copy, cut * touched.cut, copies).astype(np.float64),
    )


def _copied(ground: Ground, lattice: Lattice, shifts: Whole, one: Places) -> Ground:
    """A copy for each origin, moved on by more rows than the ground itself has."""
    on = np.arange(shifts.shape[1]) * (one.rows + 2)
    x, y = np.array([on * lattice.v[0], on * lattice.v[1]]) - lattice.nearest(shifts)
    starts, ends = (
        np.array([(n[:, None] + p[None, :]).ravel() for n, p in zip((x, y), points, strict=True)])
        for points in (ground.starts, ground.ends)
    )
    return Ground(starts, ends, np.arange(starts.shape[1]))
