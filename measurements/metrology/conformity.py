"""How probable it is that the true value lies within the limits. Floats: this is shown beside a verdict, never decides one."""

from math import erfc, sqrt

from measurements.metrology.errors import BadFigure, BadLimits
from measurements.metrology.figures import check_whole, real, real_positive

LABEL = (
    "Least probability, over the single values (of a fit: its two ends), that the true value lies within the effective"
    " service limits: normal, u = U/2, flat prior, independent mates."
)


def least_conformity(least: int, greatest: int, low: int | None, high: int | None, u_squared: int) -> float | None:
    """The lesser of the probabilities of `least` and `greatest`; None where no uncertainty or no limit is stated.

    The probability falls off on either side of the middle of the limits, so no value between the two is less probable.
    Units: whole numbers at one scale of one unit; `u_squared` is the expanded uncertainty at k = 2, squared.
    Raises: BadFigure for anything but whole numbers, BadLimits for a least above a greatest. Source: JCGM 106, 7.2 to 7.4.
    """
    check_whole((least, greatest, low, high, u_squared))
    if least > greatest or u_squared < 0:
        raise BadLimits("The least value lies above the greatest, or an uncertainty is negative: read them again.")
    if not u_squared or (low is None and high is None):
        return None
    if low is not None and high is not None and low > high:
        raise BadLimits("The limits are reversed: check them against the page.")
    try:
        deviation = sqrt(u_squared) / 2
        lesser = _chance(least, low, high, deviation)
        return lesser if least == greatest else min(lesser, _chance(greatest, low, high, deviation))
    except OverflowError as trouble:
        raise BadFigure("The figures are too long to be a measurement: type them again.") from trouble


def conformity(value: float, low: float | None, high: float | None, deviation: float) -> float:
    """Probability that a normal quantity about `value` lies from `low` to `high` (None: unlimited).

    Tails are subtracted on the side where they are small.

    Units: one unit and scale throughout; `deviation` is the standard uncertainty. Raises: BadFigure for a deviation that is not
    above zero, BadLimits for reversed limits. Source: JCGM 106, 7.2 to 7.4.
    """
    real(value, "the value")
    real_positive(deviation, "the standard uncertainty")
    given = [real(limit, "a limit") for limit in (low, high) if limit is not None]
    if given != sorted(given):
        raise BadLimits("The limits are reversed: check them against the page.")
    return _chance(value, low, high, deviation)


def _chance(value: float, low: float | None, high: float | None, deviation: float) -> float:
    spread = deviation * sqrt(2)
    below = None if low is None else (value - low) / spread
    above = None if high is None else (high - value) / spread
    if below is None:
        return 1.0 if above is None else erfc(-above) / 2
    if above is None:
        return erfc(-below) / 2
    if above < 0:
        return (erfc(-above) - erfc(below)) / 2
    if below < 0:
        return (erfc(-below) - erfc(above)) / 2
    return 1 - (erfc(below) + erfc(above)) / 2
