"""What the tests of offcuts share: drawn pieces, and a judge of cuttings that knows only shapely."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

import numpy as np
import shapely
from hypothesis import strategies as st
from shapely import affinity

from service.paving.laying.cut_pieces import CutPieces, Ring
from service.paving.laying.offcuts import Bought, Effort, MadeEdges, Source, Turning
from service.paving.laying.offcuts import buying as service_buying
from service.paving.laying.offcuts import parts as service_parts
from service.paving.laying.offcuts.parts import Part
from service.paving.laying.offcuts.rules import Stock

#: What points on whole micrometres and short floats may add up to [µm].
SLACK = 4.0


class CutPiece(NamedTuple):
    """A piece drawn by hand: the slab it is kept of, and its rings."""

    place: int
    outline: tuple[Ring, ...]


def gathered(cuts: Sequence[CutPiece]) -> CutPieces:
    """Pieces drawn by hand, as the service has them."""
    loops = [ring for cut in cuts for ring in cut.outline]
    points = np.array([point for ring in loops for point in ring], dtype=np.int64).reshape(-1, 2).T
    columns = [cut.place for cut in cuts], [len(ring) for ring in loops], [len(cut.outline) for cut in cuts]
    places, corners, numbers = (np.array(column, dtype=np.int64) for column in columns)
    return CutPieces(places, points, corners, numbers)


def parts(cuts: Sequence[CutPiece], stock: Stock) -> list[Part]:
    """Pieces drawn by hand, measured."""
    return service_parts.parts(gathered(cuts), stock)


def slabs_to_buy(
    cuts: Sequence[CutPiece],
    length: int,
    width: int,
    kerf: int,
    turning: Turning,
    made_edges: MadeEdges,
    effort: Effort,
) -> Bought:
    """Slabs to buy for pieces drawn by hand."""
    return service_buying.slabs_to_buy(gathered(cuts), length, width, kerf, turning, made_edges, effort)


Job = tuple[list[CutPiece], int, int]


def drawn(piece: CutPiece) -> shapely.Polygon:
    """The piece in its own slab."""
    return shapely.Polygon(piece.outline[0], piece.outline[1:])


def placed(shape: shapely.Geometry, source: Source) -> shapely.Geometry:
    """A shape where it lies in the bought slab."""
    return affinity.translate(affinity.rotate(shape, 90 * source.turns, origin=(0, 0)), source.x, source.y)


def faults(
    cuts: Sequence[CutPiece], bought: Bought, slab: tuple[int, int], kerf: int, turning: Turning, made_edges: MadeEdges
) -> list[str]:
    """What is wrong with a cutting: nothing, if it can be sawn as the rules say."""
    length, width = slab
    face = shapely.box(0, 0, length, width)
    found = []
    if len(bought.sources) != len(cuts):
        found.append(f"{len(cuts)} pieces, {len(bought.sources)} sources")
    if {source.slab for source in bought.sources} != set(range(bought.slabs)):
        found.append("slabs bought and slabs cut differ")
    by_slab: dict[int, list[Lying]] = defaultdict(list)
    for k, (cut, source) in enumerate(zip(cuts, bought.sources, strict=True)):
        lying = Lying(k, cut, source, placed(drawn(cut), source))
        by_slab[source.slab].append(lying)
        found += _alone(lying, face, turning, made_edges)
    for pieces in by_slab.values():
        for one, other in combinations(pieces, 2):
            found += _together(one, other, kerf)
    return found


class Lying(NamedTuple):
    """A piece where it lies in a bought slab."""

    number: int
    cut: CutPiece
    source: Source
    shape: shapely.Polygon


def _alone(lying: Lying, face: shapely.Polygon, turning: Turning, made_edges: MadeEdges) -> Iterator[str]:
    if not face.buffer(0.5).covers(lying.shape):
        yield f"piece {lying.number} leaves its slab"
    if turning is Turning.none and lying.source.turns % 2:
        yield f"piece {lying.number} is turned a quarter"
    if made_edges is MadeEdges.kept:
        touching = shapely.get_parts(drawn(lying.cut).exterior.intersection(face.exterior))
        made = shapely.MultiLineString([part for part in touching if part.length > 0])
        if placed(made, lying.source).intersection(face.exterior).length < made.length - 1:
            yield f"piece {lying.number} loses a made edge"


def _together(one: Lying, other: Lying, kerf: int) -> Iterator[str]:
    as_they_lie = one.cut.place == other.cut.place and one.source == other.source
    if one.shape.distance(other.shape) < kerf - SLACK and not as_they_lie:
        yield f"pieces {one.number} and {other.number} are {one.shape.distance(other.shape):.1f} apart"
    if one.shape.intersection(other.shape).area > SLACK * one.shape.length:
        yield f"pieces {one.number} and {other.number} overlap"


def piece(place: int, *rings: Sequence[tuple[float, float]]) -> CutPiece:
    """A piece by its corners."""
    return CutPiece(place, tuple(tuple((round(x), round(y)) for x, y in ring) for ring in rings))


def rectangle(place: int, length: int, width: int, x: int = 0, y: int = 0) -> CutPiece:
    """An upright rectangle."""
    return piece(place, [(x, y), (x + length, y), (x + length, y + width), (x, y + width)])


def kept_of(slab: tuple[int, int], place: int, ground: shapely.Geometry) -> list[CutPiece]:
    """Pieces of a slab that lie on the ground, on whole micrometres; none if it is whole or hardly there."""
    face = shapely.box(0, 0, *slab)
    left = face.intersection(ground)
    exact = [part for part in shapely.get_parts(left) if part.geom_type == "Polygon"]
    shapes = [shape for part in exact for shape in shapely.get_parts(shapely.set_precision(part, 1))]
    shapes = [shape for shape in shapes if shape.geom_type == "Polygon" and shape.area > 1e-3 * face.area]
    if not shapes or left.area > 0.999 * face.area:
        return []
    return [piece(place, *_rings(shapely.orient_polygons(shape))) for shape in shapes]


def _rings(shape: shapely.Polygon) -> list[Ring]:
    return [tuple(ring.coords[:-1]) for ring in (shape.exterior, *shape.interiors)]


SLABS = [(600_000, 600_000), (600_000, 300_000), (450_000, 450_000), (900_000, 600_000), (605_000, 300_000)]


@st.composite
def jobs(draw: st.DrawFn, most: int = 12) -> Job:
    """Slabs cut by straight edges, by hollow and bulging arcs, by strips that leave two pieces, and by holes."""
    length, width = slab = draw(st.sampled_from(SLABS))
    cuts: list[CutPiece] = []
    for place in range(draw(st.integers(1, most))):
        cuts += kept_of(slab, place, draw(grounds(length, width)))
    return cuts, length, width


@st.composite
def grounds(draw: st.DrawFn, length: int, width: int) -> shapely.Geometry:
    """Something that may leave a part of a slab."""
    x, y = draw(st.integers(0, length)), draw(st.integers(0, width))
    angle = draw(st.sampled_from([0, 0, 90, 180, 270, 45, 30, 12.5, 200, 333]))
    far = 4 * (length + width)
    kind = draw(st.sampled_from(["edge", "edge", "corner", "notch", "disc", "pit", "strip", "hole"]))
    half = affinity.rotate(shapely.box(x, y - far, x + far, y + far), angle, origin=(x, y))
    if kind == "edge":
        return half
    if kind in ("corner", "notch"):
        corner = affinity.rotate(shapely.box(x, y, x + far, y + far), angle, origin=(x, y))
        return corner if kind == "corner" else shapely.box(-far, -far, far, far).difference(corner)
    radius = draw(st.integers(100_000, 3_000_000))
    disc = shapely.Point(x, y).buffer(radius, quad_segs=30)
    if kind == "disc":
        return affinity.translate(disc, radius)
    if kind == "pit":
        return shapely.box(-far, -far, far, far).difference(affinity.translate(disc, -radius))
    if kind == "strip":
        strip = affinity.rotate(
            shapely.box(x, y - far, x + draw(st.integers(500, 100_000)), y + far), angle, origin=(x, y)
        )
        return shapely.box(-far, -far, far, far).difference(strip)
    small = shapely.Point(length / 2, width / 2).buffer(draw(st.integers(10_000, 140_000)), quad_segs=8)
    return shapely.box(-far, -far, far, far).difference(small)


RULES = {
    "kerf": st.sampled_from([0, 3000, 5000]),
    "turning": st.sampled_from(list(Turning)),
    "made_edges": st.sampled_from(list(MadeEdges)),
}
