"""Ranges of nominal size: over one figure, up to and including the next."""

from bisect import bisect_left
from fractions import Fraction

from measurements.metrology.errors import NoAnswer
from measurements.metrology.figures import Exact, exact_positive

MAIN = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
FINE = (3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500)


def band(nominal_mm: Exact, ends: tuple[int, ...] = MAIN) -> int:
    """Index of the range that a nominal size falls in: 30 exactly belongs to *over 18 up to 30*.

    Units: mm. Raises: BadFigure for zero and below, NoAnswer above 500 mm. Source: ISO 286-1, from memory.
    """
    size = exact_positive(nominal_mm, "the nominal size")
    if ends not in (MAIN, FINE):
        raise NoAnswer("These are no ranges of the standard: take the main or the fine ones.")
    if size > ends[-1]:
        raise NoAnswer("These tables end at 500 mm: use the maker's limits.")
    return bisect_left([Fraction(end) for end in ends], size)


def bounds(nominal_mm: Exact, ends: tuple[int, ...] = MAIN) -> tuple[int, int]:
    """The two ends of the range, over and up to; the first range counts from 1 for the formulas.

    Units: mm. Raises: as `band`. Source: ISO 286-1, from memory.
    """
    index = band(nominal_mm, ends)
    return (ends[index - 1] if index else 1), ends[index]
