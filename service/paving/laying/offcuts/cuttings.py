"""Cuttings: pieces dealt to slabs, by one way of seeing them or another."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from service.paving.laying.cut_pieces import MadeEdges
from service.paving.laying.offcuts.boards import Board
from service.paving.laying.offcuts.bought import Source
from service.paving.laying.offcuts.box_gaps import clear_boxes
from service.paving.laying.offcuts.nests import Nest, Nester
from service.paving.laying.offcuts.parts import Part
from service.paving.laying.offcuts.rectangle_bounds import rectangle_bound
from service.paving.laying.offcuts.rectangles import Sawyer, Sheet
from service.paving.laying.offcuts.rules import Stock
from service.paving.laying.offcuts.searches import dealt, fewest, largest_first
from service.paving.laying.offcuts.stands import Stand, stands_as_laid

#: Tries in a thorough search.
TRIES = 200
#: Pieces in a slab cut by rectangles that make it worth keeping among true shapes.
MANY = 5


@dataclass(frozen=True, slots=True)
class Cutting:
    """Pieces dealt to slabs.

    Parameters
    ----------
    slabs : int
        Slabs used.
    model : str
        How the pieces were seen.
    drawn : callable
        Says where each piece comes from, by its number; most who ask for slabs to buy don't ask that.
    """

    slabs: int
    model: str
    drawn: Callable[[], dict[int, Source]]


def as_laid(parts: Sequence[Part]) -> Cutting:
    """Every piece from its own slab; no offcut is used again."""
    slabs = {place: slab for slab, place in enumerate(dict.fromkeys(part.place for part in parts))}
    return Cutting(
        len(slabs), "true_shapes", lambda: {k: Source(slabs[part.place], 0, 0, 0) for k, part in enumerate(parts)}
    )


def rectangles(parts: Sequence[Part], stock: Stock, tries: int) -> Cutting:
    """Pieces cut as the rectangles round them; made edges kept or not, as the rules say."""
    if stock.made_edges is MadeEdges.kept:
        stands = stands_as_laid(stock) * len(parts)
        owners = np.repeat(np.arange(len(parts)), len(stands) // len(parts))
        nester = Nester(clear_boxes(parts, stock), owners, [part.area for part in parts], stock.area)
        nests = fewest(nester, dealt(nester, largest_first(nester), []), tries, 0)
        return Cutting(len(nests), "rectangles", lambda: _nested(nests, stands))
    sheets = sawn(parts, stock, tries)
    return Cutting(len(sheets), "rectangles", lambda: _sawn(sheets, parts))


def sawn(parts: Sequence[Part], stock: Stock, tries: int) -> list[Sheet]:
    """Slabs sawn into rectangles, whatever becomes of made edges."""
    boxes = [(part.x1 - part.x0, part.y1 - part.y0) for part in parts]
    sawyer = Sawyer(boxes, stock)
    sheets = dealt(sawyer, largest_first(sawyer), [])
    return fewest(sawyer, sheets, tries, rectangle_bound(boxes, stock)) if tries else sheets


def true_shapes(board: Board, tries: int) -> Cutting:
    """Pieces cut by their true shapes."""
    nests = dealt(board.nester, largest_first(board.nester), [])
    enough = max(board.area_bound, board.edge_bound)
    if len(nests) > enough:
        enough = max(enough, board.pair_bound)
    nests = fewest(board.nester, nests, tries, enough)
    return Cutting(len(nests), "true_shapes", lambda: _nested(nests, board.stands))


def mixed(board: Board, sheets: Sequence[Sheet], tries: int) -> Cutting | None:
    """Slabs sawn into many rectangles kept, the rest cut by their true shapes; None if there are no such slabs."""
    kept = [sheet for sheet in sheets if len(sheet.members) >= MANY]
    if not kept:
        return None
    sawn_apart = {piece for sheet in kept for piece in sheet.members}
    rest = [piece for piece in largest_first(board.nester) if piece not in sawn_apart]
    nests = fewest(board.nester, dealt(board.nester, rest, []), tries, 0)

    def drawn() -> dict[int, Source]:
        nested = _nested(nests, board.stands).items()
        return _sawn(kept, board.parts) | {k: source._replace(slab=source.slab + len(kept)) for k, source in nested}

    return Cutting(len(kept) + len(nests), "true_shapes", drawn)


def _nested(nests: Sequence[Nest], stands: Sequence[Stand]) -> dict[int, Source]:
    return {
        piece: Source(slab, *stands[stand])
        for slab, nest in enumerate(nests)
        for piece, stand in zip(nest.members, nest.stands, strict=True)
    }


def _sawn(sheets: Sequence[Sheet], parts: Sequence[Part]) -> dict[int, Source]:
    sources = {}
    for slab, sheet in enumerate(sheets):
        for piece, (x, y, turns) in zip(sheet.members, sheet.spots, strict=True):
            part = parts[piece]
            left, low = (-part.y1, part.x0) if turns else (part.x0, part.y0)
            sources[piece] = Source(slab, turns, x - left, y - low)
    return sources
