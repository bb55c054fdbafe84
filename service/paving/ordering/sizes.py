"""Sizes: what makes two slabs the same size, whatever their names."""

from service.paving.slabs import Slab

#: Decimal places of a metre that are told apart: the tenth of a millimetre.
_PLACES = 4

#: Face and thickness [m], the shorter side of the face first.
Size = tuple[float, ...]


def slab_face(slab: Slab) -> Size:
    """Sides of a slab's face, either way round [m].

    Examples
    --------
    >>> slab_face(Slab("flag", 0.6, 0.3, 0.05))
    (0.3, 0.6)
    """
    return tuple(sorted((round(slab.length, _PLACES), round(slab.width, _PLACES))))


def slab_size(slab: Slab) -> Size:
    """Face and thickness of a slab, the face either way round [m].

    Examples
    --------
    >>> slab_size(Slab("flag", 0.6, 0.3, 0.05))
    (0.3, 0.6, 0.05)
    """
    return (*slab_face(slab), round(slab.thickness, _PLACES))
