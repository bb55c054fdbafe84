"""Layouts written out: the workings and cautions that go with a count."""

from functools import lru_cache

from service.paving.areas import Area
from service.paving.cautions import caution
from service.paving.formulas import formula
from service.paving.handling import caution_cutting
from service.paving.laying.counts import settled
from service.paving.layouts import Detail, Layout, Paving, layout
from service.paving.reference import default
from service.paving.sheets import Sheet


@formula
def slabs_to_buy(slabs_whole: float, slabs_for_cuts: float) -> float:
    """Slabs to buy: those laid whole, and those the cut pieces are sawn from.

    Parameters
    ----------
    slabs_whole, slabs_for_cuts : float
        Number of slabs [1].

    Returns
    -------
    float
        Number of slabs [1].

    References
    ----------
    Geometry (each slab laid and counted; offcuts used again)

    Examples
    --------
    >>> slabs_to_buy(8, 1)
    9
    """
    return slabs_whole + slabs_for_cuts


@formula
def joint_area(net_area: float, paved_area: float) -> float:
    """Plan area of the joints: what the slabs leave of the area.

    Parameters
    ----------
    net_area : float
        Area to be paved [m2].
    paved_area : float
        Face of the slabs laid [m2].

    Returns
    -------
    float
        Area [m2].

    References
    ----------
    Geometry

    Examples
    --------
    >>> joint_area(10.0, 9.5)
    0.5
    """
    return net_area - paved_area


@formula
def waste(paved_area: float, bought_area: float) -> float:
    """Part of the slabs bought that isn't laid.

    Parameters
    ----------
    paved_area : float
        Face of the slabs laid [m2].
    bought_area : float
        Face of the slabs bought [m2], above 0.

    Returns
    -------
    float
        Share [1].

    References
    ----------
    Geometry

    Examples
    --------
    >>> waste(9.0, 10.0)
    0.1
    """
    return (bought_area - paved_area) / bought_area


def worked_layout(sheet: Sheet, area: Area, paving: Paving) -> Layout:
    """Lay a paving on an area and write it out.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    area : Area
        What is paved.
    paving : Paving
        The slabs and how they are laid.

    Raises
    ------
    OutOfRange
        As `layout` raises it.
    """
    laid = _laid(area, paving)
    sheet.work("slabs_to_buy", slabs_to_buy, laid.slabs_whole, laid.slabs_to_buy - laid.slabs_whole)
    sheet.work("joint_area", joint_area, area.net, laid.paved_area)
    face = sum(count.to_buy * s.length * s.width for count, s in zip(laid.by_slab, paving.slabs, strict=True))
    if face:
        sheet.work("waste", waste, settled(laid.paved_area, face), face)
    _cautions(sheet, laid, paving)
    return laid


def _laid(area: Area, paving: Paving) -> Layout:
    """The layout, or the same one again: a job is asked about many times while all but its slabs changes.

    Layouts of very many slabs, or with every slab listed, would take a worker's memory up and aren't kept.
    """
    most = default("laying", "most_slabs_kept").value * min(slab.length * slab.width for slab in paving.slabs)
    keep = paving.detail is not Detail.pieces and area.net <= most
    return (_kept if keep else layout)(area, paving)


_kept = lru_cache(maxsize=int(default("laying", "layouts_kept").value))(layout)


def _cautions(sheet: Sheet, laid: Layout, paving: Paving) -> None:
    caution_cutting(sheet, laid.slabs_cut)
    if laid.slivers:
        cuts = f"{laid.slivers} of {laid.slabs_cut} cut slabs"
        sheet.caution(caution("slivers", f"{cuts} keep a piece thinner than a third of the slab."))
    if not paving.joint:
        sheet.caution(caution("tight_joint", "No joint is given, so slabs are laid edge to edge."))
