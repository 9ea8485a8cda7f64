"""ASTM E29: significant digits, rounding, and the two methods of holding a value against a limit.

A limit that cites E29 says something only together with the method, absolute or rounding.
"""

from decimal import Decimal
from fractions import Fraction

from measurements.metrology.errors import BadFigure, NoAnswer
from measurements.metrology.figures import Exact, exact, exact_positive, ordered
from measurements.metrology.numbers import PLAIN_DECIMAL, mantissa_and_places, places_of
from measurements.metrology.rounding import divide_half_even

MOST_PLACES = 30


def rounded(value: Exact, step: Exact) -> Fraction:
    """The multiple of a step nearest the value, a tie to the even multiple: 1225 to fifties is 1200, 0.00025 to 0.0001 is 0.0002.

    Units: one unit for both. Raises: BadFigure for a step of zero or below, or as `figures.exact`.
    Source: ASTM E29, rounding procedure (from memory).
    """
    width = exact_positive(step, "the step")
    multiples = exact(value) / width
    return divide_half_even(multiples.numerator, multiples.denominator) * width


def rounded_to_places(value: Exact, places: int) -> Fraction:
    """The value to so many decimals, a tie to the even digit.

    Units: that of the value. Raises: BadFigure for places that are not whole or lie outside -30 to 30, or as `figures.exact`.
    Source: ASTM E29, rounding procedure (from memory).
    """
    if isinstance(places, bool) or not isinstance(places, int) or abs(places) > MOST_PLACES:
        raise BadFigure(f"The number of decimals is whole, at most {MOST_PLACES}.")
    return rounded(value, Fraction(10) ** -places)


def rounded_to_digits(value: Exact, digits: int) -> Fraction:
    """The value to so many significant digits, a tie to the even digit: 140 499 to three is 140 000.

    Units: that of the value. Raises: BadFigure for digits that are not whole or lie outside 1 to 30, or as `figures.exact`.
    Source: ASTM E29, rounding procedure (from memory).
    """
    if isinstance(digits, bool) or not isinstance(digits, int) or not 1 <= digits <= MOST_PLACES:
        raise BadFigure(f"The number of significant digits is whole, from 1 to {MOST_PLACES}.")
    fraction = exact(value)
    if fraction == 0:
        return fraction
    size = abs(fraction)
    first = len(str(size.numerator)) - len(str(size.denominator))
    if size < Fraction(10) ** first:
        first -= 1
    return rounded(fraction, Fraction(10) ** (first + 1 - digits))


def significant_digits(typed: str) -> int:
    """How many digits of a figure, as typed, mean something: `1270.` and `32.00` have four, `0.0021` has two.

    Units: none. Raises: NotANumber for what is no plain decimal; NoAnswer for a whole number that ends in zeros without a
    point, because nobody can say, and for zero. Source: ASTM E29, 3.1.
    """
    mantissa_and_places(typed)
    match = PLAIN_DECIMAL.fullmatch(typed)
    digits = (match[2] + match[3]).lstrip("0") if match else ""
    if not digits:
        raise NoAnswer("Zero has no significant digit: say to which decimal it was read.")
    if digits.endswith("0") and "." not in typed:
        least = len(digits.rstrip("0"))
        raise NoAnswer(f"“{typed}” may have {least} to {len(digits)} significant digits: write it with a point if all count.")
    return len(digits)


def absolute_method(value: Exact, low: Exact | None, high: Exact | None) -> bool:
    """Whether an unrounded value keeps within limits: any deviation outside, however small, fails.

    Units: one unit throughout. Raises: BadLimits for reversed limits, BadFigure. Source: ASTM E29, absolute method.
    """
    least, greatest = ordered(low, high)
    given = exact(value)
    return (least is None or given >= least) and (greatest is None or given <= greatest)


def rounding_method(value: Exact, low: Decimal | None, high: Decimal | None, places: int | None = None) -> bool:
    """Whether a value keeps within limits after rounding to the last place that the limits are written with, or to `places`.

    Units: one unit throughout. Raises: BadLimits for reversed limits, NoAnswer without limits and places, BadFigure for limits
    that are no decimals. Source: ASTM E29, rounding method.
    """
    written = [limit for limit in (low, high) if limit is not None]
    if places is None:
        if not written:
            raise NoAnswer("Without a limit there is no last place to round to: give the places.")
        if not all(isinstance(limit, Decimal) for limit in written):
            raise BadFigure("A limit for the rounding method is a decimal as written: its last place says how to round.")
        ordered(low, high)
        places = max(places_of(limit) for limit in written)
    return absolute_method(rounded_to_places(value, places), low, high)
