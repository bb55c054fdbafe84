"""The wire of areas."""

from service.schemas.answers import Answer
from service.schemas.figures import Figure, Figures, Rows, Section, Word
from service.schemas.shapes import AREA_QUESTION as AREA_QUESTION


class EdgeRow(Figures):
    """A side of the outline."""

    name = Word("Which side, counted from the first point.")
    length_m = Figure("Its length, along the arc if it is one.")


class SetSquareFigures(Figures):
    """A 3-4-5 triangle to square a corner with."""

    short_leg_m = Figure("Three parts.")
    long_leg_m = Figure("Four parts.")
    diagonal_m = Figure("Five parts: the corner is square when it measures this.")


class AreaFigures(Figures):
    """What an area measures."""

    area_m2 = Figure("To be paved: the outline less its openings.")
    gross_area_m2 = Figure("Inside the outline.")
    openings_area_m2 = Figure("Of all openings.")
    perimeter_m = Figure("Round the outline.")
    openings_perimeter_m = Figure("Round all openings.")
    bounding_length_m = Figure("Extent along x.")
    bounding_width_m = Figure("Extent along y.")
    diagonal_m = Figure("Both diagonals of the bounding rectangle: equal when it is square.")
    edges = Rows(EdgeRow(), description="The sides of the outline in order.")
    set_square = Section(SetSquareFigures(), description="The largest 3-4-5 triangle that fits.", optional=True)


class AreaAnswer(AreaFigures, Answer):
    """What an area measures."""
