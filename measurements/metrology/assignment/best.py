"""The assignment with the greatest smallest margin, and among those the least spread of margins."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from scipy.optimize import linear_sum_assignment

from measurements.metrology.assignment.matching import Shortage, matching, shortage
from measurements.metrology.assignment.table import Margins, Scaled, scaled
from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure

EXACT_IN_BINARY = 2**53  # every whole number up to here is a float, so sums that stay below are exact


@dataclass(frozen=True)
class Assignment(Checked):
    """The part for each place, by index, with the smallest and greatest margin in the unit of the table."""

    parts: tuple[int, ...]
    smallest: Fraction
    greatest: Fraction

    @property
    def spread(self) -> Fraction:
        """Greatest less smallest margin."""
        return self.greatest - self.smallest


def best_assignment(margins: Margins) -> Assignment | Shortage:
    """A part for every place so that the smallest margin is as great as can be, then the spread as little as can be.

    A margin of None is a pair that may not be; parts may be left over. Where the places cannot all be filled, the answer is a
    shortage that names the places and the too few parts that fit them.
    Units: those of the margins. Shape: places by parts, at least one of each. Raises: NothingGiven, MixedDimensions, BadFigure.
    Source: bottleneck assignment by thresholds (Burkard, Dell'Amico and Martello, *Assignment Problems*, from memory).
    """
    table = scaled(margins)
    steps = sorted({cell for row in table.rows for cell in row if cell is not None})
    lacking = shortage(_between(table, None, None))
    if lacking is not None:
        return lacking
    least = steps[_last(lambda index: matching(_between(table, steps[index], None)) is not None, len(steps))]
    down = [step for step in reversed(steps) if step >= least]
    most = down[_last(lambda index: matching(_between(table, least, down[index])) is not None, len(down))]
    parts = matching(_between(table, least, most)) or ()
    return Assignment(parts, Fraction(least, table.base), Fraction(most, table.base))


def least_total(costs: Margins) -> tuple[tuple[int, ...], Fraction] | Shortage:
    """A part for every place so that the sum of the figures is least, and that sum; or the shortage.

    Units: those of the costs. Shape: places by parts, at least one of each. Raises: NothingGiven, MixedDimensions, BadFigure also
    for figures so fine beside their size that their sums would not be exact in floating point.
    Source: linear sum assignment, by SciPy, on whole numbers.
    """
    table = scaled(costs, "the costs")
    lacking = shortage(_between(table, None, None))
    if lacking is not None:
        return lacking
    present = [cell for row in table.rows for cell in row if cell is not None]
    span = max(present) - min(present)
    closed = span * len(table.rows) + 1  # dearer than any full assignment without it
    if 2 * len(table.rows) * closed >= EXACT_IN_BINARY:
        raise BadFigure("The figures have too many digits to be added up exactly: give them to fewer decimals.")
    shifted = [[closed if cell is None else cell - min(present) for cell in row] for row in table.rows]
    parts = tuple(int(part) for part in linear_sum_assignment(np.array(shifted, dtype=np.float64))[1])
    total = sum(table.rows[place][part] or 0 for place, part in enumerate(parts))
    return parts, Fraction(total, table.base)


def _between(table: Scaled, low: int | None, high: int | None) -> Sequence[Sequence[bool]]:
    return [
        [cell is not None and (low is None or cell >= low) and (high is None or cell <= high) for cell in row]
        for row in table.rows
    ]


def _last(holds: Callable[[int], bool], count: int) -> int:
    """The last index at which a condition holds that holds at the first and, once it fails, fails on."""
    good, bad = 0, count
    while bad - good > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if holds(middle) else (good, middle)
    return good
