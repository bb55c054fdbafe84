"""Jobs: everything that is asked of a take-off, part by part; what is None is left out."""

from dataclasses import dataclass

from service.paving.areas import Area
from service.paving.borders import BorderCourse
from service.paving.build_ups import Datum, Tapers
from service.paving.diggings import Digging
from service.paving.edgings import EdgingSlab
from service.paving.falls import DampProofCourse, Fall
from service.paving.grounds import Ground
from service.paving.haunches import Haunch
from service.paving.joints import Filler
from service.paving.laying_courses import Bedding, Recipe
from service.paving.layouts import Paving
from service.paving.membranes import Roll
from service.paving.planning import Site as Place
from service.paving.programmes import Gang
from service.paving.reference import Assumption
from service.paving.slabs import Slab
from service.paving.stages import Outputs
from service.paving.sub_bases import SubBase
from service.paving.trees import Tree


@dataclass(frozen=True, slots=True)
class Jointing:
    """What the joints are filled with; as deep as the thinnest slab unless a depth is given [m]."""

    filler: Filler
    depth: float | None
    density: float | None
    recipe: Recipe


@dataclass(frozen=True, slots=True)
class Groundwork:
    """How the surface falls, how the ground lies and how it is dug.

    Parameters
    ----------
    fall : Fall
        Which way the finished surface sheds water.
    datum : Datum
        What levels are counted from.
    ground : Survey, Plane or None
        How the ground lies now.
    digging : Digging
        What is dug and how.
    peg_spacing : Assumption
        Furthest from peg to peg [m].
    damp_proof_course : DampProofCourse or None
        Where there is a wall to keep dry.
    tapers : Tapers
        Which layer takes the fall up.
    """

    fall: Fall
    datum: Datum
    ground: Ground | None
    digging: Digging
    peg_spacing: Assumption
    damp_proof_course: DampProofCourse | None
    tapers: Tapers


@dataclass(frozen=True, slots=True)
class EdgingAsked:
    """An edging round the outline: its slab, the height it stands [m], its concrete."""

    slab: EdgingSlab
    height: float
    sides: tuple[int, ...] | None
    haunch: Haunch
    recipe: Recipe

    @property
    def good(self) -> Slab:
        """The edging as the merchant sells it."""
        return Slab("edging", self.slab.length, self.slab.width, self.height)


@dataclass(frozen=True, slots=True)
class Drainage:
    """What rain is reckoned with and where the paving lies."""

    rate: Assumption
    coefficient: Assumption
    place: Place


@dataclass(frozen=True, slots=True)
class ProgrammeAsked:
    """Who works, how fast, and at what temperature it sets [degC]."""

    gang: Gang
    outputs: Outputs
    temperature: float | None


@dataclass(frozen=True, slots=True)
class Allowances:
    """Shares on top of what is counted, for breakage and waste."""

    slabs: Assumption
    sub_base: Assumption
    laying_course: Assumption
    jointing: Assumption
    edging: Assumption


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A whole job.

    Parameters
    ----------
    area : Area
        What is paved.
    paving : Paving
        The slabs and how they are laid.
    groundwork : Groundwork or None
        Fall, ground and dig.
    sub_base : SubBase or None
        Stone under the laying course.
    membrane : Roll or None
        Under the stone.
    edging : EdgingAsked or None
        Round the outline.
    border : BorderCourse or None
        A course in another slab round the edge, the paving inside it.
    bedding : Bedding or None
        The laying course.
    jointing : Jointing or None
        What fills the joints.
    drainage : Drainage or None
        Where the rain goes.
    trees : tuple of Tree
        Trees whose roots may lie under it.
    programme : ProgrammeAsked or None
        When it is done.
    allowances : Allowances
        Shares on top.
    """

    area: Area
    paving: Paving
    groundwork: Groundwork | None = None
    sub_base: SubBase | None = None
    membrane: Roll | None = None
    edging: EdgingAsked | None = None
    border: BorderCourse | None = None
    bedding: Bedding | None = None
    jointing: Jointing | None = None
    drainage: Drainage | None = None
    trees: tuple[Tree, ...] = ()
    programme: ProgrammeAsked | None = None
    allowances: Allowances

    @property
    def fall(self) -> Fall | None:
        """Which way the surface falls, if it is said."""
        return self.groundwork.fall if self.groundwork else None
