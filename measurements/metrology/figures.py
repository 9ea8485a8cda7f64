"""The gate that every number passes: finite, not absurdly long, of the right sign, exact where a limit decides."""

import math
from collections.abc import Iterable, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import SupportsFloat

from measurements.metrology.errors import BadFigure, BadLimits, MixedDimensions, NothingGiven

Exact = int | Decimal | Fraction
GREATEST = 1e40  # its square still fits a double with room to spare; nothing in a shop comes near
MOST_VALUES = 1_000_000
LONGEST = 1 << 14  # of a whole number at one scale, squares included
MOST_BITS = 4096  # about 1,200 digits: far beyond any gauge, far below what would stall the arithmetic


def exact(value: Exact, what: str = "the value") -> Fraction:
    """The value as an exact rational.

    Units: those of the value. Raises: BadFigure for binary floats, truth values, NaN, infinities and numbers too long to mean
    anything. Source: common practice, no source.
    """
    if isinstance(value, bool) or not isinstance(value, int | Decimal | Fraction):
        raise BadFigure(
            f"{what} must be an exact number (whole, decimal or fraction), not {type(value).__name__}: give it as typed."
        )
    if isinstance(value, Decimal):
        if not value.is_finite():
            raise BadFigure(f"{what} is not a finite number: read it again.")
        if abs(value.adjusted()) + len(value.as_tuple().digits) > MOST_BITS // 4:
            raise BadFigure(f"{what} has too many digits to be a measurement: type it again.")
    fraction = Fraction(value)
    if max(fraction.numerator.bit_length(), fraction.denominator.bit_length()) > MOST_BITS:
        raise BadFigure(f"{what} has too many digits to be a measurement: type it again.")
    return fraction


def exact_positive(value: Exact, what: str = "the value") -> Fraction:
    """The value as an exact rational above zero.

    Units: those of the value. Raises: BadFigure as `exact`, and for zero and below. Source: common practice, no source.
    """
    fraction = exact(value, what)
    if fraction <= 0:
        raise BadFigure(f"{what} must be above zero: read it again.")
    return fraction


def exact_not_negative(value: Exact, what: str = "the value") -> Fraction:
    """The value as an exact rational of zero or more.

    Units: those of the value. Raises: BadFigure as `exact`, and for anything below zero. Source: common practice, no source.
    """
    fraction = exact(value, what)
    if fraction < 0:
        raise BadFigure(f"{what} must not be negative: read it again.")
    return fraction


def exact_all(values: Iterable[Exact], what: str = "the values") -> tuple[Fraction, ...]:
    """Every value as an exact rational, at least one.

    Units: those of the values. Shape: any length from one. Raises: NothingGiven when empty, BadFigure as `exact`.
    Source: common practice, no source.
    """
    fractions = tuple(exact(value, what) for value in values)
    if not fractions:
        raise NothingGiven(f"No figure was given for {what}: take at least one reading.")
    return fractions


def real(value: SupportsFloat, what: str = "the value") -> float:
    """The value as a finite binary number, for questions where no limit decides.

    Units: those of the value. Raises: BadFigure for NaN, infinities, texts, truth values, and what lies beyond 1e40 either way,
    so that squares can be held. Source: common practice, no source.
    """
    if isinstance(value, bool | str | bytes):
        raise BadFigure(f"{what} must be a number, not {type(value).__name__}: read the figure first.")
    try:
        number = float(value)
    except (OverflowError, TypeError, ValueError) as trouble:
        raise BadFigure(f"{what} is not a usable number: type it again.") from trouble
    if not math.isfinite(number):
        raise BadFigure(f"{what} is not a finite number: read it again.")
    if abs(number) > GREATEST:
        raise BadFigure(f"{what} is too large to be a measurement: type it again.")
    return number


def real_positive(value: SupportsFloat, what: str = "the value") -> float:
    """The value as a finite binary number above zero.

    Units: those of the value. Raises: BadFigure as `real`, for zero and below, and for less than 1e-40, whose square would
    vanish. Source: common practice, no source.
    """
    number = real(value, what)
    if number <= 0:
        raise BadFigure(f"{what} must be above zero: read it again.")
    if number < 1 / GREATEST:
        raise BadFigure(f"{what} is too small to be a measurement: type it again.")
    return number


def real_not_negative(value: SupportsFloat, what: str = "the value") -> float:
    """The value as a finite binary number of zero or more.

    Units: those of the value. Raises: BadFigure as `real`, and below zero. Source: common practice, no source.
    """
    number = real(value, what)
    if number < 0:
        raise BadFigure(f"{what} must not be negative: read it again.")
    return number


def real_all(values: Iterable[SupportsFloat], what: str = "the values", at_least: int = 1) -> tuple[float, ...]:
    """Every value as a finite binary number, at least so many.

    Units: those of the values. Shape: any length from `at_least`. Raises: NothingGiven when there are too few, BadFigure as
    `real`. Source: common practice, no source.
    """
    whole_number(at_least, "the fewest values", 0, MOST_VALUES)
    numbers = tuple(real(value, what) for value in values)
    if len(numbers) < at_least:
        raise NothingGiven(f"{what}: {len(numbers)} given, at least {at_least} needed.")
    return numbers


def whole_number(value: int, what: str, least: int, most: int) -> int:
    """A count or a whole number of something, from the least to the most that means anything.

    Units: those of the value. Raises: BadFigure for anything but a whole number between the two. Source: common practice, no
    source.
    """
    check_whole((least, most))
    if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
        raise BadFigure(f"{what} is a whole number from {least} to {most}: count again.")
    return value


def check_whole(values: Iterable[int | None]) -> None:
    """Refuse whole numbers at a scale that are none, or too long to mean anything. None is a limit that does not exist.

    Units: any one scale. Shape: any length. Raises: BadFigure for numbers of another kind and for more than LONGEST bits.
    Source: common practice, no source.
    """
    for value in values:
        if value is not None and (value.__class__ is not int or value.bit_length() > LONGEST):
            raise BadFigure("What is decided exactly is a whole number of a length that means something: read it again.")


def ordered(low: Exact | None, high: Exact | None, what: str = "the limits") -> tuple[Fraction | None, Fraction | None]:
    """A least and a greatest value, either of which may be missing.

    Units: those of the limits. Raises: BadLimits when the least lies above the greatest, BadFigure as `exact`.
    Source: common practice, no source.
    """
    least = None if low is None else exact(low, what)
    greatest = None if high is None else exact(high, what)
    if least is not None and greatest is not None and least > greatest:
        raise BadLimits(f"{what} are reversed: {least} is above {greatest}. Check them against the page.")
    return least, greatest


def same_length(first: Sequence[object], second: Sequence[object], what: str) -> None:
    """Refuse two series that do not belong together.

    Units: none. Shape: two series of one length. Raises: MixedDimensions when the lengths differ. Source: common practice, no
    source.
    """
    if len(first) != len(second):
        raise MixedDimensions(f"{what}: {len(first)} and {len(second)} values do not belong together. Take the missing ones.")
