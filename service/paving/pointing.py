"""Pointing: what the joints of a paving, or a run of joints, are filled with."""

from dataclasses import dataclass

from service.paving.areas import Area, MeasuredArea
from service.paving.errors import within
from service.paving.gaps import joint_length_in_area
from service.paving.joints import Filler, Joints, filler_density, joint_fill, joint_fill_area
from service.paving.laying_courses import Recipe, recipe_mix
from service.paving.layouts import Paving, layout
from service.paving.mixes import Mix
from service.paving.reference import Assumption
from service.paving.sheets import Sheet


@dataclass(frozen=True, slots=True)
class Pointing:
    """How joints are filled.

    Parameters
    ----------
    filler : Filler
        What they are filled with.
    depth : float
        Depth that is filled [m].
    density : Assumption
        Density of the filler in place [kg/m3].
    recipe : Recipe
        How the mortar is mixed, where it is one.
    """

    filler: Filler
    depth: float
    density: Assumption
    recipe: Recipe


@dataclass(frozen=True, slots=True)
class JointFilling:
    """What fills the joints and, if it is mortar, what it is mixed of."""

    joints: Joints
    mix: Mix | None


def pointed_run(sheet: Sheet, length: float, width: float, pointing: Pointing) -> JointFilling:
    """Fill a run of joint of some length and width [m]."""
    filled = joint_fill(sheet, length, width, pointing.depth, pointing.filler, pointing.density)
    return _mixed(sheet, filled, pointing)


def pointed_paving(sheet: Sheet, area: Area | MeasuredArea, paving: Paving, pointing: Pointing) -> JointFilling:
    """Fill the joints of a paving: exact over a shape, by the slab over an area that is only measured."""
    if isinstance(area, Area):
        with within("area"):
            laid = layout(area, paving)
        return pointed_layout(sheet, laid.joint_area, laid.joint_length, paving.joint, pointing)
    slab = paving.slabs[0]
    length = sheet.work("joint_length", joint_length_in_area, area.net, slab.length, slab.width, paving.joint)
    return pointed_run(sheet, length, paving.joint, pointing)


def pointed_layout(
    sheet: Sheet, joint_area: float, joint_length: float, width: float, pointing: Pointing
) -> JointFilling:
    """Fill joints whose plan area [m2] and length [m] a layout has counted."""
    filled = joint_fill_area(sheet, joint_area, joint_length, pointing.depth, pointing.filler, pointing.density, width)
    return _mixed(sheet, filled, pointing)


def _mixed(sheet: Sheet, filled: Joints, pointing: Pointing) -> JointFilling:
    mortar = pointing.filler is Filler.MORTAR
    return JointFilling(filled, recipe_mix(sheet, filled.volume, pointing.recipe) if mortar else None)


def pointing_of(filler: Filler, depth: float, density: float | None, recipe: Recipe) -> Pointing:
    """How joints are filled, with the reference density unless another is given [kg/m3]."""
    return Pointing(filler, depth, filler_density(filler).given(density), recipe)
