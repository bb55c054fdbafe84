"""Random layings of a paving: the lattice of every slab where it lies."""

import math
from dataclasses import dataclass, replace

from service.paving.areas import Area
from service.paving.errors import OutOfRange
from service.paving.laying.coursed.areas import coursed
from service.paving.laying.coursed.gauges import Setting, gauges
from service.paving.laying.grounds import Frame
from service.paving.laying.lattices import Lattice, micrometres
from service.paving.laying.mixed.areas import Wish, mixed_area
from service.paving.laying.mixed.modules import module
from service.paving.laying.mixed.plots import Plot
from service.paving.laying.pavings import Pattern, Paving, Search
from service.paving.laying.placed import placed_lattice
from service.paving.laying.repeats import check_sizes
from service.paving.laying.sites import Site, cornered, site
from service.paving.laying.tolerances import least_strip
from service.paving.reference import default

#: Patterns laid by chance.
RANDOM = (Pattern.coursed_random, Pattern.mixed_random)

_CORNER = "the lower left corner of the area as the laying sees it; no other was tried"


@dataclass(frozen=True)
class RandomLaying:
    """A laying without a repeat.

    Parameters
    ----------
    lattice : Lattice
        Every slab where it lies.
    frame : Frame
        Where the laying stands on plan.
    origin : str
        How the origin was chosen.
    notes : tuple of str
        What was decided on the way.
    """

    lattice: Lattice
    frame: Frame
    origin: str
    notes: tuple[str, ...]


def random_laying(area: Area, paving: Paving) -> RandomLaying:
    """Lay slabs at random by the number the paving gives.

    Raises
    ------
    OutOfRange
        If the sizes, shares, pack, run limit or stagger rule out every laying.
    """
    check_sizes(paving)
    origin = (0.0, 0.0) if isinstance(paving.origin, Search) else paving.origin
    seen = site(area, Frame(origin, paving.angle))
    return _coursed(area, paving, seen) if paving.pattern is Pattern.coursed_random else _mixed(area, paving, seen)


def _coursed(area: Area, paving: Paving, seen: Site) -> RandomLaying:
    """Courses begin at the lower left of the area, wherever the origin is."""
    frame = cornered(seen)
    stagger = default("random_layings", "stagger").given(paving.stagger).value
    shortest = min(slab.length for slab in paving.slabs)
    if not 0 < stagger <= shortest:
        raise OutOfRange(f"A stagger is above 0 and at most the shortest slab, {shortest * 1000:g} mm.", "stagger")
    _check_number(area, paving)
    setting = _tuned(_setting(site(area, frame), paving), paving)
    _check_step(setting)
    found = coursed(setting, micrometres(stagger), _seed(paving))
    notes = found.notes
    if setting.joint != micrometres(paving.joint):
        notes = (f"Joints are {setting.joint / 1000:g} mm, so that courses end whole.", *notes)
    return RandomLaying(placed_lattice(found.slabs, setting.joint), frame, _CORNER, notes)


def _setting(seen: Site, paving: Paving) -> Setting:
    shares = _shares(paving) or tuple(1 / len(paving.slabs) for _ in paving.slabs)
    sides = [(micrometres(slab.length), micrometres(slab.width)) for slab in paving.slabs]
    for k, pair in enumerate(sides):
        if pair in sides[:k]:
            raise OutOfRange(f"{paving.slabs[k].name} is given twice.", "slabs", k)
    return Setting(seen, gauges(sides, shares), micrometres(paving.joint), micrometres(least_strip().value))


def _tuned(setting: Setting, paving: Paving) -> Setting:
    """The least joint up to the widest allowed with which nothing is cut; the joint as it is if there is none."""
    if paving.joint_most is None:
        return setting
    if paving.joint_most < paving.joint:
        raise OutOfRange(f"The widest joint is below the joint, {paving.joint * 1000:g} mm.", "joint_most")
    widest = min(default("laying", "widest_joint").value, paving.joint_most)
    step = micrometres(default("random_layings", "joint_step").value)
    joints = range(setting.joint, micrometres(widest) + 1, step)
    wider = (replace(setting, joint=joint) for joint in joints)
    return next((other for other in wider if other.ends_whole), setting)


def _check_step(setting: Setting) -> None:
    finest = micrometres(default("random_layings", "finest_step").value)
    if setting.step < finest:
        raise OutOfRange("Lengths and joint of courses are told apart by tenths of a millimetre: round them.", "joint")


def _check_number(area: Area, paving: Paving) -> None:
    left, low, right, high = area.outline.bounds
    smallest = min(slab.length * slab.width for slab in paving.slabs)
    most = default("random_layings", "most_slabs_coursed").value
    longest = default("random_layings", "longest_course").value
    if math.hypot(right - left, high - low) > longest:
        raise OutOfRange(f"Courses are at most {longest:g} m long; lay the area in parts.", "area")
    if 2 * (right - left) * (high - low) / smallest > most:
        raise OutOfRange(f"More than {most:,.0f} slabs may be needed; lay the area in parts.", "area")


def _mixed(area: Area, paving: Paving, seen: Site) -> RandomLaying:
    joint = micrometres(paving.joint)
    sides = [(micrometres(slab.length), micrometres(slab.width)) for slab in paving.slabs]
    found = module(sides, joint)
    plot = Plot(seen, found.side, joint, micrometres(least_strip().value))
    if isinstance(paving.origin, Search) or not plot.modular:
        moved = replace(plot, site=site(area, cornered(seen)))
        plot = moved if moved.modular or isinstance(paving.origin, Search) else plot
    limit = int(default("random_layings", "run_limit").given(paving.run_limit).value)
    wish = Wish(tuple(s.name for s in paving.slabs), _shares(paving), paving.pack, limit, _seed(paving))
    laid = mixed_area(plot, found, wish)
    return RandomLaying(placed_lattice(laid.slabs, joint), plot.site.frame, _CORNER, laid.notes)


def _seed(paving: Paving) -> int:
    return int(default("random_layings", "seed").given(paving.seed).value)


def _shares(paving: Paving) -> tuple[float, ...] | None:
    """Shares of the area by size; none if none are given."""
    given = [slab.share for slab in paving.slabs]
    if paving.pack is not None:
        _check_pack(paving)
        if any(share is not None for share in given):
            raise OutOfRange("Give what a pack holds, or shares, not both.", "pack")
        faces = [n * s.length * s.width for n, s in zip(paving.pack, paving.slabs, strict=True)]
        return tuple(face / sum(faces) for face in faces)
    shares = [share for share in given if share is not None]
    if not shares:
        return None
    if len(shares) < len(given):
        raise OutOfRange("Give a share for every size, or for none.", "slabs", given.index(None), "share")
    whole = sum(shares)
    if abs(whole - 1) > default("random_layings", "share_slack").value:
        change = f"add {1 - whole:.0%}" if whole < 1 else f"take off {whole - 1:.0%}"
        raise OutOfRange(f"The shares make up {whole:.0%} of the area: {change}.", "slabs")
    return tuple(share / whole for share in shares)


def _check_pack(paving: Paving) -> None:
    pack = paving.pack or ()
    if len(pack) != len(paving.slabs) or min(pack) < 0 or not any(pack):
        raise OutOfRange("A pack holds a number of each size, and one slab at least.", "pack")
