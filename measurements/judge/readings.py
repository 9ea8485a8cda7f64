"""Judging a sheet of readings line by line, in the order it was written."""

from collections.abc import Container, Iterator, Sequence
from functools import lru_cache
from typing import TextIO

from measurements.judge.bad_input import BadInput
from measurements.judge.ends import Way
from measurements.judge.lines import Wording, written
from measurements.judge.mates import MateLists
from measurements.judge.records import records
from measurements.judge.scales import Scale, Typed, scale_for
from measurements.metrology.errors import MeasureError
from measurements.metrology.limits import LimitRow
from measurements.metrology.numbers import mantissa_and_places
from measurements.metrology.units import ratio

KEPT = 65_536
COLUMNS = ("row", "position", "values", "unit", "expanded_u")


def read_readings(readings: TextIO, readings_name: str) -> Iterator[list[str]]:
    """The fields of each reading as typed, in the order of COLUMNS. Raises BadInput."""
    for _, fields in records(readings, readings_name, COLUMNS):
        yield fields


class UnusableReading(MeasureError):
    """A line of the sheet says something the judge cannot use."""


class RowInUnit:
    """One row of the table read in one unit, with a way for each fineness of figures and each uncertainty that occurs."""

    def __init__(self, row: LimitRow, unit: str, wording: Wording, is_mate: bool) -> None:
        ratio(unit, row.unit)
        self.row, self.unit, self.wording, self.is_mate = row, unit, wording, is_mate
        self.written = written(row.row)
        self.ways: dict[tuple[int, str], Way] = {}
        self._scales: dict[tuple[int, int], Scale] = {}

    def way(self, places: int, typed_u: str) -> Way:
        """How it was read: values to so many decimals, with that uncertainty. Raises MeasureError."""
        u, u_places = uncertainty_of(typed_u)
        scale = self._scales.get((places, u_places))
        if scale is None:
            scale = self._scales[places, u_places] = scale_for(self.row, [Typed(self.unit, places, u_places)])
        way = self.ways[places, typed_u] = Way(scale, u, self.wording)
        return way


class Sheet:
    """The judge of one sheet: the table it judges by, and the rows whose readings a fit needs."""

    def __init__(self, table: dict[str, LimitRow], wordings: dict[str, Wording], named: Container[str]) -> None:
        self._table, self._wordings, self._named = table, wordings, named
        self._rows_in_units: dict[tuple[str, str], RowInUnit] = {}

    def lines(self, readings: TextIO, readings_name: str, mates: MateLists) -> Iterator[tuple[str, str]]:
        """The verdict and the line of the answer for each reading; those that a fit needs are added to `mates`.

        Raises BadInput with the line that cannot be judged.
        """
        self._forget()
        rows = self._rows_in_units
        for line, (row, position, values, unit, u) in records(readings, readings_name, COLUMNS):
            try:
                read = rows.get((row, unit)) or self._row_in_unit(row.strip(), unit.strip())
                typed, places = values_of(values)
                way = read.ways.get((places, u)) or read.way(places, u)
            except MeasureError as error:
                raise BadInput(readings_name, line, str(error)) from error
            position, in_order = position.strip(), sorted(typed)
            if read.is_mate:
                mates.add(read.row.row, position, way.typed, in_order[0], in_order[-1], way.u)
            verdict, said = way.said(in_order)
            yield verdict, f"{read.written},{written(position)},{said}\n"

    def _forget(self) -> None:
        """What was found stays from block to block as long as memory is not the price."""
        if sum(way.kept for read in self._rows_in_units.values() for way in read.ways.values()) > KEPT:
            self._rows_in_units.clear()

    def _row_in_unit(self, row: str, unit: str) -> RowInUnit:
        if row not in self._table:
            raise UnusableReading(f"row “{row[:60]}” is not in the limit table")
        if self._table[row].is_fit:
            raise UnusableReading(f"row “{row}” is a fit: it is computed from its mates, never read")
        if (row, unit) not in self._rows_in_units:
            self._rows_in_units[row, unit] = RowInUnit(self._table[row], unit, self._wordings[row], row in self._named)
        return self._rows_in_units[row, unit]


number_of = lru_cache(KEPT)(mantissa_and_places)


def values_of(text: str) -> tuple[Sequence[int], int]:
    """The values of a reading, separated by spaces, as whole numbers over ten to the decimals of the finest, and those.

    Raises MeasureError.
    """
    typed = text.split()
    if len(typed) == 1:
        mantissa, finest = number_of(typed[0])
        return (mantissa,), finest
    if not typed:
        raise UnusableReading("there is no value: write what was read, or leave the line out")
    mantissas, places = zip(*map(number_of, typed), strict=True)
    finest = places[0]
    if places.count(finest) < len(places):
        finest = max(places)
        mantissas = tuple([each * 10 ** (finest - decimals) for each, decimals in zip(mantissas, places, strict=True)])
    return mantissas, finest


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
