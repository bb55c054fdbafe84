"""The linear program over patterns, by column generation with scipy: a bound to hold bounds against.

A pattern is a set of pieces whose shares add up to 1 at most and of which any two can share a
slab. Every real cutting uses such patterns only, so what the program needs at least, rounded
up, no cutting can do without; and it is at least as strong as any weighing of single pieces.
"""

import math

import numpy as np
import numpy.typing as npt
import scipy.optimize as so
import scipy.sparse as sp

#: Most nodes in one search for the heaviest pattern: what is proved by then still holds.
NODES = 2000

Real = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]


def pattern_bound(shares: Real, pairs: Flags, rounds: int = 500) -> int:
    """Slabs needed at least, by the linear program over all patterns."""
    return math.ceil(pattern_sum(shares, pairs, rounds) - 1e-6)


def pattern_sum(shares: Real, pairs: Flags, rounds: int = 500) -> float:
    """Value of the linear program, or what is proved of it after so many rounds."""
    patterns = [frozenset([piece]) for piece in range(shares.size)]
    chance = np.random.default_rng(3)
    proved = 0.0
    for _ in range(rounds):
        value, weights = _covered(patterns, shares.size)
        heavier = _heavier(weights, shares, pairs, chance) - set(patterns)
        if not heavier:
            heaviest, weight = _heaviest(weights, shares, pairs)
            # Farley: weights divided by what the heaviest pattern weighs are a solution of the dual.
            proved = max(proved, value / max(1.0, weight))
            if weight <= 1 + 1e-7 or heaviest in patterns or not heaviest:
                break
            heavier = {heaviest}
        patterns += sorted(heavier, key=sorted)
    return proved


def _covered(patterns: list[frozenset[int]], number: int) -> tuple[float, Real]:
    rows = [piece for pattern in patterns for piece in pattern]
    columns = [k for k, pattern in enumerate(patterns) for _ in pattern]
    cover = sp.csr_matrix((np.ones(len(rows)), (rows, columns)), shape=(number, len(patterns)))
    solved = so.linprog(np.ones(len(patterns)), A_ub=-cover, b_ub=-np.ones(number), method="highs")
    return float(solved.fun), -solved.ineqlin.marginals


def _heavier(
    weights: Real, shares: Real, pairs: Flags, chance: np.random.Generator, tries: int = 30
) -> set[frozenset[int]]:
    """Patterns heavier than 1 that are quickly found: heaviest piece first, shaken a little."""
    found = set()
    for _ in range(tries):
        room, open_, pattern = 1.0, np.ones(shares.size, dtype=bool), []
        for piece in np.argsort(-weights * chance.uniform(0.6, 1.4, shares.size)).tolist():
            if open_[piece] and shares[piece] <= room and weights[piece] > 1e-9:
                pattern.append(piece)
                room -= shares[piece]
                open_ &= pairs[piece]
        if weights[pattern].sum() > 1 + 1e-6:
            found.add(frozenset(pattern))
    return found


def _heaviest(weights: Real, shares: Real, pairs: Flags) -> tuple[frozenset[int], float]:
    """The heaviest pattern, and what no pattern is heavier than."""
    first, second = np.nonzero(np.triu(~pairs, 1))
    rows = np.arange(first.size)
    apart = sp.csr_matrix(
        (np.ones(2 * first.size), (np.tile(rows, 2), np.concatenate((first, second)))), (first.size, shares.size)
    )
    limits = [so.LinearConstraint(shares[None, :], -np.inf, 1)]
    if first.size:
        limits.append(so.LinearConstraint(apart, -np.inf, 1))
    solved = so.milp(
        -weights,
        integrality=np.ones(shares.size),
        bounds=so.Bounds(0, 1),
        constraints=limits,
        options={"node_limit": NODES, "mip_rel_gap": 1e-4},
    )
    pattern = () if solved.x is None else np.flatnonzero(solved.x > 0.5).tolist()
    return frozenset(pattern), -float(solved.mip_dual_bound)
