"""Slabs: the paving units themselves, whatever the trade calls them (slab, flag, block, sett)."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Slab:
    """One size of slab.

    Parameters
    ----------
    name : str
        What it is called on the bill and in drawings.
    length, width : float
        Face size [m], length along x before the pattern is turned.
    thickness : float
        Thickness [m].
    share : float or None
        Share of the paved area wanted in this size (0 to 1), for mixed sizes.
    made_of : str
        What it is made of, for its mass: one of `handling.slab_materials`.
    """

    name: str
    length: float
    width: float
    thickness: float
    share: float | None = None
    made_of: str = "concrete"
