"""Charts of averages with ranges or standard deviations, and of individual readings with moving ranges."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import fmean, stdev
from typing import SupportsFloat

from measurements.metrology.charts.constants import control_constants
from measurements.metrology.checked import Checked
from measurements.metrology.errors import MixedDimensions, NothingGiven
from measurements.metrology.figures import real_all


@dataclass(frozen=True)
class ControlLimits(Checked, in_order=(("lower", "upper"),)):
    """Lower limit, centre line and upper limit, in the unit of the readings."""

    lower: float
    centre: float
    upper: float


@dataclass(frozen=True)
class Chart(Checked, not_negative=("sigma",)):
    """Limits for the location and for the spread, and sigma as the chart estimates it; in the unit of the readings."""

    location: ControlLimits
    spread: ControlLimits
    sigma: float


@dataclass(frozen=True)
class Beyond(Checked):
    """Positions, from zero, of points outside the limits of the location and of the spread."""

    location: tuple[int, ...]
    spread: tuple[int, ...]


def averages_and_ranges(subgroups: Sequence[Sequence[SupportsFloat]]) -> Chart:
    """The chart of averages and ranges (X-bar and R).

    Units: one unit throughout. Shape: at least two subgroups, all of one size from 2 to 100. Raises: NothingGiven,
    MixedDimensions for different sizes, BadFigure. Source: Shewhart charts, ISO 7870-2 (from memory).
    """
    groups = _groups(subgroups)
    found = control_constants(len(groups[0]))
    mean, width = fmean(map(fmean, groups)), fmean(max(group) - min(group) for group in groups)
    half = found.a2 * width
    return Chart(
        ControlLimits(mean - half, mean, mean + half),
        ControlLimits(found.lower_range * width, width, found.upper_range * width),
        width / found.d2,
    )


def averages_and_deviations(subgroups: Sequence[Sequence[SupportsFloat]]) -> Chart:
    """The chart of averages and standard deviations (X-bar and s).

    Units: one unit throughout. Shape: as `averages_and_ranges`. Raises: as `averages_and_ranges`. Source: Shewhart charts,
    ISO 7870-2 (from memory).
    """
    groups = _groups(subgroups)
    found = control_constants(len(groups[0]))
    mean, scatter = fmean(map(fmean, groups)), fmean(map(stdev, groups))
    half = found.a3 * scatter
    return Chart(
        ControlLimits(mean - half, mean, mean + half),
        ControlLimits(found.lower_deviation * scatter, scatter, found.upper_deviation * scatter),
        scatter / found.c4,
    )


def individuals(readings: Sequence[SupportsFloat]) -> Chart:
    """The chart of individual readings with moving ranges of two.

    Units: one unit throughout. Shape: at least three readings, in the order they were taken. Raises: NothingGiven, BadFigure.
    Source: Shewhart charts, ISO 7870-2 (from memory).
    """
    values = real_all(readings, "the readings", at_least=3)
    found = control_constants(2)
    mean, width = fmean(values), fmean(moving_ranges(values))
    half = 3 * width / found.d2
    return Chart(
        ControlLimits(mean - half, mean, mean + half),
        ControlLimits(0.0, width, found.upper_range * width),
        width / found.d2,
    )


def moving_ranges(readings: Sequence[SupportsFloat]) -> tuple[float, ...]:
    """The difference, without its sign, of each reading from the one before.

    Units: the unit of the readings. Shape: at least two readings; one fewer comes back. Raises: NothingGiven, BadFigure.
    Source: definition.
    """
    return tuple(abs(after - before) for before, after in pairwise(real_all(readings, "the readings", at_least=2)))


def beyond_limits(chart: Chart, location: Sequence[SupportsFloat], spread: Sequence[SupportsFloat]) -> Beyond:
    """Which points lie outside the limits of a chart; a point on the limit is inside.

    Units: the unit of the chart. Shape: the points of the location and those of the spread, each of any length.
    Raises: BadFigure. Source: Shewhart charts, ISO 7870-2 (from memory).
    """
    return Beyond(_outside(chart.location, location), _outside(chart.spread, spread))


def _outside(limits: ControlLimits, points: Sequence[SupportsFloat]) -> tuple[int, ...]:
    values = real_all(points, "the points", at_least=0)
    return tuple(index for index, value in enumerate(values) if not limits.lower <= value <= limits.upper)


def _groups(subgroups: Sequence[Sequence[SupportsFloat]]) -> list[tuple[float, ...]]:
    groups = [real_all(group, "the readings of a subgroup", at_least=2) for group in subgroups]
    if len(groups) < 2:
        raise NothingGiven("A chart needs at least two subgroups: go on measuring.")
    if len({len(group) for group in groups}) > 1:
        raise MixedDimensions("Subgroups are of different sizes: the limits hold for one size. Take the missing readings.")
    return groups
