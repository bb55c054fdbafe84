"""Reaches: how much area an order is enough for, and what of it runs out first."""

from collections.abc import Sequence
from dataclasses import dataclass

from service.paving.formulas import formula
from service.paving.ordering.descriptions import SIZED
from service.paving.ordering.matches import Match
from service.paving.sheets import Sheet


@dataclass(frozen=True, slots=True)
class Reach:
    """How far an order goes: the area it covers [m2], and what runs out first; nothing where it can't be said."""

    area: float | None
    share: float | None
    runs_out_first: str | None
    sku: str | None


@formula
def covered_area(area: float, ordered: float, needed: float) -> float:
    """Area that an order covers, by the line that runs out first.

    Parameters
    ----------
    area : float
        Area of the job [m2], above 0.
    ordered : float
        What is ordered of that line [1], in its unit.
    needed : float
        What the job needs of it [1], in its unit, allowance and all; above 0.

    Returns
    -------
    float
        Area [m2].

    Notes
    -----
    In proportion, as if the job grew and shrank with its shape; edgings go by the edge and are left out.

    References
    ----------
    Common practice

    Examples
    --------
    >>> covered_area(30.0, 8.0, 10.0)
    24.0
    """
    return area * ordered / needed


def order_reach(sheet: Sheet, found: Sequence[Match], area: float) -> Reach:
    """How far what is ordered for each need goes on an area [m2]."""
    inside = [match for match in found if match.need.item != SIZED[1] and match.need.quantity]
    if not inside or any(match.unclear for match in inside):
        return Reach(None, None, None, None)
    first = min(inside, key=lambda match: match.amount / match.need.quantity)
    need = first.need
    covered = sheet.section("reach").work("area", covered_area, area, first.amount, need.quantity)
    return Reach(covered, covered / area, need.name, need.good.sku if need.good else None)
