"""A stored row as the computation wants it."""

from decimal import Decimal

from measurements.limits.models import LimitRow
from measurements.metrology import limits as metrology
from measurements.metrology.limits import LIMITS
from measurements.metrology.numbers import read_number


def exact(row: LimitRow) -> metrology.LimitRow:
    """The same row with its limits as exact numbers."""
    figures: dict[str, Decimal | None] = {
        name: read_number(getattr(row, name)) if getattr(row, name) else None
        for name in (*LIMITS, *(f"alt_{name}" for name in LIMITS))
    }
    return metrology.LimitRow(
        row=row.row,
        part=row.part,
        characteristic=row.characteristic,
        unit=row.unit,
        worn=row.worn,  # type: ignore[arg-type]
        rule=row.rule,  # type: ignore[arg-type]
        basis=row.basis,  # type: ignore[arg-type]
        decimals=row.decimals,
        outer_row=row.outer_row,
        inner_row=row.inner_row,
        alt_unit=row.alt_unit,
        **figures,
    )
