"""Exact values held against a row of limits: the bridge from rationals to the whole numbers the verdict is decided in."""

from collections.abc import Iterable
from math import lcm

from measurements.metrology.figures import Exact, exact_all, exact_not_negative
from measurements.metrology.limits import LimitRow, check_order, criterion
from measurements.metrology.verdicts import Judgement, judge


def hold(values: Iterable[Exact], row: LimitRow, expanded_uncertainty: Exact = 0) -> Judgement:
    """The verdict on computed values, decided exactly.

    Units: values and uncertainty (k = 2, zero is not stated) in the row's unit. Shape: at least one value. Raises:
    NothingGiven, BadFigure, ReversedLimits. Source: as `verdicts.judge`.
    """
    check_order(row)
    fractions = exact_all(values, row.characteristic or "the values")
    uncertainty = exact_not_negative(expanded_uncertainty, "the uncertainty")
    denominators = (fraction.denominator for fraction in (*fractions, uncertainty))
    scale = lcm(10**row.places, *denominators)
    least, greatest = min(fractions) * scale, max(fractions) * scale
    return judge(int(least), int(greatest), criterion(row, scale), int(uncertainty * scale) ** 2)
