"""Sharings: which two pieces can be cut from one slab at all.

Proved impossible only: two convex pieces that are too close pushed into every pair of
opposite corners, turned in every way allowed, are too close everywhere (see `stands`).
"""

from collections.abc import Sequence

import numpy as np
import shapely

from service.paving.laying.arrays import Flags, Whole
from service.paving.laying.cut_pieces import Ring
from service.paving.laying.offcuts.gaps import Short, Standing
from service.paving.laying.offcuts.rules import Stock
from service.paving.laying.offcuts.stands import Stand, turned

#: What a gap may be wrong by: points on whole micrometres, dents let pass, and short floats [µm].
DOUBT = 8
#: Most stands measured corner to corner; beyond that their pieces are let share.
MOST_MEASURED = 10_000


def sharings(
    gaps: Short, bodies: Sequence[Ring | None], stands: Sequence[Stand], standing: Standing, stock: Stock
) -> Flags:
    """Which two pieces can share a slab, as far as isn't proved impossible: square and symmetric.

    Parameters
    ----------
    gaps : Short
        Widest gap along any side of the first body, stand by stand [µm].
    bodies : sequence of Ring or None
        A convex outline inside each piece; None if none is known: such a piece is let share with any.
    stands : sequence of Stand
        All stands.
    standing : Standing
        The same, in rows.
    stock : Stock
        Slab and rules.
    """
    widest = np.maximum(gaps, gaps.T)
    sharing = _by_piece(widest >= stock.kerf - DOUBT, standing)
    unknown = np.array([body is None for body in bodies])
    sharing |= unknown | unknown[:, None]
    apart = (widest >= -DOUBT) & ~sharing[np.ix_(standing.owners, standing.owners)]
    first, second = np.nonzero(np.triu(apart))
    alike = _alike(bodies, stands, standing)
    pairs, which = np.unique(np.stack((alike[first], alike[second])), axis=1, return_inverse=True)
    if pairs.shape[1] > MOST_MEASURED:
        return sharing | _by_piece(apart, standing)
    measured = (_distances(pairs[0], pairs[1], bodies, stands, standing) >= stock.kerf - DOUBT)[which]
    one, other = standing.owners[first[measured]], standing.owners[second[measured]]
    sharing[one, other] = sharing[other, one] = True
    return sharing


def _alike(bodies: Sequence[Ring | None], stands: Sequence[Stand], standing: Standing) -> Whole:
    """The first stand with the same body in the same way, for each stand."""
    seen: dict[tuple[Ring | None, Stand], int] = {}
    keys = zip(standing.owners.tolist(), stands, strict=True)
    return np.array([seen.setdefault((bodies[piece], stand), k) for k, (piece, stand) in enumerate(keys)])


def _by_piece(stands: Flags, standing: Standing) -> Flags:
    starts = np.flatnonzero(np.diff(standing.owners, prepend=-1))
    found: Flags = np.logical_or.reduceat(np.logical_or.reduceat(stands, starts, axis=0), starts, axis=1)
    return found


def _distances(
    first: Whole, second: Whole, bodies: Sequence[Ring | None], stands: Sequence[Stand], standing: Standing
) -> Short:
    """Distance between bodies a gap can't tell: where corner is nearest to corner."""
    drawn = np.full(len(stands), None, dtype=object)
    for stand in np.union1d(first, second).tolist():
        turns, x, y = stands[stand]
        points = [turned(px, py, turns) for px, py in bodies[standing.owners[stand]] or ()]
        drawn[stand] = shapely.Polygon([(px + x, py + y) for px, py in points])
    found: Short = shapely.distance(drawn[first], drawn[second])
    return found
