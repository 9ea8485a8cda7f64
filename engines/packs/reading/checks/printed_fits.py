"""A printed fit against what the limits of its mates can give: tightest is least outer less greatest inner."""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from engines.packs.reading.checks.ranges import one_row_in_force
from engines.packs.reading.draft import Draft, Limit
from engines.packs.reading.mistakes import LIMITS, Mistake, quoted
from measurements.limits.serials import overlap
from measurements.metrology.limits import LimitRow
from measurements.metrology.numbers import places_of, plain_ratio
from measurements.metrology.units import DIMENSION_OF, ratio

HALF = Fraction(1, 2)


def printed_fits_follow_from_parts(draft: Draft) -> Iterator[Mistake]:
    """Only where all four limits of the mates stand, and the fit is not of chosen planes.

    Where two rows are in force at once, nobody knows which of them the fit is made of.
    """
    if any(one_row_in_force(draft)):
        return
    for line, limit in draft.limits:
        if limit.is_fit and not limit.fields["outer_planes"] and not limit.fields["inner_planes"]:
            for outer, inner in _mates(draft, limit):
                yield from _compared(line, limit, outer, inner)


def _mates(draft: Draft, fit: Limit) -> Iterator[tuple[LimitRow, LimitRow]]:
    """The mates of one size class, each in force for a serial that the fit is in force for."""
    others = {each.entry.size_class for each in draft.rows[fit.row]} - {fit.size_class}
    for outer in _variants(draft, fit, "outer_row"):
        for inner in _variants(draft, fit, "inner_row"):
            paired = outer.size_class == inner.size_class and overlap(outer.serials, inner.serials)
            if paired and outer.size_class not in others and outer.exact and inner.exact:
                yield outer.exact, inner.exact


def _variants(draft: Draft, fit: Limit, column: str) -> list[Limit]:
    rows = [placed.entry for placed in draft.rows.get(fit.fields[column], [])]
    return [row for row in rows if row.is_read and _meets(fit, row)]


def _meets(fit: Limit, row: Limit) -> bool:
    return fit.size_class in ("", row.size_class) and overlap(row.serials, fit.serials)


def _compared(line: int, limit: Limit, outer: LimitRow, inner: LimitRow) -> Iterator[Mistake]:
    fit = limit.exact
    if fit is None or len({DIMENSION_OF[row.unit] for row in (fit, outer, inner)}) > 1:
        return
    if None in (outer.new_min, outer.new_max, inner.new_min, inner.new_max):
        return
    for name, printed, big, small in (
        ("new_min", fit.new_min, outer.new_min, inner.new_max),
        ("new_max", fit.new_max, outer.new_max, inner.new_min),
    ):
        if printed is not None and big is not None and small is not None:
            given = _in(outer, fit, big) - _in(inner, fit, small)
            step = max(_step(printed), _step(big) * ratio(outer.unit, fit.unit), _step(small) * ratio(inner.unit, fit.unit))
            if abs(given - Fraction(printed)) > HALF * step:
                shown = plain_ratio(given.numerator, given.denominator)
                wrong = f"{name} {printed:f} of fit {quoted(fit.row)}, but its mates give {shown} {fit.unit}"
                yield Mistake(LIMITS, line, wrong, f"compare {outer.row}, {inner.row} and the fit with their pages")


def _in(row: LimitRow, fit: LimitRow, figure: Decimal) -> Fraction:
    return Fraction(figure) * ratio(row.unit, fit.unit)


def _step(figure: Decimal) -> Fraction:
    """One unit of the last digit."""
    return Fraction(10) ** -places_of(figure)
