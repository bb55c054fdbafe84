"""The wire of layouts: also the fields of a paving in a whole job."""

from typing import Any

from service.paving.errors import OutOfRange, refuse_unknown
from service.paving.layouts import Detail, MadeEdges, Pattern, Paving, Search, Turning
from service.paving.reference import default
from service.paving.slabs import Slab
from service.schemas.answers import Answer
from service.schemas.fields import Choice, Count, Flag, JointWidth, Name, Quantity, Ratio
from service.schemas.figures import Figure, Figures, Numbers, Rows, Tally, Truth, Word
from service.schemas.nested import Either, Object, Objects
from service.schemas.quantities import ANGLE, LENGTH
from service.schemas.requests import Question, Request
from service.schemas.shapes import PointSchema, shape_field
from service.schemas.slabs import SlabSize

#: Sizes in one paving: more than any mixed pack holds.
MOST_SIZES = 12


#: Most slabs of one size in a pack, and the greatest seed.
MOST_IN_PACK, GREATEST_SEED = 10_000, 999_999_999


class PackedSize(Request):
    """How many of one size a pack holds."""

    name = Name(required=True, description="Name of the size, as in `slabs`.", example="600 x 300")
    count = Count(0, MOST_IN_PACK, required=True, description="How many.", example=12)


class PavingFields(Request):
    """Slabs and how they are laid."""

    slabs = Objects(Object(SlabSize()), most=MOST_SIZES, least=1, description="The sizes laid.")
    slab = Object(SlabSize(), description="The size laid, where there is one; in place of `slabs`.")
    pattern = Choice(Pattern, required=True, description="How they are laid: see /v1/patterns.")
    offset = Ratio(default="1/2", description="Stretcher bond: how far each course is moved, as a part of a slab.")
    joint = JointWidth(LENGTH, "joint", default="0 mm", description="Between slabs.", example="8 mm")
    angle = Quantity(ANGLE, "angle", default="0 deg", description="How far the pattern is turned counter-clockwise.")
    origin = Either(
        Choice(Search),
        Object(PointSchema()),
        lambda search: search,
        description="Where the lower left corner of the first slab lies, (0, 0) if left out; or what to look for: "
        "fewest_cuts, then slivers, slabs to buy and sawing; or fewest_slivers, then slabs to buy, cuts and sawing.",
    )
    kerf = Quantity(LENGTH, "kerf", default="3 mm", description="What the saw takes.", example="3 mm")
    made_edges = Flag(default=False, description="Whether edges as made (chamfered, riven) are kept at the outside.")
    quarter_turns = Flag(default=True, description="Whether an offcut may be turned by a quarter.")
    seed = Count(
        0,
        GREATEST_SEED,
        default=int(default("random_layings", "seed").value),
        description="Random layings: the same number gives the same laying, another one another.",
    )
    stagger = Quantity(
        LENGTH,
        "stagger",
        default="75 mm",
        description="Coursed random: least distance of perpends from those of the course before.",
    )
    joint_most = JointWidth(
        LENGTH, "joint", description="Coursed random: how far joints may be opened so that courses end whole."
    )
    run_limit = Count(
        1,
        100,
        default=int(default("random_layings", "run_limit").value),
        description="Mixed sizes: modules along the longest straight joint.",
    )
    pack = Objects(
        Object(PackedSize()),
        most=MOST_SIZES,
        least=1,
        description="Random layings: what one pack holds of each size, in place of shares.",
    )


def paving_of(values: dict[str, Any], detail: Detail) -> Paving:
    """Take the fields of a paving out of the values and make them one.

    Raises
    ------
    OutOfRange
        If there is no slab, or both one and a list.
    """
    slabs = slabs_of(values)
    return Paving(
        slabs=slabs,
        pattern=values.pop("pattern"),
        joint=values.pop("joint"),
        offset=values.pop("offset"),
        angle=values.pop("angle"),
        origin=values.pop("origin") or (0.0, 0.0),
        kerf=values.pop("kerf"),
        made_edges=MadeEdges.kept if values.pop("made_edges") else MadeEdges.free,
        turning=Turning.quarter if values.pop("quarter_turns") else Turning.none,
        detail=detail,
        seed=values.pop("seed"),
        stagger=values.pop("stagger"),
        joint_most=values.pop("joint_most"),
        run_limit=values.pop("run_limit"),
        pack=pack_of(values.pop("pack"), slabs),
    )


