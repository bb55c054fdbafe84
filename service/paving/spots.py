"""Formulas of beds that are laid slab by slab, and of the surcharge of a screeded bed.

A dab or strip is laid higher than the bed and spreads as the slab is pressed down:

      as laid          pressed
      .---.         ============   slab
      |   |         (          )   same volume, depth of the bed
    ------------    ------------
"""

import math

from service.paving.formulas import formula


@formula
def height_as_laid(depth: float, ratio: float) -> float:
    """Height of a dab or strip before the slab is pressed down on it.

    Parameters
    ----------
    depth : float
        Depth of the finished bed [m].
    ratio : float
        Height in depths of the finished bed [1], 1 or more.

    Returns
    -------
    float
        Height [m].

    References
    ----------
    Common practice

    Examples
    --------
    >>> height_as_laid(0.04, 1.5)
    0.06
    """
    return depth * ratio


@formula
def dabs_volume(dabs_per_slab: float, diameter: float, height: float) -> float:
    """Mortar in the dabs of one slab, each a round pat.

    Parameters
    ----------
    dabs_per_slab : float
        How many [1].
    diameter : float
        Of a dab as laid [m].
    height : float
        Of a dab as laid [m].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(dabs_volume(5, 0.15, 0.06), 6)
    0.005301
    """
    return dabs_per_slab * math.pi * diameter**2 / 4 * height


@formula
def ribbon_length(length: float, width: float, strip_width: float) -> float:
    """Length of the strips under one slab: round its edge and one across the middle.

    Parameters
    ----------
    length, width : float
        Face size of the slab [m], the longer side first.
    strip_width : float
        Width of a strip as laid [m].

    Returns
    -------
    float
        Length along the middle of the strips [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(ribbon_length(0.6, 0.4, 0.1), 9)
    1.8
    """
    return 2 * (length + width) - 4 * strip_width + width - 2 * strip_width


@formula
def ribbons_volume(ribbon_length: float, strip_width: float, height: float) -> float:
    """Mortar in the strips of one slab.

    Parameters
    ----------
    ribbon_length : float
        Length of the strips [m].
    strip_width : float
        Width of a strip as laid [m].
    height : float
        Of a strip as laid [m].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(ribbons_volume(1.8, 0.1, 0.06), 6)
    0.0108
    """
    return ribbon_length * strip_width * height


@formula
def support(volume_per_slab: float, depth: float, length: float, width: float) -> float:
    """Share of a slab that is held once the mortar is pressed to the depth of the bed.

    Parameters
    ----------
    volume_per_slab : float
        Mortar under one slab [m3].
    depth : float
        Depth of the finished bed [m].
    length, width : float
        Face size of the slab [m].

    Returns
    -------
    float
        Share [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(support(0.0054, 0.04, 0.6, 0.6), 9)
    0.375
    """
    return volume_per_slab / depth / (length * width)


@formula
def volume_under_slabs(area: float, volume_per_slab: float, length: float, width: float, joint: float) -> float:
    """Mortar under all slabs of an area.

    Parameters
    ----------
    area : float
        Area of paving [m2].
    volume_per_slab : float
        Mortar under one slab [m3].
    length, width : float
        Face size of the slab [m].
    joint : float
        Width of the joint between slabs [m].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(volume_under_slabs(36.0, 0.0054, 0.6, 0.6, 0.0), 6)
    0.54
    """
    return area * volume_per_slab / ((length + joint) * (width + joint))


@formula
def surcharge(depth: float, compacted_density: float, loose_density: float) -> float:
    """How much higher than the finished bed loose material is screeded.

    Parameters
    ----------
    depth : float
        Depth of the finished bed [m].
    compacted_density : float
        Density in place [kg/m3].
    loose_density : float
        Density as screeded [kg/m3].

    Returns
    -------
    float
        Height [m].

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(surcharge(0.03, 1800.0, 1500.0), 9)
    0.006
    """
    return depth * (compacted_density / loose_density - 1)
