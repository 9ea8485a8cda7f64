"""Linearity: whether the bias of a gauge changes along its range."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from scipy.stats import t as t_distribution

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NoAnswer, NothingGiven
from measurements.metrology.figures import Exact, exact, exact_all
from measurements.metrology.regression import Interval, Line, height_interval, line


@dataclass(frozen=True)
class Linearity(Checked):
    """The line of bias on reference size, and the average bias at each reference; all in the unit of the readings."""

    line: Line
    biases: tuple[tuple[Fraction, Fraction], ...]

    def __post_init__(self) -> None:
        super().__post_init__()
        if not self.biases or any(len(each) != 2 for each in self.biases):
            raise NothingGiven("A linearity needs the bias at each reference: measure at least two.")

    @property
    def t_of_slope(self) -> float:
        """Slope over its standard error: far from zero, the gauge is not linear."""
        return float(self.line.slope) / self.line.slope_error

    @property
    def t_of_intercept(self) -> float:
        """Intercept over its standard error."""
        return float(self.line.intercept) / self.line.intercept_error

    @property
    def probability_of_slope(self) -> float:
        """How often a linear gauge would show such a slope or a steeper one."""
        return 2 * float(t_distribution.sf(abs(self.t_of_slope), self.line.degrees))

    @property
    def average_bias(self) -> Fraction:
        """Average bias over the references, equally weighted."""
        return sum((bias for _, bias in self.biases), Fraction()) / len(self.biases)


def linearity(readings: Mapping[Exact, Sequence[Exact]]) -> Linearity:
    """A study of linearity: parts of known size along the range, each read several times.

    Units: one unit throughout. Shape: reference size to its readings, at least two references and three readings in all.
    Raises: NothingGiven, NoAnswer for one reference only or for readings that all lie on the line, BadFigure.
    Source: AIAG MSA, linearity study (from memory); NIST/SEMATECH e-Handbook 2.4.5.2.
    """
    points = [(exact(size, "the reference"), exact_all(values, "the readings")) for size, values in readings.items()]
    sizes = [size for size, values in points for _ in values]
    found = line(sizes, [value - size for size, values in points for value in values])
    if found.residual_squares == 0:
        raise NoAnswer("Every reading lies on the line: take a finer gauge, or see whether readings were copied.")
    return Linearity(found, tuple((size, sum(values, Fraction()) / len(values) - size) for size, values in points))


def bias_at(found: Linearity, size: Exact, coverage: float = 0.95) -> Interval:
    """The bias that the line gives at a size, with its interval of confidence.

    Units: the unit of the readings; coverage between 0 and 1. Raises: BadFigure. Source: AIAG MSA, confidence band (from memory).
    """
    return height_interval(found.line, size, coverage)


def percent_linearity(found: Linearity) -> float:
    """The change of bias over a span, as a percentage of that span: a hundred times the slope without its sign.

    Units: percent. Raises: nothing. Source: AIAG MSA, 2nd edition (from memory).
    """
    return 100 * math.fabs(found.line.slope)
