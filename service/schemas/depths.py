"""Depths as they are asked for: one value, or one at either end of a taper."""

from typing import Any

from service.paving.errors import OutOfRange
from service.paving.layers import Along, Depth
from service.schemas.fields import Choice, Quantity
from service.schemas.quantities import LENGTH
from service.schemas.requests import Request


class Depths(Request):
    """The fields of a depth."""

    depth = Quantity(LENGTH, "layer_depth", description="Depth everywhere, after compaction.", example="150 mm")
    depth_from = Quantity(
        LENGTH, "layer_depth", description="Depth at the left (or lower) side of a taper.", example="100 mm"
    )
    depth_to = Quantity(LENGTH, "layer_depth", description="Depth at the right (or upper) side.", example="160 mm")
    taper_along = Choice(Along, default="length", description="Which way a taper runs: along x or along y.")


def depth_of(values: dict[str, Any]) -> Depth:
    """Take the fields of a depth out of the values and make them one.

    Raises
    ------
    OutOfRange
        If there is no depth, half a taper, or both a depth and a taper.
    """
    even, start, end = (values.pop(name) for name in ("depth", "depth_from", "depth_to"))
    along = values.pop("taper_along")
    if even is not None and (start, end) == (None, None):
        return Depth(even, even, along)
    if even is None and None not in (start, end):
        return Depth(start, end, along)
    missing = "depth" if (even, start, end) == (None, None, None) or even is not None else "depth_from"
    raise OutOfRange("Give either 'depth', or 'depth_from' and 'depth_to' together.", missing)
