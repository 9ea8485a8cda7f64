"""Numbers as people type them, kept exactly: an integer and a count of decimals, never a float."""

import re
from decimal import Decimal
from fractions import Fraction
from math import gcd, isfinite

from measurements.metrology.errors import BadFigure, NotANumber
from measurements.metrology.figures import MOST_BITS, check_whole, exact
from measurements.metrology.rounding import divide_half_even

MOST_DIGITS = 30
SIGNIFICANT = 15
RULE_FRACTION = re.compile(r"(?:([0-9]{1,4})[- ])?([0-9]{1,4})/([0-9]{1,4})")
PLAIN_DECIMAL = re.compile(r"([+-]?)([0-9]*)\.?([0-9]*)")


def mantissa_and_places(text: str) -> tuple[int, int]:
    """`2.4990` -> (24990, 4): the number is the first over ten to the second.

    Units: none. Raises: NotANumber for anything but plain decimal notation of at most MOST_DIGITS digits: fractions, exponents,
    thousands separators, NaN, infinity and digits of other scripts are refused. Source: common practice, no source.
    """
    whole, _, decimals = text.partition(".")
    digits = whole + decimals
    if digits.isdigit() and digits.isascii() and len(digits) <= MOST_DIGITS:
        return int(digits), len(decimals)
    return _signed(text)


def _signed(text: str) -> tuple[int, int]:
    match = PLAIN_DECIMAL.fullmatch(text)
    digits = match[2] + match[3] if match else ""
    if not match or not digits:
        raise NotANumber(f"“{text[:40]}” is not a number: write it in plain decimals, such as 2.1235{_in_decimals(text)}")
    if len(digits) > MOST_DIGITS:
        raise NotANumber(f"“{text[:40]}…” has {len(digits)} digits, more than {MOST_DIGITS}: check the figure")
    return int(match[1] + digits), len(match[3])


def _in_decimals(text: str) -> str:
    """What to write for a fraction of the inch rule, where its decimals end."""
    match = RULE_FRACTION.fullmatch(text)
    if not match or not int(match[3]):
        return ""
    value = int(match[1] or 0) + Fraction(int(match[2]), int(match[3]))
    ends = _ending(value.denominator)[1] == 1
    return f" (here {plain_ratio(value.numerator, value.denominator)})" if ends else ""


def read_number(text: str) -> Decimal:
    """The number as typed, decimals kept: `2.4990` stays four places.

    Units: none. Raises: NotANumber, as `mantissa_and_places`. Source: common practice, no source.
    """
    mantissa, places = mantissa_and_places(text)
    sign, digits = int(mantissa < 0), tuple(map(int, str(abs(mantissa))))
    return Decimal((sign, digits, -places))


def places_of(number: Decimal) -> int:
    """How many decimals a number read by `read_number` was typed with.

    Units: none. Raises: BadFigure for NaN and infinities, which have none. Source: ASTM E29 (the last place written).
    """
    if not isinstance(number, Decimal):
        raise BadFigure("Only a decimal as typed says how many places it has: read it with `read_number`.")
    exact(number, "the number")
    return -int(number.as_tuple().exponent)


def plain(mantissa: int, places: int) -> str:
    """mantissa over ten to the places, in plain notation with exactly that many decimals: (24990, 4) -> `2.4990`.

    Units: none. Raises: BadFigure for anything but whole numbers of a sensible length and places from zero.
    Source: common practice, no source.
    """
    check_whole((mantissa, places))
    if not 0 <= places <= MOST_BITS:
        raise BadFigure("The number of decimals is a whole number from zero: check it.")
    if not places:
        return str(mantissa)
    if mantissa < 0:
        return "-" + plain(-mantissa, places)
    digits = str(mantissa)
    if len(digits) <= places:
        digits = digits.zfill(places + 1)
    return f"{digits[:-places]}.{digits[-places:]}"


def plain_ratio(numerator: int, denominator: int) -> str:
    """The ratio in plain notation: exact where it ends, else at least SIGNIFICANT significant digits, half to even.

    Units: none; whole numbers. Raises: BadFigure for a denominator of zero or below. Source: ASTM E29, rounding procedure.
    """
    check_whole((numerator, denominator))
    if denominator <= 0:
        raise BadFigure("Nothing can be divided into zero or fewer parts: check the figure.")
    divisor = gcd(numerator, denominator)
    numerator, denominator = numerator // divisor, denominator // divisor
    places, rest = _ending(denominator)
    if rest == 1:
        return plain(numerator * 10**places // denominator, places)
    places = max(0, SIGNIFICANT - len(str(abs(numerator))) + len(str(denominator)))
    return plain(divide_half_even(numerator * 10**places, denominator), places)


def _ending(denominator: int) -> tuple[int, int]:
    twos = fives = 0
    while denominator % 2 == 0:
        denominator, twos = denominator // 2, twos + 1
    while denominator % 5 == 0:
        denominator, fives = denominator // 5, fives + 1
    return max(twos, fives), denominator


def plain_float(number: float) -> str:
    """A float in plain notation with every digit it holds: 1e-07 -> `0.0000001`.

    Units: none. Raises: BadFigure for NaN and infinities. Source: common practice, no source.
    """
    if not isinstance(number, float) or not isfinite(number):
        raise BadFigure("The number is not finite: read it again.")
    text = repr(number)
    return f"{Decimal(text):f}" if "e" in text else text.removesuffix(".0")
