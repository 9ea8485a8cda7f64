"""The expanded uncertainty of a reading, kept squared so that it stays exact."""

from fractions import Fraction
from math import isqrt

from measurements.metrology.numbers import plain
from measurements.metrology.units import ratio

DIGITS = 4


def gauge_u_squared(expanded_u: str, resolution: str, gauge_unit: str, unit: str) -> Fraction:
    """U² in the square of `unit`, from the calibration's U at k = 2 and the resolution, both in the gauge's unit.

    A value known to one step r is spread evenly over it: standard uncertainty r/√12, so at k = 2 its square is
    (2·r/√12)² = r²/3 (JCGM 100, F.2.2.1); independent parts add in squares (JCGM 100, 5.1.2). Raises UnknownUnit and
    OtherDimension.
    """
    calibration, step = Fraction(expanded_u), Fraction(resolution)
    return (calibration * calibration + step * step / 3) * ratio(gauge_unit, unit) ** 2


def root_text(squared: Fraction) -> str:
    """U for the eye from U²: four digits, rounded up so that it is never understated; blank for 0, which is *not stated*."""
    if not squared:
        return ""
    places = DIGITS
    while squared * 100**places < 100 ** (DIGITS - 1):
        places += 1
    while places and squared * 100 ** (places - 1) >= 100 ** (DIGITS - 1):
        places -= 1
    scaled = squared * 100**places
    root = isqrt(scaled.numerator // scaled.denominator)
    return plain(root if root * root == scaled else root + 1, places)
