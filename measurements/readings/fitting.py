"""The fit of two mates from what was read on each, at the planes that its row names."""

from collections.abc import Sequence
from fractions import Fraction

from measurements.judge.lines import Answer
from measurements.metrology.limits import LimitRow
from measurements.readings.deriving import at_planes
from measurements.readings.judging import Read, answer, found


def judge_fit(
    row: LimitRow,
    outer: Read,
    inner: Read,
    outer_planes: Sequence[str] = (),
    inner_planes: Sequence[str] = (),
    not_permitted: str = "",
) -> Answer:
    """The verdict on the fit, tightest to loosest, positive loose; `not_permitted` says why the two may not be paired.

    A gauge that may not decide its mate does not decide the fit either. Raises MeasureError.
    """
    around, within = _values(outer, row.unit, outer_planes), _values(inner, row.unit, inner_planes)
    tightest, loosest = min(around) - max(within), max(around) - min(within)
    figures = found(row, [outer, inner], tightest, loosest, (tightest + loosest) / 2)
    barred = "; ".join(dict.fromkeys(filter(None, (not_permitted, outer.barred, inner.barred))))
    return answer(row, figures, fit_u_squared(outer, inner, row.unit), barred, [row.row])


def fit_u_squared(outer: Read, inner: Read, unit: str) -> Fraction:
    """U² of the fit in the square of `unit`, mates independent (JCGM 100, 5.1.2); 0 where either is not stated."""
    if not (outer.u_squared and inner.u_squared):
        return Fraction(0)
    return outer.u_squared_in(unit) + inner.u_squared_in(unit)


def _values(read: Read, unit: str, planes: Sequence[str]) -> list[Fraction]:
    return [value for plane in at_planes(read, unit, planes).values() for value in plane.values()]
