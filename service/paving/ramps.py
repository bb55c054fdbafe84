"""Ramps: a slope from the ground up to the paving, in flights with landings between.

                                    ___ landing ___ . - '|
                      __ . - - ' ' '   flight 2          | rise
______ . - - ' ' ' '     flight 1                        |
|<---------------- length on plan --------------------->|
"""

from dataclasses import dataclass
from enum import StrEnum

from service.paving.cautions import caution
from service.paving.errors import OutOfRange
from service.paving.levels import slope_length
from service.paving.reference import default
from service.paving.sheets import Sheet
from service.paving.slopes import flight_length, flights_needed, ramp_body, ramp_length, ramp_paving


class RampKind(StrEnum):
    """What the ramp leads to."""

    DWELLING = "dwelling"
    OTHER_BUILDING = "other_building"
    DRIVE = "drive"


#: Gradients by name, steepest first, each with a longest flight of the same name in ramps.toml.
_GRADIENTS = {
    RampKind.DWELLING: ("dwelling_steep", "dwelling_mid"),
    RampKind.OTHER_BUILDING: ("building_steep", "building_mid", "building_gentle"),
}


@dataclass(frozen=True, slots=True)
class RampJob:
    """A ramp as it is asked for.

    Parameters
    ----------
    rise : float
        Height to climb [m].
    width : float
        Width of the ramp [m].
    kind : RampKind
        What it leads to.
    gradient : float or None
        Gradient [1]; the steepest that needs fewest flights if None.
    room : float or None
        Length there is for it on plan [m], if that is limited.
    """

    rise: float
    width: float
    kind: RampKind
    gradient: float | None = None
    room: float | None = None


@dataclass(frozen=True, slots=True)
class Ramp:
    """A ramp.

    Parameters
    ----------
    gradient : float
        Height over length on plan [1].
    flights : int
        Flights, with a landing between each two.
    flight_length, flight_rise : float
        Length of each on plan, and its height [m].
    slope_length : float
        Length of each along its slope [m].
    length : float
        Length of the whole on plan [m].
    paved_area : float
        Area to pave along the slope, landings between flights included [m2].
    body : float
        Volume under its surface above the ground it starts from [m3].
    """

    gradient: float
    flights: int
    flight_length: float
    flight_rise: float
    slope_length: float
    length: float
    paved_area: float
    body: float

    @property
    def one_in(self) -> float:
        """Length on plan over height [1]."""
        return 1 / self.gradient


def ramp(sheet: Sheet, job: RampJob) -> Ramp:
    """Draw up a ramp.

    Parameters
    ----------
    sheet : Sheet
        Where the workings go.
    job : RampJob
        What is asked for.

    Raises
    ------
    OutOfRange
        If it is too steep, at ``("gradient",)``, or longer than the room for it, at ``("room",)``.

    Notes
    -----
    Landings at the top and the bottom come on top of the length.

    References
    ----------
    Approved Document M with Lifetime Homes criterion 2; NHBC Standards 10.2.6 for drives
    """
    landing = sheet.assume(default("ramps", "landing_length"))
    gradient, flights = _gradient_and_flights(sheet, job)
    flight = sheet.work("flight_length", flight_length, job.rise, gradient, flights)
    slope = sheet.work("slope_length", slope_length, flight, job.rise / flights)
    found = Ramp(
        gradient=gradient,
        flights=flights,
        flight_length=flight,
        flight_rise=job.rise / flights,
        slope_length=slope,
        length=sheet.work("length", ramp_length, flight, flights, landing),
        paved_area=sheet.work("paved_area", ramp_paving, slope, flights, landing, job.width),
        body=sheet.work("body", ramp_body, job.rise, flight, flights, landing, job.width),
    )
    if job.room is not None and found.length > job.room * (1 + 1e-9):
        raise OutOfRange(
            f"The ramp needs {found.length:.2f} m on plan and there are {job.room:g} m: lower the rise, turn the ramp, "
            "or build steps.",
            "room",
        )
    _cautions(sheet, job, found)
    return found


def _gradient_and_flights(sheet: Sheet, job: RampJob) -> tuple[float, int]:
    if job.kind is RampKind.DRIVE:
        return _drive_gradient(sheet, job), 1
    if job.gradient is None:
        return _fewest_flights(sheet, job)
    gradient = job.gradient
    steepest, *_ = names = _GRADIENTS[job.kind]
    _refuse_steeper(job, sheet.assume(default("ramps", steepest)))
    if gradient <= default("levels", "gentle_slope").value * (1 + 1e-9) and job.kind is RampKind.DWELLING:
        return gradient, 1
    if gradient < default("ramps", names[-1]).value * (1 - 1e-9) and job.kind is RampKind.OTHER_BUILDING:
        return gradient, 1
    name = [name for name in names if default("ramps", name).value >= gradient * (1 - 1e-9)][-1]
    return gradient, _flights(sheet, job.rise, gradient, name)


def _fewest_flights(sheet: Sheet, job: RampJob) -> tuple[float, int]:
    """The steepest gradient among those that take fewest flights."""
    aside = Sheet()
    options = [(_flights(aside, job.rise, default("ramps", name).value, name), name) for name in _GRADIENTS[job.kind]]
    _, name = min(options, key=lambda option: option[0])
    gradient = sheet.assume(default("ramps", name))
    return gradient, _flights(sheet, job.rise, gradient, name)


def _flights(sheet: Sheet, rise: float, gradient: float, name: str) -> int:
    longest = sheet.assume(default("ramps", f"{name}_flight"))
    return int(sheet.work("flights", flights_needed, rise, gradient, longest))


def _drive_gradient(sheet: Sheet, job: RampJob) -> float:
    if job.gradient is None:
        return sheet.assume(default("levels", "drive_transition"))
    _refuse_steeper(job, sheet.assume(default("levels", "steepest_drive")))
    return job.gradient


def _refuse_steeper(job: RampJob, steepest: float) -> None:
    if job.gradient is not None and job.gradient > steepest * (1 + 1e-9):
        raise OutOfRange(
            f"1 in {1 / job.gradient:.3g} is too steep: 1 in {1 / steepest:.3g} is the most here. "
            f"A rise of {job.rise * 1000:g} mm needs {job.rise / steepest:.2f} m on plan at that.",
            "gradient",
        )


def _cautions(sheet: Sheet, job: RampJob, found: Ramp) -> None:
    one_in = f"It is 1 in {1 / found.gradient:.3g}"
    if job.kind is RampKind.DRIVE:
        if found.gradient > default("levels", "drive_transition").value * (1 + 1e-9):
            sheet.caution(caution("drive_transition", f"{one_in}."))
        return
    for name in ("landing_gradient", "landing_crossfall"):
        sheet.assume(default("ramps", name))
    sheet.caution(caution("landings", f"{one_in} in {found.flights} flight{'s' if found.flights > 1 else ''}."))
    if found.gradient > default("levels", "gentle_slope").value * (1 + 1e-9):
        sheet.caution(caution("ramp", f"{one_in}."))
        handrail = default("ramps", "handrail_rise").value
        if job.rise > handrail * (1 + 1e-9):
            because = f"It rises {job.rise * 1000:.0f} mm; up to {handrail * 1000:g} mm none is needed."
            sheet.caution(caution("handrail", because))
    least = default("ramps", "least_width").value
    if job.width < least * (1 - 1e-9):
        because = f"It is {job.width * 1000:g} mm wide; {least * 1000:g} mm is the least."
        sheet.caution(caution("narrow_approach", because))
    sheet.caution(caution("local_codes", "It is a way into a building."))
