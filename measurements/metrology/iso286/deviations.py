"""Fundamental deviations c to s of shafts and C to S of holes, in whole micrometres."""

from collections.abc import Mapping

from measurements.metrology.errors import NoAnswer
from measurements.metrology.figures import Exact
from measurements.metrology.iso286.bands import FINE, MAIN, band
from measurements.metrology.iso286.grades import MICROMETRES, tolerance

Tables = Mapping[str, tuple[int, ...]]

UPPER_OF_SHAFT = {
    "d": (-20, -30, -40, -50, -65, -80, -100, -120, -145, -170, -190, -210, -230),
    "e": (-14, -20, -25, -32, -40, -50, -60, -72, -85, -100, -110, -125, -135),
    "f": (-6, -10, -13, -16, -20, -25, -30, -36, -43, -50, -56, -62, -68),
    "g": (-2, -4, -5, -6, -7, -9, -10, -12, -14, -15, -17, -18, -20),
    "h": (0,) * 13,
}
LOWER_OF_SHAFT = {
    "k": (0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5),
    "m": (2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23),
    "n": (4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40),
    "p": (6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68),
}
FINE_UPPER_OF_SHAFT = {
    "c": (
        -60,
        -70,
        -80,
        -95,
        -95,
        -110,
        -110,
        -120,
        -130,
        -140,
        -150,
        -170,
        -180,
        -200,
        -210,
        -230,
        -240,
        -260,
        -280,
        -300,
        -330,
        -360,
        -400,
        -440,
        -480,
    ),
}
FINE_LOWER_OF_SHAFT = {
    "r": (10, 15, 19, 23, 23, 28, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132),
    "s": (14, 19, 23, 28, 28, 35, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252),
}
COARSEST_WITH_STEP = {"k": 8, "m": 8, "n": 8, "p": 7, "r": 7, "s": 7}


def shaft_deviations(nominal_mm: Exact, letter: str, grade: int) -> tuple[int, int]:
    """Lower and upper deviation of a shaft, such as -20 and -7 for 25 g6.

    Units: mm in, µm out. Raises: NoAnswer for what these tables do not hold, BadFigure. Source: ISO 286-1 and -2, from memory.
    """
    width = tolerance(nominal_mm, grade)
    upper = _upper(nominal_mm, letter)
    if upper is not None:
        return upper - width, upper
    lower = _lower(nominal_mm, letter)
    if lower is None:
        raise NoAnswer(f"Shaft {letter}{grade} is not in these tables: they hold c to h, k, m, n, p, r and s.")
    if letter == "k" and grade > 7:
        lower = 0
    return lower, lower + width


def hole_deviations(nominal_mm: Exact, letter: str, grade: int) -> tuple[int, int]:
    """Lower and upper deviation of a hole, such as 0 and +21 for 25 H7.

    Units: mm in, µm out. Raises: as `shaft_deviations`. Source: ISO 286-1 and -2 (mirror rule, and step of grades), from memory.
    """
    width, small = tolerance(nominal_mm, grade), letter.lower()
    mirrored = _upper(nominal_mm, small)
    if letter.isupper() and mirrored is not None:
        return -mirrored, -mirrored + width
    lower = _lower(nominal_mm, small)
    if not letter.isupper() or lower is None or not _has_step(nominal_mm, small, grade):
        raise NoAnswer(f"Hole {letter}{grade} is not in these tables: use the limits of the part's own drawing.")
    upper = -lower + width - MICROMETRES[grade - 1][band(nominal_mm)]
    return upper - width, upper


def _has_step(nominal_mm: Exact, small: str, grade: int) -> bool:
    exception = (small, grade) == ("m", 6)
    return band(nominal_mm) > 0 and 5 < grade <= COARSEST_WITH_STEP[small] and not exception


def _upper(nominal_mm: Exact, letter: str) -> int | None:
    return _look_up(nominal_mm, letter, UPPER_OF_SHAFT, FINE_UPPER_OF_SHAFT)


def _lower(nominal_mm: Exact, letter: str) -> int | None:
    return _look_up(nominal_mm, letter, LOWER_OF_SHAFT, FINE_LOWER_OF_SHAFT)


def _look_up(nominal_mm: Exact, letter: str, main: Tables, fine: Tables) -> int | None:
    if letter in main:
        return main[letter][band(nominal_mm, MAIN)]
    if letter in fine:
        return fine[letter][band(nominal_mm, FINE)]
    return None
