"""A straight line through points, with what is known of its slope, its height and the next point."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from scipy.stats import t as t_distribution

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NoAnswer, NothingGiven
from measurements.metrology.figures import Exact, exact, exact_all, real, same_length


@dataclass(frozen=True)
class Interval(Checked, in_order=(("low", "high"),)):
    """Least, best and greatest value, in the unit of the answer."""

    low: float
    value: float
    high: float


@dataclass(frozen=True)
class Line(Checked, positive=("count", "spread_x"), not_negative=("residual_squares", "total_squares")):
    """y = intercept + slope x, with the residual standard deviation (unit of y) and what its intervals need.

    `slope` and `intercept` are exact, in y over x and in y; `residual_squares` in y squared.
    """

    slope: Fraction
    intercept: Fraction
    residual_squares: Fraction
    total_squares: Fraction
    count: int
    mean_x: Fraction
    spread_x: Fraction

    @property
    def degrees(self) -> int:
        """Degrees of freedom: points less two."""
        return self.count - 2

    @property
    def deviation(self) -> float:
        """Residual standard deviation, in the unit of y."""
        return math.sqrt(self.residual_squares / self.degrees)

    @property
    def slope_error(self) -> float:
        """Standard error of the slope, in y over x."""
        return math.sqrt(self.residual_squares / self.degrees / self.spread_x)

    @property
    def intercept_error(self) -> float:
        """Standard error of the intercept, in the unit of y."""
        return self._error(Fraction(), new=False)

    @property
    def r_squared(self) -> float:
        """Share of the variation of y that the line explains."""
        return float(1 - self.residual_squares / self.total_squares) if self.total_squares else 1.0

    def at(self, x: Exact) -> Fraction:
        """Height of the line at x, in the unit of y."""
        return self.intercept + self.slope * exact(x)

    def error_at(self, x: Exact) -> float:
        """Standard error of the line's height at x, in the unit of y."""
        return self._error(exact(x), new=False)

    def new_error_at(self, x: Exact) -> float:
        """Standard error of a new point at x: the line's and the point's own, in the unit of y."""
        return self._error(exact(x), new=True)

    def _error(self, x: Fraction, *, new: bool) -> float:
        share = Fraction(1, self.count) + (x - self.mean_x) ** 2 / self.spread_x + new
        return math.sqrt(self.residual_squares / self.degrees * share)


def line(x: Sequence[Exact], y: Sequence[Exact]) -> Line:
    """The least-squares line of y on x.

    Units: any two. Shape: two series of one length, at least three points. Raises: NothingGiven for fewer, MixedDimensions for
    different lengths, NoAnswer when every x is the same, BadFigure. Source: least squares, as NIST StRD certifies it.
    """
    same_length(x, y, "The two series of a line")
    if len(x) < 3:
        raise NothingGiven(f"{len(x)} points given, at least 3 needed: a line through two shows no scatter.")
    across, up = exact_all(x, "x"), exact_all(y, "y")
    mean_x, mean_y = sum(across, Fraction()) / len(across), sum(up, Fraction()) / len(up)
    spread = sum(((a - mean_x) ** 2 for a in across), Fraction())
    if spread == 0:
        raise NoAnswer("Every point lies at the same x: a slope needs points that lie apart.")
    total = sum(((b - mean_y) ** 2 for b in up), Fraction())
    product = sum(((a - mean_x) * (b - mean_y) for a, b in zip(across, up, strict=True)), Fraction())
    slope = product / spread
    return Line(slope, mean_y - slope * mean_x, total - slope * product, total, len(across), mean_x, spread)


def slope_interval(found: Line, coverage: float = 0.95) -> Interval:
    """The slope with its interval of confidence.

    Units: y over x; coverage between 0 and 1. Raises: BadFigure. Source: Student's t with n - 2 degrees of freedom.
    """
    return _interval(float(found.slope), found.slope_error, found.degrees, coverage)


def height_interval(found: Line, x: Exact, coverage: float = 0.95) -> Interval:
    """The height of the line at x with its interval of confidence.

    Units: the unit of y; coverage between 0 and 1. Raises: BadFigure. Source: Student's t with n - 2 degrees of freedom.
    """
    return _interval(float(found.at(x)), found.error_at(x), found.degrees, coverage)


def prediction_interval(found: Line, x: Exact, coverage: float = 0.95) -> Interval:
    """Where the next point at x will lie.

    Units: the unit of y; coverage between 0 and 1. Raises: BadFigure. Source: Student's t with n - 2 degrees of freedom;
    Montgomery, Peck and Vining, Introduction to Linear Regression Analysis, equation 2.45.
    """
    return _interval(float(found.at(x)), found.new_error_at(x), found.degrees, coverage)


def checked_coverage(coverage: float) -> float:
    """A probability of coverage.

    Units: none. Raises: BadFigure outside 0 to 1. Source: JCGM 100, 2.3.5 (from memory).
    """
    share = real(coverage, "the coverage")
    if not 0 < share < 1:
        raise BadFigure("Coverage is a probability between 0 and 1, such as 0.95.")
    return share


def _interval(value: float, error: float, degrees: int, coverage: float) -> Interval:
    half = float(t_distribution.ppf((1 + checked_coverage(coverage)) / 2, degrees)) * error
    return Interval(value - half, value, value + half)
