"""Repeatability and reproducibility by averages and ranges: the way that works with pencil and paper."""

import math
from fractions import Fraction

from measurements.metrology.charts.constants import control_constants, mean_range_divisor
from measurements.metrology.gauge_study.result import StudyResult
from measurements.metrology.gauge_study.study import Study

MANY_RANGES = 15  # above, the manual divides by d2 itself


def by_average_and_range(given: Study) -> StudyResult:
    """Repeatability and reproducibility from the ranges of the trials, the averages of the appraisers and of the parts.

    Units: the unit of the readings. Shape: as `study`. Raises: BadFigure for more than 100 trials, appraisers or parts.
    Source: AIAG MSA, 4th edition (from memory); K1, K2 and K3 by integration.
    """
    cells = [cell for row in given.readings for cell in row]
    mean_range = sum((max(cell) - min(cell) for cell in cells), Fraction()) / len(cells)
    divisor = control_constants(given.trials).d2 if len(cells) > MANY_RANGES else mean_range_divisor(given.trials, len(cells))
    repeatability = float(mean_range) / divisor
    appraisers = [_mean([value for cell in row for value in cell]) for row in given.readings]
    parts = [_mean([value for cell in column for value in cell]) for column in zip(*given.readings, strict=True)]
    raw = _spread(appraisers)
    squared = raw * raw - repeatability * repeatability / (given.parts * given.trials)
    return StudyResult(repeatability, math.sqrt(max(squared, 0.0)), 0.0, _spread(parts))


def _spread(averages: list[Fraction]) -> float:
    return float(max(averages) - min(averages)) / mean_range_divisor(len(averages), 1)


def _mean(values: list[Fraction]) -> Fraction:
    return sum(values, Fraction()) / len(values)
