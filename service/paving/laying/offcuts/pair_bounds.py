"""Pair bounds: slabs that no cutting can do without, seeing which two pieces can share a slab.

Pieces of more than a third of a slab go two to a slab at most, so every slab saved on them
is a pair that fits: at least their number less the most pairs (`pairing_bound`). And a piece
that can't share a slab with any other that counts takes a slab of its own (`lone_bound`).
"""

from collections.abc import Sequence

import numpy as np

from service.paving.laying.arrays import Flags, Real
from service.paving.laying.offcuts.shares import whole_slabs

#: Most sizes tried as the least that counts.
MOST_LIMITS = 12


def pairing_bound(slab_shares: Real, pairs: Flags) -> int:
    """Slabs needed at least by pieces of more than a third of a slab.

    Parameters
    ----------
    slab_shares : Real
        Share of a slab each piece takes up.
    pairs : Flags
        Which two pieces can share a slab, square and symmetric.

    Notes
    -----
    The most pairs are bounded by half the most pairs between two copies of the pieces, which
    augmenting paths find (König); exact unless odd rings of pieces are left over.

    Examples
    --------
    >>> path = np.array([[0, 1, 0], [1, 0, 1], [0, 1, 0]], dtype=bool)
    >>> pairing_bound(np.array([0.4, 0.4, 0.4]), path)
    2
    """
    big = np.flatnonzero(slab_shares > 1 / 3)
    among = pairs[np.ix_(big, big)] & ~np.eye(big.size, dtype=bool)
    mates = [np.flatnonzero(row).tolist() for row in among]
    return whole_slabs(big.size - most_matched(mates) / 2)


def most_matched(mates: Sequence[Sequence[int]]) -> int:
    """Most pieces that can each be given a mate of their own, each being mate to one at most.

    References
    ----------
    Berge's theorem (augmenting paths); from memory

    Examples
    --------
    >>> most_matched([[1], [0, 2], [1]])
    2
    """
    given: dict[int, int] = {}
    matched = 0
    for piece in range(len(mates)):
        reached: dict[int, int] = {}
        open_pieces = [piece]
        free = None
        while open_pieces and free is None:
            free = _reach(open_pieces.pop(), mates, given, reached, open_pieces)
        if free is not None:
            _swap(free, piece, mates, given, reached)
            matched += 1
    return matched


def _reach(
    piece: int, mates: Sequence[Sequence[int]], given: dict[int, int], reached: dict[int, int], open_pieces: list[int]
) -> int | None:
    """Follow a piece to a mate not given yet, or open the pieces that would have to give theirs up."""
    for mate in mates[piece]:
        if mate in reached:
            continue
        reached[mate] = piece
        if mate not in given:
            return mate
        open_pieces.append(given[mate])
    return None


def _swap(
    mate: int, first: int, mates: Sequence[Sequence[int]], given: dict[int, int], reached: dict[int, int]
) -> None:
    """Hand the mates on along the path that was found, back to the piece it began with."""
    held = {piece: owned for owned, piece in given.items()}
    while True:
        piece = reached[mate]
        given[mate] = piece
        if piece == first:
            return
        mate = held[piece]


def lone_bound(slab_shares: Real, pairs: Flags) -> int:
    """Slabs needed at least when some pieces need one alone.

    Parameters
    ----------
    slab_shares, pairs
        As in `pairing_bound`.

    Notes
    -----
    Leave out pieces below a limit. A piece that can share with none of the rest counts 1, any
    other its share: a slab holds one of the former or shares of 1 of the latter. Leaving out
    what keeps a large piece from being alone is worth it where it costs less than it brings.

    Examples
    --------
    >>> apart = np.zeros((3, 3), dtype=bool)
    >>> lone_bound(np.array([0.4, 0.4, 0.4]), apart)
    3
    """
    limits = np.unique(np.concatenate(([0.0], slab_shares[slab_shares <= 0.5])))
    limits = limits[np.linspace(0, limits.size - 1, min(MOST_LIMITS, limits.size)).astype(int)]
    return max(whole_slabs(_lone_sum(slab_shares, pairs, limit)) for limit in limits)


def _lone_sum(slab_shares: Real, pairs: Flags, limit: float) -> float:
    counted = slab_shares >= limit
    lone = np.zeros(slab_shares.size, dtype=bool)
    for piece in np.argsort(-slab_shares).tolist():
        sharing = pairs[piece] & counted
        sharing[piece] = False
        if not counted[piece] or (sharing & lone).any():
            continue
        if slab_shares[sharing].sum() <= 1 - slab_shares[piece]:
            lone[piece] = True
            counted &= ~sharing
    return float(lone.sum() + slab_shares[counted & ~lone].sum())
