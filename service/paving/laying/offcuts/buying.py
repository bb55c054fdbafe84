"""Slabs to buy: the fewest found for cut pieces when offcuts are used again."""

from collections.abc import Sequence
from itertools import accumulate

import numpy as np

from service.paving.laying.cut_pieces import CutPieces, MadeEdges, Turning
from service.paving.laying.offcuts.area_bounds import area_bound, quick_area_bound, round_spread_area, slab_shares
from service.paving.laying.offcuts.boards import Board, siblings
from service.paving.laying.offcuts.bought import Bought, Source
from service.paving.laying.offcuts.cuttings import TRIES, Cutting, as_laid, mixed, rectangles, sawn, true_shapes
from service.paving.laying.offcuts.edge_bounds import edge_bound
from service.paving.laying.offcuts.parts import Part, parts
from service.paving.laying.offcuts.rectangle_bounds import rectangle_bound
from service.paving.laying.offcuts.rules import Effort, Stock

#: Pieces dealt at one time; more are dealt in several lots of like mixture, so that the work grows with their number.
LOT = 140


def slabs_to_buy(
    cuts: CutPieces,
    length: int,
    width: int,
    kerf: int,
    turning: Turning,
    made_edges: MadeEdges,
    effort: Effort,
) -> Bought:
    """How many slabs to buy for cut pieces when offcuts are used again.

    Parameters
    ----------
    cuts : CutPieces
        The pieces, all of one size of slab.
    length, width : int
        Face of the slab [µm], above 0.
    kerf : int
        Width that the blade takes away [µm], from 0.
    turning : Turning
        Whether a piece may be turned a quarter.
    made_edges : MadeEdges
        Whether a piece that has a made edge keeps it on the edge of the slab it is cut from.
    effort : Effort
        How hard to look.

    Returns
    -------
    Bought
        The number, the least number possible as far as known, and where each piece comes from.

    Raises
    ------
    BrokenIdentity
        If a piece reaches outside its slab.

    Notes
    -----
    Pieces of one slab may always be cut from one slab as they lie, however little is between
    them: so never more slabs are bought than are cut. Any other two pieces are a kerf apart.
    Only upright stands are searched: a piece is never turned by anything but quarters.

    References
    ----------
    Geometry, and a search: the number is what was found, the bound what is proved.

    Examples
    --------
    Two triangles, each half a slab, come from one slab if the saw takes nothing:

    >>> triangle, two = np.array([[0, 600, 0], [0, 0, 400]]), np.ones(2, dtype=int)
    >>> halves = CutPieces(np.arange(2), np.tile(triangle, 2), 3 * two, two)
    >>> found = slabs_to_buy(halves, 600, 400, 0, Turning.none, MadeEdges.kept, Effort.thorough)
    >>> found.slabs, found.bound, found.model
    (1, 1, 'true_shapes')
    """
    stock = Stock(length, width, kerf, turning, made_edges)
    measured = parts(cuts, stock)
    if not measured:
        return Bought(0, 0, "true_shapes", "areas", 0, dict)
    laid = as_laid(measured)
    found, bound, bound_model = (_quick if effort is Effort.quick else _thorough)(measured, stock)
    best = found if found.slabs < laid.slabs else laid
    return Bought(best.slabs, bound, best.model, bound_model, len(measured), best.drawn)


def _quick(measured: Sequence[Part], stock: Stock) -> tuple[Cutting, int, str]:
    lots = _lots(measured)
    found = _joined([rectangles([measured[k] for k in lot], stock, 0) for lot in lots], lots)
    areas = np.array([part.area for part in measured])
    spread = round_spread_area(areas, stock.kerf)
    together = [piece for pieces in siblings(measured) for piece in pieces]
    spread[together] = areas[together]
    return found, quick_area_bound(slab_shares(spread, stock)), "areas"


def _thorough(measured: Sequence[Part], stock: Stock) -> tuple[Cutting, int, str]:
    lots = _lots(measured)
    boards = [Board([measured[k] for k in lot], stock) for lot in lots]
    found = _joined([_fewest_of(board) for board in boards], lots)
    together = {piece for pieces in siblings(measured) for piece in pieces}
    bounds = {
        "areas": area_bound(np.concatenate([board.shares for board in boards])),
        "made_edges": edge_bound(measured, stock, together),
    }
    if len(boards) == 1 and found.slabs > max(bounds.values()):
        bounds["pairs"] = boards[0].pair_bound
    model = max(bounds, key=bounds.__getitem__)
    return found, bounds[model], model


def _fewest_of(board: Board) -> Cutting:
    """The best of what true shapes, rectangles and both together come to."""
    found = true_shapes(board, TRIES)
    if board.stock.made_edges is MadeEdges.kept or found.slabs == board.area_bound:
        return found
    others = [mixed(board, sawn(board.parts, board.stock, 0), TRIES)]
    boxes = [(part.length, part.width) for part in board.parts]
    if rectangle_bound(boxes, board.stock) < found.slabs:
        others.append(rectangles(board.parts, board.stock, TRIES))
    return min([found, *filter(None, others)], key=lambda cutting: cutting.slabs)


def _lots(measured: Sequence[Part]) -> list[list[int]]:
    """Pieces in lots, each with large and small ones alike."""
    number = -(-len(measured) // LOT)
    areas = [-part.area for part in measured]
    order = sorted(range(len(measured)), key=areas.__getitem__)
    return [order[k::number] for k in range(number)]


def _joined(cuttings: Sequence[Cutting], lots: Sequence[Sequence[int]]) -> Cutting:
    """Lots dealt apart, counted together."""
    ends = list(accumulate(cutting.slabs for cutting in cuttings))

    def drawn() -> dict[int, Source]:
        return {
            lot[k]: source._replace(slab=source.slab + end - cutting.slabs)
            for cutting, lot, end in zip(cuttings, lots, ends, strict=True)
            for k, source in cutting.drawn().items()
        }

    models = {cutting.model for cutting in cuttings}
    return Cutting(ends[-1], models.pop() if len(models) == 1 else "true_shapes", drawn)
