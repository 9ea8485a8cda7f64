"""Standard tolerance grades IT5 to IT11, as tabulated and from the formula behind the table."""

import math

from measurements.metrology.errors import NoAnswer
from measurements.metrology.figures import Exact, whole_number
from measurements.metrology.iso286.bands import band, bounds

MICROMETRES = {
    5: (4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27),
    6: (6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40),
    7: (10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63),
    8: (14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97),
    9: (25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155),
    10: (40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250),
    11: (60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400),
}
MULTIPLES = {5: 7, 6: 10, 7: 16, 8: 25, 9: 40, 10: 64, 11: 100}


def tolerance(nominal_mm: Exact, grade: int) -> int:
    """Tolerance of a grade, in whole micrometres, as tabulated.

    Units: mm in, µm out. Raises: NoAnswer for a grade outside IT5 to IT11 or a size above 500 mm, BadFigure.
    Source: ISO 286-1 table 1, from memory.
    """
    if whole_number(grade, "A grade", -1, 99) not in MICROMETRES:
        raise NoAnswer(f"Grade IT{grade} is not in these tables: they hold IT5 to IT11.")
    return MICROMETRES[grade][band(nominal_mm)]


def tolerance_by_formula(nominal_mm: Exact, grade: int) -> float:
    """Tolerance of a grade before the standard's rounding: so many times i = 0.45 D^(1/3) + 0.001 D, D the range's mean.

    Units: mm in, µm out. Raises: as `tolerance`. Source: ISO 286-1, from memory.
    """
    if whole_number(grade, "A grade", -1, 99) not in MULTIPLES:
        raise NoAnswer(f"Grade IT{grade} is not in these tables: they hold IT5 to IT11.")
    over, up_to = bounds(nominal_mm)
    mean = math.sqrt(over * up_to)
    return MULTIPLES[grade] * (0.45 * math.cbrt(mean) + 0.001 * mean)
