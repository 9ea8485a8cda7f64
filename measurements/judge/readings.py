"""Judging a sheet of readings line by line, in the order it was written."""

from collections.abc import Container, Iterator
from functools import lru_cache
from typing import NamedTuple, TextIO

from measurements.judge.bad_input import BadInput
from measurements.judge.lines import Answer, Line, Wording, judged
from measurements.judge.mates import Mate, MateLists
from measurements.judge.records import records
from measurements.judge.scales import Scale, Typed, scale_for
from measurements.metrology.errors import MeasureError
from measurements.metrology.limits import LimitRow
from measurements.metrology.numbers import mantissa_and_places
from measurements.metrology.units import ratio

KEPT_ANSWERS = 4096
COLUMNS = ("row", "position", "values", "unit", "expanded_u")


def read_readings(readings: TextIO, readings_name: str) -> Iterator[list[str]]:
    """The fields of each reading as typed, in the order of COLUMNS. Raises BadInput."""
    for _, fields in records(readings, readings_name, COLUMNS):
        yield fields


class UnusableReading(MeasureError):
    """A line of the sheet says something the judge cannot use."""


class RowInUnit:
    """One row of the table read in one unit, with a scale for each fineness of figures that occurs."""

    def __init__(self, row: LimitRow, unit: str, wording: Wording, is_mate: bool) -> None:
        ratio(unit, row.unit)
        self.row, self.unit, self.wording, self.is_mate = row, unit, wording, is_mate
        self._scales: dict[tuple[int, int], Scale] = {}

    def scale(self, places: int, u_places: int) -> Scale:
        scale = self._scales.get((places, u_places))
        if scale is None:
            scale = self._scales[places, u_places] = scale_for(self.row, [Typed(self.unit, places, u_places)])
        return scale


class Judged(NamedTuple):
    """A reading without its position: the row, what is said of it, and what a fit must know of it."""

    row: str
    answer: Answer
    mate: Mate | None


class Sheet:
    """The judge of one sheet: the table it judges by, and the rows whose readings a fit needs."""

    def __init__(self, table: dict[str, LimitRow], wordings: dict[str, Wording], named: Container[str]) -> None:
        self._table, self._wordings, self._named = table, wordings, named
        self._rows_in_units: dict[tuple[str, str], RowInUnit] = {}
        # gauges read in steps, so the same text comes again and again on one row
        self._judged_before = lru_cache(maxsize=KEPT_ANSWERS)(self._judged)

    def lines(self, readings: TextIO, readings_name: str, mates: MateLists) -> Iterator[Line]:
        """A line of the answer for each reading; those that a fit needs are added to `mates`.

        Raises BadInput with the line that cannot be judged.
        """
        for line, (row, position, values, unit, u) in records(readings, readings_name, COLUMNS):
            try:
                judged = self._judged_before(row, values, unit, u)
            except MeasureError as error:
                raise BadInput(readings_name, line, str(error)) from error
            position = position.strip()
            name, answer, mate = judged
            if mate:
                mates.add(name, position, mate)
            yield name, position, answer

    def _judged(self, row: str, typed_values: str, unit: str, typed_u: str) -> Judged:
        read = self._rows_in_units.get((row, unit)) or self._row_in_unit(row.strip(), unit.strip())
        values, places = values_of(typed_values)
        u, u_places = uncertainty_of(typed_u)
        scale = read.scale(places, u_places)
        factor = scale.values[0]
        typed_least = typed_greatest = total = values[0]
        if len(values) > 1:
            typed_least, typed_greatest, total = min(values), max(values), sum(values)
        least, greatest = typed_least * factor, typed_greatest * factor
        judgement, conformity = judged(scale.held, least, greatest, (u * scale.uncertainties[0]) ** 2 if u else 0)
        minimum = scale.text(least)
        answer = Answer(
            minimum,
            minimum if least == greatest else scale.text(greatest),
            scale.mean_text(total * factor, len(values)),
            judgement.verdict,
            conformity,
            read.wording.of(judgement.reasons),
        )
        mate = Mate(scale.typed[0], typed_least, typed_greatest, u) if read.is_mate else None
        return Judged(read.row.row, answer, mate)

    def _row_in_unit(self, row: str, unit: str) -> RowInUnit:
        if row not in self._table:
            raise UnusableReading(f"row “{row[:60]}” is not in the limit table")
        if self._table[row].is_fit:
            raise UnusableReading(f"row “{row}” is a fit: it is computed from its mates, never read")
        if (row, unit) not in self._rows_in_units:
            self._rows_in_units[row, unit] = RowInUnit(self._table[row], unit, self._wordings[row], row in self._named)
        return self._rows_in_units[row, unit]


def values_of(text: str) -> tuple[list[int], int]:
    """The values of a reading, separated by spaces, as whole numbers over ten to the decimals of the finest, and those.

    Raises MeasureError.
    """
    typed = text.split()
    if len(typed) == 1:
        mantissa, places = mantissa_and_places(typed[0])
        return [mantissa], places
    numbers = [mantissa_and_places(each) for each in typed]
    if not numbers:
        raise UnusableReading("there is no value: write what was read, or leave the line out")
    finest = max([places for _, places in numbers])
    return [mantissa * 10 ** (finest - places) for mantissa, places in numbers], finest


@lru_cache(maxsize=4096)
def uncertainty_of(text: str) -> tuple[int, int]:
    """The expanded uncertainty as a whole number over ten to so many decimals, (0, 0) where not stated. Raises MeasureError."""
    text = text.strip()
    if not text:
        return 0, 0
    mantissa, places = mantissa_and_places(text)
    if mantissa < 0:
        raise UnusableReading(f"expanded_u {text} is negative: write U at k = 2, or leave it blank")
    return (mantissa, places) if mantissa else (0, 0)
