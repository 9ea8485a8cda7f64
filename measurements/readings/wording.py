"""Figures as a person reads them. The kept files hold them in full; nothing here is judged."""

from decimal import ROUND_HALF_EVEN, Decimal

from measurements.metrology.limits import LimitRow
from measurements.readings.strips import figure_text

FURTHER_PLACES = 2
LEAST = Decimal("0.0001")


def shown(figure: str, row: LimitRow) -> str:
    """A figure of the row, cut to two places more than its limits have; `about` says that something was cut."""
    if not figure:
        return ""
    exact = Decimal(figure)
    places = max(row.places + FURTHER_PLACES, 4)
    if -int(exact.as_tuple().exponent) <= places:
        return figure_text(figure, row)
    cut = exact.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_EVEN)
    return f"about {figure_text(f'{cut:f}', row)}"


def probability(figure: str) -> str:
    """A probability in four places; its ends are named, since none is ever quite 0 or 1."""
    if not figure:
        return ""
    exact = Decimal(figure)
    if exact < LEAST:
        return f"below {LEAST}"
    return f"above {1 - LEAST}" if exact > 1 - LEAST else f"{exact:.4f}"
