"""Items: what a good can be in a bill, and the units such a good is sold in."""

from functools import cache

from service.paving.materials import materials
from service.paving.ordering.goods import Unit

_BY_MASS_OR_VOLUME: tuple[Unit, ...] = ("t", "kg", "m3", "l")
_OTHERS: dict[str, tuple[Unit, ...]] = {
    "slab": ("each", "m2"),
    "edging": ("each", "m"),
    "cement": ("kg", "t"),
    "membrane": ("m2",),
}


@cache
def item_units() -> dict[str, tuple[Unit, ...]]:
    """Units of sale by item: the reference materials, slabs, edgings, cement and membrane.

    Examples
    --------
    >>> item_units()["slab"]
    ('each', 'm2')
    """
    return _OTHERS | {material.key: _BY_MASS_OR_VOLUME for material in materials()}
