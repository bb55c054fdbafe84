"""Limits: what area, angle and origin a paving can be laid with."""

import math

from service.paving.areas import Area
from service.paving.errors import OutOfRange
from service.paving.laying.lattices import Lattice
from service.paving.laying.pavings import Detail, Paving
from service.paving.reference import default


def check_place(area: Area, paving: Paving, lattice: Lattice) -> None:
    """Check that a paving can be laid on an area.

    Raises
    ------
    OutOfRange
        If the angle or the origin is out of range, a slab is larger than the area, there are too many
        slabs, or the area reaches too far.
    """
    farthest = default("laying", "farthest_origin").value
    if not -2 * math.pi <= paving.angle <= 2 * math.pi:
        raise OutOfRange("A pattern is turned by at most a full turn either way.", "angle")
    if isinstance(paving.origin, tuple) and not all(abs(n) <= farthest for n in paving.origin):
        raise OutOfRange(f"The origin lies within {farthest:g} m of (0, 0).", "origin")
    for k, slab in enumerate(paving.slabs):
        if slab.length * slab.width > area.net * (1 + 1e-9):
            raise OutOfRange(
                f"One slab covers {slab.length * slab.width:.3g} m2, more than the whole area, {area.net:.3g} m2.",
                "slabs",
                k,
            )
    _check_number(area, paving, lattice)
    _check_reach(area, paving, lattice)


def _check_number(area: Area, paving: Paving, lattice: Lattice) -> None:
    limit = "most_slabs_drawn" if paving.detail is Detail.pieces else "most_slabs_counted"
    most = default("laying", limit).value
    number = area.net * lattice.units**2 / lattice.area * lattice.slabs
    if number > most:
        about = float(f"{number:.3g}")
        raise OutOfRange(f"About {about:,.0f} slabs; at most {most:,.0f} are laid in one layout.", "slabs")


def _check_reach(area: Area, paving: Paving, lattice: Lattice) -> None:
    """Products of places and sides of the repeat must fit into 63 bits."""
    left, low, right, high = area.outline.bounds
    x, y = paving.origin if isinstance(paving.origin, tuple) else (0.0, 0.0)
    reach = math.hypot(max(x - left, right - x), max(y - low, high - y))
    step = max(abs(ux) + abs(uy) for ux, uy in (lattice.u, lattice.v))
    farthest = 2**62 / step / lattice.units
    if reach > farthest:
        raise OutOfRange(
            f"The area reaches {reach:,.0f} m from the origin; this pattern is laid within {farthest:,.0f} m. "
            "Move the origin nearer, or take a simpler offset.",
            "area",
        )
