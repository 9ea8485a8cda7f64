"""Analysis of variance. Sums of squares are exact, so that no digit is lost to readings that lie close together."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from scipy.stats import f as f_distribution

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NoAnswer, NothingGiven
from measurements.metrology.figures import Exact, exact_all, real
from measurements.metrology.gauge_study.result import StudyResult
from measurements.metrology.gauge_study.study import Study


@dataclass(frozen=True)
class Source(Checked, positive=("degrees",), not_negative=("squares",)):
    """One line of the table: sum of squares (squared unit of the readings, exact) and degrees of freedom."""

    squares: Fraction
    degrees: int

    @property
    def mean_square(self) -> Fraction:
        """Sum of squares over degrees of freedom."""
        return self.squares / self.degrees


@dataclass(frozen=True)
class CrossedTable(Checked):
    """The table of a crossed study; `equipment` is what is left inside the cells."""

    appraiser: Source
    part: Source
    interaction: Source
    equipment: Source
    total: Source


@dataclass(frozen=True)
class OneWayTable(Checked):
    """Variation between groups and within them, with F; `deviation` is the residual standard deviation."""

    between: Source
    within: Source

    @property
    def f(self) -> Fraction:
        """Mean square between over mean square within."""
        return self.between.mean_square / self.within.mean_square

    @property
    def deviation(self) -> float:
        """Standard deviation within the groups, in the unit of the readings."""
        return math.sqrt(self.within.mean_square)

    @property
    def probability(self) -> float:
        """How often groups without any difference would give such an F or a greater one."""
        return float(f_distribution.sf(float(self.f), self.between.degrees, self.within.degrees))


def one_way(groups: Sequence[Sequence[Exact]]) -> OneWayTable:
    """Do several gauges (or persons, or days) read the same thing alike?

    Units: one unit throughout. Shape: at least two groups, each of any length from one, more readings than groups.
    Raises: NothingGiven for too few, NoAnswer when no group varies, BadFigure. Source: one-way analysis of variance, as NIST StRD
    certifies it.
    """
    columns = [exact_all(group, "the readings of a group") for group in groups]
    readings = [value for column in columns for value in column]
    if len(columns) < 2 or len(readings) <= len(columns):
        raise NothingGiven("Comparing needs at least two groups, and repeats in at least one: take more readings.")
    mean = _mean(readings)
    between = sum((len(column) * (_mean(column) - mean) ** 2 for column in columns), Fraction())
    within = sum(((value - _mean(column)) ** 2 for column in columns for value in column), Fraction())
    if within == 0:
        raise NoAnswer("No group varies within itself: take a finer gauge, or see whether readings were copied.")
    return OneWayTable(Source(between, len(columns) - 1), Source(within, len(readings) - len(columns)))


def crossed(given: Study) -> CrossedTable:
    """The table of a balanced study, appraiser by part with repeats.

    Units: squared unit of the readings. Shape: as `study`. Raises: nothing more than `study` did.
    Source: two-way analysis of variance with interaction; AIAG MSA, 4th edition, appendix A (from memory).
    """
    a, p, t = given.appraisers, given.parts, given.trials
    cells = [[_mean(cell) for cell in row] for row in given.readings]
    rows, columns = [_mean(row) for row in cells], [_mean(column) for column in zip(*cells, strict=True)]
    mean = _mean(rows)
    appraiser = p * t * sum(((row - mean) ** 2 for row in rows), Fraction())
    part = a * t * sum(((column - mean) ** 2 for column in columns), Fraction())
    values = [(value, cells[i][j]) for i, row in enumerate(given.readings) for j, cell in enumerate(row) for value in cell]
    equipment = sum(((value - cell) ** 2 for value, cell in values), Fraction())
    total = sum(((value - mean) ** 2 for value, _ in values), Fraction())
    return CrossedTable(
        Source(appraiser, a - 1),
        Source(part, p - 1),
        Source(total - appraiser - part - equipment, (a - 1) * (p - 1)),
        Source(equipment, a * p * (t - 1)),
        Source(total, given.count - 1),
    )


def interaction_probability(table: CrossedTable) -> float:
    """How often a study without interaction would show such a one or a greater: small means that it is real.

    Units: a probability. Raises: NoAnswer when no repeat differs. Source: F test of the interaction, AIAG MSA (from memory).
    """
    if table.equipment.squares == 0:
        raise NoAnswer("No repeat differs from another: take a finer gauge, or see whether readings were copied.")
    f = table.interaction.mean_square / table.equipment.mean_square
    return float(f_distribution.sf(float(f), table.interaction.degrees, table.equipment.degrees))


def by_variance(given: Study, pool_above: float = 0.05) -> StudyResult:
    """Repeatability and reproducibility by analysis of variance.

    The interaction is pooled with the equipment when its probability lies above `pool_above`. A component that comes out
    negative is none.

    Units: the unit of the readings; a probability. Shape: as `study`. Raises: NoAnswer when no repeat differs, BadFigure.
    Source: AIAG MSA, 4th edition, appendix A (from memory).
    """
    table = crossed(given)
    a, p, t = given.appraisers, given.parts, given.trials
    level = real(pool_above, "the probability to pool above")
    if not 0 <= level <= 1:
        raise BadFigure("The probability to pool above lies between 0 (always pool) and 1 (never).")
    pooled = interaction_probability(table) > level
    equipment, against = table.equipment.mean_square, table.interaction.mean_square
    if pooled:
        both = table.interaction.squares + table.equipment.squares
        equipment = against = both / (table.interaction.degrees + table.equipment.degrees)
    return StudyResult(
        repeatability=_deviation(equipment),
        reproducibility=_deviation((table.appraiser.mean_square - against) / (p * t)),
        interaction=_deviation((against - equipment) / t),
        part=_deviation((table.part.mean_square - against) / (a * t)),
    )


def _mean(values: Sequence[Fraction]) -> Fraction:
    return sum(values, Fraction()) / len(values)


def _deviation(variance: Fraction) -> float:
    return math.sqrt(max(variance, Fraction()))
