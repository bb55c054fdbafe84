"""Origins: where a pattern starts so that little is cut.

As the pattern slides, the number of cut slabs changes only where a side of a slab passes
an edge of the area, and is least where the two lie flush. If all edges run along or
across the pattern, the origins at which edges lie flush with sides of slabs, or a sliver's
width off, are a short list, and the best of the list is the best there is. Otherwise
origins are tried in a grid, and then nearer and nearer to the best.

References
----------
Geometry
"""

from dataclasses import dataclass
from math import gcd, isqrt

import numpy as np

from service.paving.laying.arrays import Real, Whole
from service.paving.laying.encounters import encounters
from service.paving.laying.grounds import Ground
from service.paving.laying.lattices import Lattice
from service.paving.laying.pavings import Search
from service.paving.laying.rows import seen
from service.paving.laying.tolerances import least_strip
from service.paving.laying.trials import Trials, trials
from service.paving.reference import default

#: Origins kept to be compared by the slabs to buy.
_SHORTLIST = 5
#: How many things come before the slabs to buy.
_BEFORE_BUYING = {Search.fewest_cuts: 2, Search.fewest_slivers: 1}
#: Copies of a side within one repeat up to which all of them are listed.
_COPIES = 8
#: Origins along each vector of the first grid; how many of the best are looked round, how often.
_GRID, _BEST, _ROUNDS = 10, 4, 4


@dataclass(frozen=True)
class Shortlist:
    """The best origins found.

    Parameters
    ----------
    shifts : Whole
        Rows x, y of the origins [grid units], best first; all are equal in what the search puts first.
    tried : int
        How many origins were tried.
    missed : int or None
        How many that may be better weren't, for want of budget; none if they can't be numbered.
    """

    shifts: Whole
    tried: int
    missed: int | None


def shortlist(ground: Ground, lattice: Lattice, aim: Search, work: int) -> Shortlist:
    """The best origins for a pattern, trying as many as the work allows.

    Parameters
    ----------
    ground : Ground
        What is paved, in the pattern's frame.
    lattice : Lattice
        What it is paved with.
    aim : Search
        What comes first.
    work : int
        How many slabs along the edges may be looked at, over all origins.
    """
    lattice = lattice.bare
    budget = max(work // max(encounters(lattice, seen(ground, lattice)).edge.size, 1), 1)
    across, along = flush(ground, lattice, 0), flush(ground, lattice, 1)
    wanted = across.shifts.size * along.shifts.size
    finite = bool(np.all(np.any(ground.starts == ground.ends, axis=0))) and across.complete
    if finite and wanted <= budget:
        return _best(lattice, trials(ground, lattice, _pairs(across.shifts, along.shifts)), aim, 0)
    side = isqrt(max(budget // 2, 1))
    first = _pairs(across.shifts[:side], along.shifts[:side])
    found = trials(ground, lattice, np.concatenate((first, _grid(lattice)), axis=1)[:, :budget])
    for halving in range(1, _ROUNDS + 1):
        if found.cuts.size < budget:
            near = _round(lattice, found.shifts[:, found.order(aim)[:_BEST]], _GRID * 2**halving)
            found = found.joined(trials(ground, lattice, near[:, : budget - found.cuts.size]))
    return _best(lattice, found, aim, wanted - first.shape[1] if finite else None)


def _best(lattice: Lattice, found: Trials, aim: Search, missed: int | None) -> Shortlist:
    order = found.order(aim)
    equal = np.ones(order.size, dtype=bool)
    for criterion in found.criteria(aim)[: _BEFORE_BUYING[aim]]:
        equal &= criterion[order] == criterion[order[0]]
    shifts = found.shifts[:, order[equal][:_SHORTLIST]]
    return Shortlist(lattice.nearest(shifts), found.cuts.size, missed)


@dataclass(frozen=True)
class Flush:
    """Shifts along one axis at which an edge lies flush with a side, or a sliver's width off.

    Parameters
    ----------
    shifts : Whole
        Shifts [grid units], flush ones for the longest edges first.
    complete : bool
        Whether all of them are listed.
    """

    shifts: Whole
    complete: bool


def flush(ground: Ground, lattice: Lattice, axis: int) -> Flush:
    """Shifts along x (0) or y (1) at which an edge lies flush with a side of a slab, or a sliver's width off."""
    places = _edge_places(ground, axis)
    lows, sizes = lattice.boxes[axis], lattice.boxes[2 + axis]
    off = _sliver(lattice)
    sides = np.concatenate((lows, lows + sizes, lows + off, lows + sizes - off))
    shifts = (places[None, :] - sides[:, None]).ravel()
    step, period = gcd(lattice.u[axis], lattice.v[axis]), gcd(lattice.u[1 - axis], lattice.v[1 - axis])
    copies = 1 if axis == 1 else lattice.area // (step * period)
    if copies > _COPIES:
        return Flush(_in_turn(shifts), complete=False)
    shifts = _in_turn((shifts + np.arange(copies)[:, None] * step).ravel() % (copies * step))
    return Flush(np.append(shifts, _between(shifts, lattice)), complete=True)


def _edge_places(ground: Ground, axis: int) -> Whole:
    """Where edges lie that run across an axis, those with the greatest length first."""
    across = ground.starts[axis] == ground.ends[axis]
    lengths = np.abs(ground.ends - ground.starts)[1 - axis][across].astype(float)
    places, which = np.unique(ground.starts[axis][across], return_inverse=True)
    return places[np.argsort(-np.bincount(which, lengths, places.size), kind="stable")]


def _sliver(lattice: Lattice) -> Whole:
    """The least thickness that isn't a sliver, by kind of slab, two micrometres to spare [grid units]."""
    share = default("laying", "sliver").value
    widths = np.min(lattice.boxes[2:], axis=0) / lattice.fineness
    return (np.ceil(share * widths).astype(np.int64) + 2) * lattice.fineness


def _in_turn(shifts: Whole) -> Whole:
    """Every shift once, in the order given."""
    _, first = np.unique(shifts, return_index=True)
    return shifts[np.sort(first)]


def _between(shifts: Whole, lattice: Lattice) -> Whole:
    """Shifts halfway between two so close that both edges count as flush."""
    ordered = np.sort(shifts)
    close = np.diff(ordered) <= 2 * least_strip().value * lattice.units
    halfway = (ordered[:-1] + ordered[1:])[close] // 2
    return halfway - halfway % lattice.fineness


def _pairs(across: Whole, along: Whole) -> Whole:
    return np.array([np.repeat(across, along.size), np.tile(along, across.size)])


def _grid(lattice: Lattice) -> Whole:
    parts = np.arange(_GRID * _GRID)
    return _shifts(lattice, parts // _GRID / _GRID, parts % _GRID / _GRID)


def _round(lattice: Lattice, centres: Whole, parts: int) -> Whole:
    """Eight origins round each centre, a part of the repeat away."""
    steps = np.array([(i, j) for i in (-1, 0, 1) for j in (-1, 0, 1) if (i, j) != (0, 0)]).T / parts
    around = _shifts(lattice, steps[0], steps[1])
    return (centres[:, :, None] + around[:, None, :]).reshape(2, -1)


def _shifts(lattice: Lattice, along_u: Real, along_v: Real) -> Whole:
    """Parts of the repeat as shifts, on whole micrometres."""
    (ux, uy), (vx, vy) = lattice.u, lattice.v
    shifts = np.array([along_u * ux + along_v * vx, along_u * uy + along_v * vy]) / lattice.fineness
    return np.rint(shifts).astype(np.int64) * lattice.fineness
