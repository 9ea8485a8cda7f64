"""Rounding as ASTM E29 asks: to the nearest, a tie to the even digit. Integers only, so a tie is a tie."""

from measurements.metrology.errors import BadFigure
from measurements.metrology.figures import check_whole


def divide_half_even(numerator: int, denominator: int) -> int:
    """The whole number nearest the ratio, a tie to the even one.

    Units: none; whole numbers. Raises: BadFigure for a denominator of zero or below. Source: ASTM E29, rounding procedure (from
    memory).
    """
    check_whole((numerator, denominator))
    if denominator <= 0:
        raise BadFigure("Nothing can be divided into zero or fewer parts: check the figure.")
    whole, rest = divmod(numerator, denominator)
    twice = 2 * rest
    return whole + (twice > denominator or (twice == denominator and whole & 1))


def to_step(value: int, step: int) -> int:
    """The multiple of `step` nearest `value`, a tie to the even multiple.

    A step is one unit of the last decimal kept, or 50 to round to fifties.

    Units: one unit and scale for both, whole numbers. Raises: BadFigure as `divide_half_even`.
    Source: ASTM E29, rounding method.
    """
    return divide_half_even(value, step) * step