def pack_of(packed: Any, slabs: tuple[Slab, ...]) -> tuple[int, ...] | None:
    """What a pack holds by size, in the order of the slabs; none if nothing is said.

    Raises
    ------
    UnknownName
        If a name isn't among the slabs.
    OutOfRange
        If a name is given twice.
    """
    if packed is None:
        return None
    names = [slab.name for slab in slabs]
    held: dict[str, int] = {}
    for k, entry in enumerate(packed):
        if entry["name"] not in names:
            refuse_unknown("size", entry["name"], names, "pack", k, "name")
        if entry["name"] in held:
            raise OutOfRange(f"'{entry['name']}' is in the pack twice.", "pack", k, "name")
        held[entry["name"]] = entry["count"]
    return tuple(held.get(name, 0) for name in names)


def slabs_of(values: dict[str, Any]) -> tuple[Slab, ...]:
    """Take one slab or a list of them out of the values.

    Raises
    ------
    OutOfRange
        If there is neither, or both.
    """
    slab, slabs = values.pop("slab"), values.pop("slabs")
    if (slab is None) == (slabs is None):
        raise OutOfRange("Give either 'slabs', or 'slab' where there is one size.", "slabs")
    return slabs or (slab,)


class LayoutQuestion(PavingFields, Question):
    """A pattern laid on an area."""

    area = shape_field()
    pieces = Flag(default=False, description="Whether the answer lists every slab as laid.")

    def make(self, values: dict[str, Any]) -> dict[str, Any]:
        detail = Detail.pieces if values.pop("pieces") else Detail.cuts
        return {"area": values.pop("area"), "paving": paving_of(values, detail)}


class SlabCountRow(Figures):
    """Slabs of one size."""

    name = Word("The size.")
    whole = Tally("Laid whole.")
    cut = Tally("Laid cut.")
    to_buy = Tally("To buy.")
    letter = Word("Random layings: the letter it goes by in the laying order.", absent=True)
    left_over = Tally("Of whole packs: slabs left over, if there are any.", absent=True)


class CourseRow(Figures):
    """Slabs of a random laying with their lower edge on one line."""

    number = Tally("Number of the course, from 1 at the bottom.")
    above_mm = Figure("Distance of its lower edge from that of the first course.")
    slabs = Word("Letters of the sizes from left to right; 'turned' if the length runs across, 'cut' if it is cut.")


class PieceRow(Figures):
    """A slab as laid."""

    name = Word("Its size.")
    whole = Truth("Whether it is laid whole.")
    x_mm = Figure("Its lower left corner before it is turned.")
    y_mm = Figure("Its lower left corner before it is turned.")
    length_mm = Figure("Its own length.")
    width_mm = Figure("Its own width.")
    angle_deg = Figure("How far it is turned counter-clockwise about that corner.")
    outlines_mm = Numbers(depth=3, description="Of a cut slab: outlines of the pieces kept, as rings of plan points.")


class LayoutFigures(Figures):
    """What a layout counts."""

    slabs_whole = Tally("Slabs laid whole.")
    slabs_cut = Tally("Slabs sawn to fit.")
    cut_pieces = Tally("Pieces kept of the cut slabs.")
    slabs_to_buy = Tally("Slabs to buy, offcuts used again.")
    slabs_to_buy_bound = Tally("Fewer slabs can't do.")
    bound_model = Word("What the bound holds for.")
    thinnest_cut_mm = Figure("Thinnest piece; none if nothing is cut.", optional=True)
    slivers = Tally("Cut slabs with a piece thinner than a third of the slab.")
    paved_area_m2 = Figure("Face of the slabs laid.")
    joint_area_m2 = Figure("What is left of the area.")
    joint_length_m = Figure("All joints, each once, along their centre lines.")
    sawing_length_m = Figure("Length to saw along the edges of the area.")
    waste_percent = Figure("Part of the slabs bought that isn't laid.", of="waste")
    origin_mm = Numbers(depth=1, description="Origin of the pattern used, as [x, y].", of="origin")
    tolerance_mm = Figure("A strip narrower than this is neither sawn off nor laid.")
    search = Word("How the origin was searched; none if it was given.", optional=True)
    gap = Tally("Slabs the search may have missed the best by; none if it can't have or nothing says.", optional=True)
    by_slab = Rows(SlabCountRow(), description="The same by size.")
    packs = Tally("Whole packs to buy, if a pack was given.", absent=True)
    laying_note = Word("Random layings: what was decided on the way.", of="note", absent=True)


class LayoutAnswer(LayoutFigures, Answer):
    """What a layout counts."""

    pieces = Rows(PieceRow(), description="Every slab as laid, if asked for.", absent=True)
    laying_order = Rows(CourseRow(), description="Random layings: which slab comes next.", of="order", absent=True)
