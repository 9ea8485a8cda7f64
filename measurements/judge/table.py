"""Reading a limit table: each row checked as it is read, then the rows that name each other."""

from collections.abc import Callable
from decimal import Decimal
from typing import TextIO, TypeVar, get_args

from measurements.judge.bad_input import BadInput
from measurements.judge.records import records
from measurements.metrology.errors import MeasureError
from measurements.metrology.limits import LIMITS, Basis, LimitRow, Rule, Worn, check_order, disagreements
from measurements.metrology.numbers import MOST_DIGITS, read_number
from measurements.metrology.units import dimension_of, ratio

ALT_LIMITS = tuple(f"alt_{name}" for name in LIMITS)
REQUIRED = ("row", "part", "characteristic", "unit", *LIMITS)
OPTIONAL = ("worn", "rule", "basis", "decimals", "outer_row", "inner_row", "alt_unit", *ALT_LIMITS)
COLUMNS = REQUIRED + OPTIONAL
WORN: dict[str, Worn] = {"": "new", **{word: word for word in get_args(Worn)}}
RULES: dict[str, Rule] = {word: word for word in get_args(Rule)}
BASES: dict[str, Basis] = {"": "absolute", **{word: word for word in get_args(Basis)}}

Word = TypeVar("Word", bound=str)


class UnusableRow(MeasureError):
    """A row of the table says something the judge cannot use."""


def read_limits(limits: TextIO, limits_name: str, warn: Callable[[str], None]) -> dict[str, LimitRow]:
    """The rows by name, in table order, limits exact. Raises BadInput.

    `warn` receives one sentence with file and line for each row whose unit columns disagree.
    """
    rows: dict[str, LimitRow] = {}
    lines: dict[str, int] = {}
    for line, fields in records(limits, limits_name, REQUIRED, OPTIONAL):
        try:
            row = _row(dict(zip(COLUMNS, map(str.strip, fields), strict=True)))
        except MeasureError as error:
            raise BadInput(limits_name, line, str(error)) from error
        if row.row in rows:
            raise BadInput(limits_name, line, f"row “{row.row}” is listed twice, first on line {lines[row.row]}: keep one")
        rows[row.row], lines[row.row] = row, line
        if sentences := disagreements(row):
            warn(f"{limits_name}:{line}: row “{row.row}”: columns disagree: {'; '.join(sentences)}")
    for row in filter(lambda row: row.is_fit, rows.values()):
        try:
            _check_mates(row, rows)
        except MeasureError as error:
            raise BadInput(limits_name, lines[row.row], str(error)) from error
    return rows


def _row(typed: dict[str, str]) -> LimitRow:
    if not typed["row"]:
        raise UnusableRow("the row has no name: fill in the column row")
    row = LimitRow(
        row=typed["row"],
        part=typed["part"],
        characteristic=typed["characteristic"],
        unit=typed["unit"],
        worn=_word(typed, "worn", WORN),
        rule=_word(typed, "rule", RULES),
        basis=_word(typed, "basis", BASES),
        decimals=_decimals(typed),
        outer_row=typed["outer_row"],
        inner_row=typed["inner_row"],
        alt_unit=typed["alt_unit"],
        **{name: _limit(typed, name) for name in (*LIMITS, *ALT_LIMITS)},
    )
    _check_units(row)
    check_order(row)
    if row.basis == "rounding" and row.decimals is None:
        raise UnusableRow("basis is rounding, but decimals is blank: say how many to round to")
    if bool(row.outer_row) != bool(row.inner_row):
        raise UnusableRow("a fit needs both mates: fill in outer_row and inner_row, or neither")
    return row


def _limit(typed: dict[str, str], name: str) -> Decimal | None:
    if not typed[name]:
        return None
    try:
        return read_number(typed[name])
    except MeasureError as error:
        raise UnusableRow(f"{name}: {error}") from error


def _word(typed: dict[str, str], name: str, words: dict[str, Word]) -> Word:
    if typed[name] not in words:
        raise UnusableRow(f"{name} “{typed[name][:20]}” is not known: use {' or '.join(filter(None, words))}, or leave it blank")
    return words[typed[name]]


def _decimals(typed: dict[str, str]) -> int | None:
    text = typed["decimals"]
    if not text:
        return None
    if not (text.isascii() and text.isdigit() and len(text) <= 2 and int(text) <= MOST_DIGITS):
        raise UnusableRow(f"decimals “{text[:20]}” is not a whole number from 0 to {MOST_DIGITS}")
    return int(text)


def _check_units(row: LimitRow) -> None:
    dimension_of(row.unit)
    if row.alt_unit:
        ratio(row.alt_unit, row.unit)
    elif any(limit is not None for limit in row.alt_limits):
        raise UnusableRow("there are limits in the second unit, but alt_unit is blank: name the unit")


def _check_mates(fit: LimitRow, rows: dict[str, LimitRow]) -> None:
    for column, name in (("outer_row", fit.outer_row), ("inner_row", fit.inner_row)):
        mate = rows.get(name)
        if mate is None:
            raise UnusableRow(f"{column} names “{name}”, and no row has that name")
        if mate.is_fit:
            raise UnusableRow(f"{column} names “{name}”, which is itself a fit: name a row that is read")
        ratio(mate.unit, fit.unit)
    if fit.outer_row == fit.inner_row:
        raise UnusableRow(f"outer_row and inner_row are both “{fit.outer_row}”: a fit is between two rows")
