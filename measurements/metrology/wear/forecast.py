"""Rate of wear with its interval, the value to be expected at the next overhaul, and how likely it is still serviceable."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from scipy.stats import norm
from scipy.stats import t as t_distribution

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NothingGiven
from measurements.metrology.figures import Exact, exact, ordered
from measurements.metrology.regression import Interval, checked_coverage, line
from measurements.metrology.wear.history import Point


@dataclass(frozen=True)
class Estimate(Checked, not_negative=("error",), positive=("degrees",), endless=("degrees",)):
    """A rate or a value, exact, with its standard error and the degrees of freedom behind that; infinite where it was stated.

    In the unit of the readings, a rate per hour. `error` is None where nothing says how far it may be off.
    """

    value: Fraction
    error: float | None
    degrees: float = math.inf


def wear_rate(points: Sequence[Point]) -> Estimate:
    """How fast the value changes, signed.

    Two points: their difference over the hours between, uncertain by what the two readings are. Three and more: the least-squares
    line; its scatter is never taken for less than the stated uncertainty of the readings.

    Units: unit of the readings per hour. Shape: points in the order of their hours, at least two. Raises: NothingGiven for fewer.
    Source: JCGM 100, 5.1.2; least squares (Montgomery, Peck and Vining, 2.2 to 2.4); TM 55-1905-220-14-4, 3-6 (5).
    """
    _enough(points)
    if len(points) == 2:
        hours = points[1].hours - points[0].hours
        return Estimate((points[1].value - points[0].value) / hours, _root(points, (1 / hours, 1 / hours)))
    found = line([point.hours for point in points], [point.value for point in points])
    scatter = _scatter(points, found.residual_squares / found.degrees)
    return Estimate(found.slope, None if scatter is None else math.sqrt(scatter / found.spread_x), found.degrees)


def value_at(points: Sequence[Point], hours: Exact) -> Estimate:
    """The reading to be expected at hours run, if the part goes on wearing as it did.

    Its error is that of a reading yet to be taken: of the line there, and of the reading itself (as the latest one's).

    Units: hours in, unit of the readings out. Shape: as `wear_rate`. Raises: as `wear_rate`; BadFigure for hours before the last
    visit. Source: as `wear_rate`; prediction of a new observation, Montgomery, Peck and Vining, equation 2.45.
    """
    _enough(points)
    then, last = exact(hours, "the hours of the next overhaul"), points[-1]
    if then < last.hours:
        raise BadFigure("The next overhaul lies before the last visit: check the hours.")
    if len(points) == 2:
        rate = wear_rate(points)
        reach = (then - last.hours) / (last.hours - points[0].hours)
        return Estimate(last.value + rate.value * (then - last.hours), _root((*points, last), (reach, 1 + reach, Fraction(1))))
    found = line([point.hours for point in points], [point.value for point in points])
    scatter = _scatter(points, found.residual_squares / found.degrees)
    share = 1 + Fraction(1, found.count) + (then - found.mean_x) ** 2 / found.spread_x
    return Estimate(found.at(then), None if scatter is None else math.sqrt(scatter * share), found.degrees)


def interval_of(estimate: Estimate, coverage: float = 0.95) -> Interval:
    """An estimate with its interval.

    Units: those of the estimate; coverage between 0 and 1. Raises: NothingGiven when no error is known, BadFigure.
    Source: normal distribution where the uncertainty was stated, Student's t where it was found from the scatter.
    """
    tail = (1 + checked_coverage(coverage)) / 2
    error = _known(estimate)
    factor = norm.ppf(tail) if math.isinf(estimate.degrees) else t_distribution.ppf(tail, estimate.degrees)
    return Interval(
        float(estimate.value) - float(factor) * error, float(estimate.value), float(estimate.value) + float(factor) * error
    )


def probability_within(estimate: Estimate, low: Exact | None, high: Exact | None) -> float:
    """Probability that the expected reading lies within limits: that a part which wears one way stays serviceable until then.

    Units: those of the estimate; a probability. Raises: NothingGiven without a limit or when no error is known, BadLimits,
    BadFigure. Source: as `interval_of`; JCGM 106, 7 (probability of conformity).
    """
    least, greatest = ordered(low, high)
    if least is None and greatest is None:
        raise NothingGiven("No limit is given: serviceable means within one.")
    error = _known(estimate)
    if error == 0:
        return float((least is None or estimate.value >= least) and (greatest is None or estimate.value <= greatest))
    below = 1.0 if greatest is None else _chance(float(greatest - estimate.value), error, estimate.degrees)
    under = 0.0 if least is None else _chance(float(least - estimate.value), error, estimate.degrees)
    return max(0.0, below - under)


def _chance(room: float, error: float, degrees: float) -> float:
    return float(norm.cdf(room / error) if math.isinf(degrees) else t_distribution.cdf(room / error, degrees))


def _known(estimate: Estimate) -> float:
    if estimate.error is None:
        raise NothingGiven("Nothing says how far this may be off: state the uncertainty of the readings.")
    return estimate.error


def _root(points: Sequence[Point], shares: Sequence[Fraction]) -> float | None:
    parts = [(share * point.standard) ** 2 for point, share in zip(points, shares, strict=True) if point.standard is not None]
    return math.sqrt(sum(parts, Fraction())) if len(parts) == len(points) else None


def _scatter(points: Sequence[Point], found: Fraction) -> Fraction | None:
    """The greater of the scatter found and the stated uncertainty, squared; None where points lie on the line for no reason."""
    stated = [point.standard**2 for point in points if point.standard is not None]
    mean = sum(stated, Fraction()) / len(stated) if stated else Fraction()
    return max(found, mean) or (Fraction() if len(stated) == len(points) else None)


def _enough(points: Sequence[Point]) -> None:
    if len(points) < 2:
        raise NothingGiven("One visit shows no wear: a rate needs two since the last rework.")
