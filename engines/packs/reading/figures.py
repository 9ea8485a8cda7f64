"""The figures and units of one limit row, made exact; whatever cannot be used is noted."""

from decimal import Decimal
from typing import Any

from engines.packs.reading.mistakes import quoted
from engines.packs.reading.tables import Cells
from measurements.metrology.errors import MeasureError, ReversedLimits
from measurements.metrology.limits import LIMITS, LimitRow, check_order, disagreements
from measurements.metrology.numbers import MOST_DIGITS, read_number
from measurements.metrology.units import DIMENSION_OF

ALT_LIMITS = tuple(f"alt_{name}" for name in LIMITS)


def exact_row(fields: dict[str, Any], cells: Cells) -> LimitRow | None:
    """The row as the computation wants it; None where it cannot be made."""
    before = len(cells.notes)
    figures = {name: _figure(fields[name], name, cells) for name in (*LIMITS, *ALT_LIMITS)}
    _check_units(fields, cells)
    if fields["basis"] == "rounding" and fields["decimals"] is None:
        cells.say("decimals", "basis is rounding, but decimals is blank", "say how many decimals to round to")
    if len(cells.notes) > before:
        return None
    taken = {name: fields[name] for name in ("row", "part", "characteristic", "unit", "worn", "rule", "basis", "decimals")}
    mates = {name: fields[name] for name in ("outer_row", "inner_row", "alt_unit")}
    row = LimitRow(**taken, **mates, **figures)  # type: ignore[arg-type]
    _check_figures(row, cells)
    return row if len(cells.notes) == before else None


def decimals_of(cells: Cells) -> int | None:
    text = cells.typed("decimals")
    if not text:
        return None
    if text.isascii() and text.isdigit() and len(text) <= 2 and int(text) <= MOST_DIGITS:
        return int(text)
    cells.say("decimals", f"decimals {quoted(text)} is no count", f"write a whole number from 0 to {MOST_DIGITS}")
    return None


def unlike(unit: str, other: str) -> bool:
    """Whether two known units measure different things; an unknown one was noted where it stands."""
    return len({DIMENSION_OF[each] for each in (unit, other) if each in DIMENSION_OF}) > 1


def _figure(text: str, name: str, cells: Cells) -> Decimal | None:
    try:
        return read_number(text) if text else None
    except MeasureError:
        cells.say(name, f"{name} {quoted(text)} is no number", "write it in plain decimals, such as 2.1235")
        return None


def _check_units(fields: dict[str, Any], cells: Cells) -> None:
    unit, alt_unit = fields["unit"], fields["alt_unit"]
    for name, given in (("unit", unit), ("alt_unit", alt_unit)):
        if given not in DIMENSION_OF and (given or name == "unit"):
            cells.say(name, f"{name} {quoted(given)} is not known", f"use one of {', '.join(DIMENSION_OF)}")
    if unlike(unit, alt_unit):
        measures = f"{unit} measures {DIMENSION_OF[unit]} and {alt_unit} measures {DIMENSION_OF[alt_unit]}"
        cells.say("alt_unit", measures, f"give both columns in units of {DIMENSION_OF[unit]}")
    if not alt_unit and any(fields[name] for name in ALT_LIMITS):
        cells.say("alt_unit", "there are limits in a second unit, but alt_unit is blank", "name the second unit")


def _check_figures(row: LimitRow, cells: Cells) -> None:
    try:
        check_order(row)
    except ReversedLimits as error:
        wrong = str(error).partition("; ")[0]
        cells.say("new_min", wrong, "service_min, new_min, new_max, service_max rise in this order")
    for sentence in disagreements(row):
        cells.say("alt_unit", f"the columns disagree: {sentence}", "correct the figure that is not what the page says")
