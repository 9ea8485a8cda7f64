"""A single reading as a page shows it."""

from dataclasses import dataclass
from decimal import ROUND_UP, Decimal
from fractions import Fraction

from measurements.limits.exact import exact
from measurements.metrology.limits import LimitRow
from measurements.metrology.units import ratio
from measurements.readings.models import Reading
from measurements.readings.strips import Strip, strip_of
from measurements.readings.wording import probability, shown


@dataclass(frozen=True)
class Shown:
    """`read` and `mean` in the row's unit, a fit with L or T; `typed` as it was entered."""

    read: str
    mean: str
    typed: str
    expanded_u: str
    probability: str
    strip: Strip


def figures(reading: Reading) -> Shown:
    """Costs no query where the row is loaded."""
    row = exact(reading.row)
    return Shown(
        read=f"{_ends(reading, row)} {row.unit}",
        mean=f"{shown(reading.mean, row)} {row.unit}",
        typed=f"{' '.join(value for _, _, value in reading.points)} {reading.unit}" if reading.points else "",
        expanded_u=f"{_quoted(reading.expanded_u)} {reading.unit}" if reading.expanded_u else "",
        probability=probability(reading.conformity),
        strip=strip_of(row, reading.minimum, reading.maximum, reading.verdict, _u(reading, row)),
    )


def _ends(reading: Reading, row: LimitRow) -> str:
    return " to ".join(dict.fromkeys(shown(figure, row) for figure in (reading.minimum, reading.maximum)))


def _quoted(expanded_u: str) -> str:
    """With two significant digits and rounded up, JCGM 100, 7.2.6; what is kept and decided with has more."""
    figure = Decimal(expanded_u)
    return f"{figure.quantize(Decimal(1).scaleb(figure.adjusted() - 1), ROUND_UP):f}"


def _u(reading: Reading, row: LimitRow) -> Fraction | None:
    return Fraction(reading.expanded_u) * ratio(reading.unit, row.unit) if reading.expanded_u else None
