"""Flaws: where a field breaks the rules of mixed laying."""

import numpy as np

from service.paving.laying.arrays import Flags, Whole
from service.paving.laying.mixed.fields import BARE, Field


def flaws(field: Field) -> list[int]:
    """Modules at which joints cross, a straight joint is too long, or nothing lies."""
    modules = np.array(field.modules, dtype=np.int64).reshape(field.rows + 2, field.stride)
    upright, level = _joints(modules), _joints(modules.T).T
    found = crossings(modules) | _overlong(upright, field.limit) | _overlong(level.T, field.limit).T | (modules == BARE)
    return np.flatnonzero(found).tolist()


def crossings(modules: Whole) -> Flags:
    """Modules, in rows, at whose lower left corner four slabs meet."""
    upright, level = _joints(modules), _joints(modules.T).T
    found = np.zeros_like(upright)
    found[1:, 1:] = upright[1:, 1:] & upright[:-1, 1:] & level[1:, 1:] & level[1:, :-1]
    return found


def _joints(modules: Whole) -> Flags:
    """Modules, in rows, with a joint at their left."""
    found = np.zeros(modules.shape, dtype=bool)
    left, right = modules[:, :-1], modules[:, 1:]
    found[:, 1:] = (left != right) & (left > 0) & (right > 0)
    return found


def _overlong(upright: Flags, limit: int) -> Flags:
    """Modules halfway along every stretch of upright joint one longer than the limit."""
    found = np.zeros_like(upright)
    stretches = upright.shape[0] - limit
    if stretches > 0:
        whole = np.logical_and.reduce([upright[k : k + stretches] for k in range(limit + 1)])
        found[limit // 2 : limit // 2 + stretches] = whole
    return found
