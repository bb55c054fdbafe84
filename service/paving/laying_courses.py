"""Laying courses: the bed under the slabs with the mortar or sand it is made of."""

from dataclasses import dataclass

from service.paving.areas import Area, MeasuredArea
from service.paving.beds import Bed, Dabs, Method, Ribbons, bed
from service.paving.layers import Depth
from service.paving.materials import Material
from service.paving.mixes import Consistence, Mix, MixBasis, Parts, SandState, mix
from service.paving.sheets import Sheet
from service.paving.slabs import Slab


@dataclass(frozen=True, slots=True)
class Recipe:
    """How mortar or concrete is mixed."""

    parts: Parts
    consistence: Consistence
    sand: SandState
    basis: MixBasis


@dataclass(frozen=True, slots=True)
class Bedding:
    """How slabs are bedded.

    Parameters
    ----------
    method : Method
        Full bed, spots, ribbons or screeded.
    depth : Depth
        Depth of the finished bed [m].
    material : Material
        What is screeded.
    recipe : Recipe
        What the mortar is mixed of, in the other methods.
    dabs, ribbons : Dabs, Ribbons or None
        Where they differ from the usual.
    """

    method: Method
    depth: Depth
    material: Material
    recipe: Recipe
    dabs: Dabs | None = None
    ribbons: Ribbons | None = None


@dataclass(frozen=True, slots=True)
class LayingCourse:
    """A bed and the mix it takes; no mix if it is screeded."""

    bed: Bed
    mix: Mix | None


def recipe_mix(sheet: Sheet, volume: float, recipe: Recipe) -> Mix:
    """Mix a volume [m3] by a recipe."""
    return mix(sheet, volume, recipe.parts, recipe.consistence, recipe.sand, recipe.basis)


def laying_course(
    sheet: Sheet, area: Area | MeasuredArea, bedding: Bedding, slab: Slab | None, joint: float
) -> LayingCourse:
    """Measure a laying course.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    area : Area or MeasuredArea
        What it carries.
    bedding : Bedding
        How the slabs are bedded.
    slab : Slab or None
        The slab; dabs and ribbons can't be counted without.
    joint : float
        Width of the joint between slabs [m].

    Raises
    ------
    OutOfRange
        As `bed` and `mix` raise it.
    """
    method = bedding.method
    laid = bed(
        sheet,
        area,
        method,
        bedding.depth,
        slab,
        dabs=bedding.dabs,
        ribbons=bedding.ribbons,
        screed=bedding.material,
        joint=joint,
    )
    mixed = None if method is Method.SCREEDED else recipe_mix(sheet, laid.volume, bedding.recipe)
    return LayingCourse(laid, mixed)
