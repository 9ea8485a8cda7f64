"""How probable it is that the true value lies within the limits. Floats: this is shown beside a verdict, never decides one."""

from math import erfc, sqrt

from measurements.metrology.errors import BadFigure

LABEL = (
    "Least probability, over the single values (of a fit: its two ends), that the true value lies within the effective"
    " service limits: normal, u = U/2, flat prior, independent mates."
)


def least_conformity(least: int, greatest: int, low: int | None, high: int | None, u_squared: int) -> float | None:
    """The lesser of the probabilities of `least` and `greatest`; None where no uncertainty or no limit is stated.

    The probability falls off on either side of the middle of the limits, so no value between the two is less probable.
    Units: whole numbers at one scale of one unit; `u_squared` is the expanded uncertainty at k = 2, squared. Raises: nothing: the
    figures were checked where they were read. Source: JCGM 106, 7.2 to 7.4.
    """
    if not u_squared or (low is None and high is None):
        return None
    deviation = sqrt(u_squared) / 2
    lesser = conformity(least, low, high, deviation)
    return lesser if least == greatest else min(lesser, conformity(greatest, low, high, deviation))


def conformity(value: float, low: float | None, high: float | None, deviation: float) -> float:
    """Probability that a normal quantity about `value` lies from `low` to `high` (None: unlimited).

    Tails are subtracted on the side where they are small.

    Units: one unit and scale throughout; `deviation` is the standard uncertainty. Raises: BadFigure for a deviation that is not
    above zero. Source: JCGM 106, 7.2 to 7.4.
    """
    if not deviation > 0:
        raise BadFigure("A probability needs a standard uncertainty above zero: state it.")
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
