"""Handling: what slabs weigh, and the cautions that go with the work."""

from service.paving.cautions import caution
from service.paving.errors import refuse_unknown
from service.paving.formulas import formula
from service.paving.reference import Assumption, default, table
from service.paving.sheets import Sheet

_DENSITY = "_slab_density"


@formula
def slab_mass(length: float, width: float, thickness: float, density: float) -> float:
    """Mass of a slab.

    Parameters
    ----------
    length, width : float
        Face size [m], above 0.
    thickness : float
        Thickness [m], above 0.
    density : float
        Density of what it is made of [kg/m3].

    Returns
    -------
    float
        Mass [kg].

    References
    ----------
    Geometry

    Examples
    --------
    A standard kerb, about 67 kg by HSE Construction Information Sheet 57:

    >>> round(slab_mass(0.915, 0.255, 0.125, 2300.0), 1)
    67.1
    """
    return length * width * thickness * density


def slab_materials() -> tuple[str, ...]:
    """What slabs are made of, in the order of the reference table."""
    return tuple(key.removesuffix(_DENSITY) for key in table("handling") if key.endswith(_DENSITY))


def slab_density(made_of: str) -> Assumption:
    """Density of slabs by what they are made of [kg/m3].

    Raises
    ------
    UnknownName
        If no slab is made of it.

    Examples
    --------
    >>> slab_density("granite").unit
    'kg/m3'
    """
    if made_of not in slab_materials():
        refuse_unknown("slab material", made_of, slab_materials())
    return default("handling", made_of + _DENSITY)


def caution_lifting(sheet: Sheet, mass: float, what: str) -> None:
    """Caution against lifting a slab of some mass [kg]: from 25 kg alone, from 20 kg again and again."""
    one_person, repeated = default("handling", "one_person_lift"), default("handling", "repeated_lift")
    because = f"{what} weighs {mass:.1f} kg; the limit is {{:g}} kg."
    if mass >= one_person.value:
        sheet.caution(caution("lifting", because.format(one_person.value)))
    elif mass >= repeated.value:
        sheet.caution(caution("repeated_lifting", because.format(repeated.value)))


def caution_bags(sheet: Sheet, mass: float) -> None:
    """Caution against lifting bags of some mass [kg] alone."""
    limit = default("handling", "one_person_lift").value
    if mass >= limit:
        sheet.caution(caution("bag_lifting", f"Cement is counted in bags of {mass:g} kg; the limit is {limit:g} kg."))


def caution_cement(sheet: Sheet, what: str) -> None:
    """Caution against wet cement and against cold, for work with cement."""
    sheet.caution(caution("wet_cement", f"{what} holds wet cement."))
    sheet.caution(caution("cold", f"{what} must set before it freezes."))


def caution_cutting(sheet: Sheet, cuts: int) -> None:
    """Caution against the dust of sawing, if anything is cut."""
    if cuts:
        sheet.caution(caution("silica_dust", f"{cuts} slab{'s are' if cuts > 1 else ' is'} cut."))


def caution_compaction(sheet: Sheet, because: str) -> None:
    """Caution against the vibration of a plate compactor."""
    sheet.caution(caution("vibration", because))
