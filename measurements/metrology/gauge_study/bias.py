"""Bias: how far the average of many readings of one known part lies from what the part is."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from scipy.stats import t as t_distribution

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NoAnswer, NothingGiven
from measurements.metrology.figures import Exact, exact, exact_all, exact_not_negative
from measurements.metrology.regression import Interval, checked_coverage


@dataclass(frozen=True)
class Bias(Checked, positive=("deviation", "standard_error", "degrees")):
    """Average and bias (exact), repeatability and standard error of the bias, in the unit of the readings."""

    average: Fraction
    bias: Fraction
    deviation: float
    standard_error: float
    degrees: float

    @property
    def t(self) -> float:
        """Bias over its standard error."""
        return float(self.bias) / self.standard_error

    @property
    def probability(self) -> float:
        """How often a gauge without bias would show one as far from zero or further."""
        return 2 * float(t_distribution.sf(abs(self.t), self.degrees))


def bias(readings: Sequence[Exact], reference: Exact, repeatability: Exact | None = None, degrees: Exact | None = None) -> Bias:
    """The bias of a gauge on a part of known size.

    Repeatability is the standard deviation of these readings, unless a study of repeatability states one with its degrees of
    freedom.

    Units: one unit throughout. Shape: at least two readings. Raises: NothingGiven for fewer, or for a repeatability without its
    degrees of freedom; NoAnswer when no reading differs, BadFigure. Source: AIAG MSA, independent sample method (from memory).
    """
    values, known = exact_all(readings, "the readings"), exact(reference, "the reference")
    if len(values) < 2:
        raise NothingGiven("One reading shows no scatter: take at least two, better ten or more.")
    average = sum(values, Fraction()) / len(values)
    if repeatability is None:
        deviation = math.sqrt(sum(((value - average) ** 2 for value in values), Fraction()) / (len(values) - 1))
        freedom = float(len(values) - 1)
    else:
        if degrees is None:
            raise NothingGiven("A repeatability comes with its degrees of freedom: take them from the same study.")
        deviation = float(exact_not_negative(repeatability, "the repeatability"))
        freedom = float(exact_not_negative(degrees, "the degrees of freedom"))
    if deviation == 0 or freedom == 0:
        raise NoAnswer("No reading differs from another: take a finer gauge, or see whether readings were copied.")
    return Bias(average, average - known, deviation, deviation / math.sqrt(len(values)), freedom)


def bias_interval(found: Bias, coverage: float = 0.95) -> Interval:
    """The bias with its interval of confidence; a gauge whose interval holds zero shows no bias.

    Units: the unit of the readings; coverage between 0 and 1. Raises: BadFigure. Source: Student's t; AIAG MSA (from memory).
    """
    half = float(t_distribution.ppf((1 + checked_coverage(coverage)) / 2, found.degrees)) * found.standard_error
    return Interval(float(found.bias) - half, float(found.bias), float(found.bias) + half)
