"""Formulas of joints: how long they are, how much of the paving, and what fills them.

        width
        >| |<
    +-----+ +-----+  ---
    |     | |     |   | depth
    |     | |     |  ---
    +-----+ +-----+

Either the joints are as wide everywhere, and length × width × depth is their volume, or
a layout knows their plan area exactly.
"""

from service.paving.formulas import formula


@formula
def joint_volume(joint_length: float, width: float, depth: float) -> float:
    """Volume of joints of even width.

    Parameters
    ----------
    joint_length : float
        Length of all joints, each once [m].
    width : float
        Width of the joint [m].
    depth : float
        Depth that is filled [m].

    Returns
    -------
    float
        Volume [m3].

    Notes
    -----
    Where joints cross, the square of the crossing counts with each of them unless the
    length leaves it out.

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(joint_volume(100.0, 0.01, 0.04), 6)
    0.04
    """
    return joint_length * width * depth


@formula
def joint_volume_by_area(joint_area: float, depth: float) -> float:
    """Volume of joints whose plan area is known.

    Parameters
    ----------
    joint_area : float
        Plan area of all joints [m2].
    depth : float
        Depth that is filled [m].

    Returns
    -------
    float
        Volume [m3].

    References
    ----------
    Geometry

    Examples
    --------
    >>> joint_volume_by_area(0.5, 0.04)
    0.02
    """
    return joint_area * depth


@formula
def joint_share(length: float, width: float, joint: float) -> float:
    """Share of the paving that is joint, inside a pattern of one slab size.

    Parameters
    ----------
    length, width : float
        Face size of the slab [m], above 0.
    joint : float
        Width of the joint [m], 0 or more.

    Returns
    -------
    float
        Area of joint in an area of paving [1].

    Notes
    -----
    Stack and stretcher bond; herringbone and basket weave only where a length and its
    joint are two widths with theirs. The edge of the paving isn't counted.

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(joint_share(0.2, 0.1, 0.003), 5)
    0.04347
    """
    return 1 - length * width / ((length + joint) * (width + joint))


@formula
def joint_length_in_area(area: float, length: float, width: float, joint: float) -> float:
    """Length of joint in an area, inside a pattern of one slab size, each crossing counted once.

    Parameters
    ----------
    area : float
        Area of paving [m2].
    length, width : float
        Face size of the slab [m], above 0.
    joint : float
        Width of the joint [m], 0 or more.

    Returns
    -------
    float
        Length [m].

    Notes
    -----
    To each slab belong the joint along one length and one width and the crossing between
    them. With no joint it is area × (1 ÷ length + 1 ÷ width).

    References
    ----------
    Geometry

    Examples
    --------
    >>> round(joint_length_in_area(1.0, 0.2, 0.1, 0.0), 9)
    15.0
    """
    return area * (length + width + joint) / ((length + joint) * (width + joint))


@formula
def fill_mass(volume: float, density: float) -> float:
    """Mass of what fills the joints.

    Parameters
    ----------
    volume : float
        Volume in place [m3].
    density : float
        Density in place [kg/m3].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    Geometry

    Examples
    --------
    >>> fill_mass(0.04, 1700.0)
    68.0
    """
    return volume * density
