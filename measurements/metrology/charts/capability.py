"""Capability of a process in control, performance of one that may not be: Cp and Cpk, Pp and Ppk, with intervals."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean, stdev
from typing import SupportsFloat

from scipy.stats import chi2, norm

from measurements.metrology.charts.constants import control_constants
from measurements.metrology.charts.subgroups import averages_and_ranges
from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadLimits, NoAnswer, NothingGiven
from measurements.metrology.figures import real, real_all, real_positive
from measurements.metrology.regression import Interval, checked_coverage


@dataclass(frozen=True)
class Capability(Checked, positive=("degrees",)):
    """Indices without unit. `width` (Cp, Pp) is None with one limit; `lower` and `upper` where that limit is missing.

    `degrees` are the degrees of freedom behind sigma, for the intervals.
    """

    width: float | None
    lower: float | None
    upper: float | None
    degrees: float

    @property
    def nearest(self) -> float:
        """Cpk or Ppk: the lesser of the two sides."""
        return min(side for side in (self.lower, self.upper) if side is not None)


def capability(
    mean: SupportsFloat, sigma: SupportsFloat, degrees: SupportsFloat, low: SupportsFloat | None, high: SupportsFloat | None
) -> Capability:
    """Indices from a mean and a sigma: short-term sigma gives Cp and Cpk, overall sigma gives Pp and Ppk.

    Units: one unit throughout; `degrees` of freedom behind sigma. Raises: NothingGiven without any limit, BadLimits for reversed
    or equal ones, BadFigure. Source: ISO 22514-2 (from memory).
    """
    centre, spread = real(mean, "the mean"), 3 * real_positive(sigma, "sigma")
    freedom = real_positive(degrees, "the degrees of freedom")
    least, greatest = (None if limit is None else real(limit, "a limit") for limit in (low, high))
    if least is None and greatest is None:
        raise NothingGiven("Capability is asked against a limit: give at least one.")
    if least is not None and greatest is not None and least >= greatest:
        raise BadLimits("The limits are reversed or equal: check them against the page.")
    return Capability(
        None if least is None or greatest is None else (greatest - least) / (2 * spread),
        None if least is None else (centre - least) / spread,
        None if greatest is None else (greatest - centre) / spread,
        freedom,
    )


def short_term(subgroups: Sequence[Sequence[SupportsFloat]], low: SupportsFloat | None, high: SupportsFloat | None) -> Capability:
    """Cp and Cpk of subgroups: sigma from the mean range.

    Units: one unit throughout. Shape: as `averages_and_ranges`. Raises: as `averages_and_ranges` and `capability`.
    Source: ISO 22514-2 (from memory); degrees of freedom of a mean range after Patnaik (from memory).
    """
    chart = averages_and_ranges(subgroups)
    found = control_constants(len(subgroups[0]))
    relative = (found.d3 / found.d2) ** 2 / len(subgroups)
    return capability(chart.location.centre, chart.sigma, 1 / (2 * relative) + 0.25, low, high)


def overall(readings: Sequence[SupportsFloat], low: SupportsFloat | None, high: SupportsFloat | None) -> Capability:
    """Pp and Ppk of readings: sigma is their standard deviation.

    Units: one unit throughout. Shape: at least two readings. Raises: NothingGiven, as `capability`. Source: ISO 22514-2 (from
    memory).
    """
    values = real_all(readings, "the readings", at_least=2)
    return capability(fmean(values), stdev(values), len(values) - 1, low, high)


def about_target(
    mean: SupportsFloat, sigma: SupportsFloat, low: SupportsFloat, high: SupportsFloat, target: SupportsFloat
) -> float:
    """Cpm: the width of the limits against the scatter about a target.

    Units: one unit throughout. Raises: BadLimits, BadFigure. Source: Chan, Cheng and Spiring 1988 (from memory).
    """
    found = capability(mean, sigma, 1, low, high)
    offset = (real(mean) - real(target, "the target")) / real_positive(sigma)
    return (found.width or 0.0) / math.hypot(1, offset)


def width_interval(found: Capability, coverage: float = 0.95) -> Interval:
    """Cp or Pp with its interval of confidence.

    Units: none; coverage between 0 and 1. Raises: NoAnswer with one limit only, BadFigure. Source: chi-squared interval of sigma.
    """
    if found.width is None:
        raise NoAnswer("With one limit only there is no width to compare: ask for the side that has a limit.")
    tail = (1 - checked_coverage(coverage)) / 2
    least, most = (math.sqrt(float(chi2.ppf(share, found.degrees)) / found.degrees) for share in (tail, 1 - tail))
    return Interval(found.width * least, found.width, found.width * most)


def nearest_interval(found: Capability, count: int, coverage: float = 0.95) -> Interval:
    """Cpk or Ppk with its interval of confidence, of so many readings.

    Units: none; coverage between 0 and 1. Raises: BadFigure for a count of zero and below. Source: Bissell 1990 (from memory).
    """
    z = float(norm.ppf((1 + checked_coverage(coverage)) / 2))
    value, readings = found.nearest, real_positive(count, "the number of readings")
    half = z * math.sqrt(1 / (9 * readings) + value * value / (2 * found.degrees))
    return Interval(value - half, value, value + half)
