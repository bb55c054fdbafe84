"""Cut pieces: what is kept of a slab that is sawn to fit, drawn on the slab itself."""

from enum import Enum
from typing import NamedTuple

Ring = tuple[tuple[int, int], ...]


class CutPiece(NamedTuple):
    """One connected piece kept of a cut slab.

    Parameters
    ----------
    slab : int
        Which size of slab it is, as counted in the list of slabs.
    place : int
        Which slab of the layout it is kept of; pieces of one place fit into one slab as they lie.
    outline : tuple of Ring
        Rings of points [µm] in the slab's own frame: the slab lies from (0, 0) to
        (length, width), not turned. The first ring runs counter-clockwise round the
        piece, any further one clockwise round a hole; rings are not closed.

    Notes
    -----
    A side of the slab keeps its made edge where a ring runs along it.

        width +-----------+
              | kept  /   |
              |      /    |
              +-----+-----+
            (0, 0)      length
    """

    slab: int
    place: int
    outline: tuple[Ring, ...]


class MadeEdges(Enum):
    """What becomes of the edges a slab was made with.

    `kept`: a piece that has a made edge keeps it on its outside. `free`: any side may be a sawn one.
    """

    kept = "kept"
    free = "free"


class Turning(Enum):
    """Whether an offcut may be turned on the face of the slab it is cut from.

    `none`: the surface has a direction, so only as it lies or upside down (half a turn).
    `quarter`: a quarter turn as well.
    """

    none = "none"
    quarter = "quarter"
