"""Mixes as they are shipped, made into slabs of a merchant who doesn't exist."""

from service.paving.laying.mixed.patches import Patch, patches
from service.paving.layouts import Detail, Pattern, Paving
from service.paving.slabs import Slab

MODULE, JOINT = 0.3, 0.01


def slab(length: int, width: int, share: float | None = None) -> Slab:
    """A slab of so many modules."""
    return Slab(f"{length} x {width}", length * MODULE - JOINT, width * MODULE - JOINT, 0.04, share)


def slabs(patch: Patch) -> tuple[Slab, ...]:
    """Its sizes with its shares."""
    return tuple(slab(*size, share) for size, share in sorted(patch.shares.items(), reverse=True))


def paving(sizes: tuple[Slab, ...], limit: int, seed: int, detail: Detail = Detail.pieces) -> Paving:
    return Paving(slabs=sizes, pattern=Pattern.mixed_random, joint=JOINT, run_limit=limit, seed=seed, detail=detail)


def side(modules: int) -> float:
    """Length of so many modules without a joint at the end [m]."""
    return modules * MODULE - JOINT


SHIPPED = patches()
