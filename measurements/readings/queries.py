"""What pages, papers and the API read of a sheet. Every line comes from the kept files, whose hashes are checked."""

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice

from django.db.models import Q, QuerySet

from measurements.judge import read_limits, read_readings
from measurements.metrology.limits import LimitRow
from measurements.metrology.units import ratio
from measurements.readings.models import Sheet
from measurements.readings.strips import Strip, strip_of
from measurements.readings.wording import probability, shown
from shopfloor.documents.files import read
from shopfloor.documents.models import StoredFile
from shopfloor.documents.tables import csv_bytes
from shopfloor.people.models import Person
from shopfloor.people.queries import of_customers_seen_by

UNDECIDED = Q(too_close_to_call__gt=0) | Q(not_judged__gt=0)


@dataclass(frozen=True)
class Line:
    """One verdict: the figures as the judge wrote them, in the limit row's unit, and how they lie in the limits."""

    row: LimitRow
    position: str
    given: str
    minimum: str
    maximum: str
    mean: str
    verdict: str
    conformity: str
    reason: str
    strip: Strip

    @property
    def read(self) -> str:
        """The figures as a person reads them."""
        least, greatest = shown(self.minimum, self.row), shown(self.maximum, self.row)
        return least if least == greatest else f"{least} to {greatest}"

    @property
    def probability(self) -> str:
        return probability(self.conformity)


def visible_sheets(person: Person) -> QuerySet[Sheet]:
    return Sheet.objects.select_related("customer", "judged_by").filter(of_customers_seen_by(person))


def with_files(sheets: QuerySet[Sheet]) -> QuerySet[Sheet]:
    """Sheets whose lines will be read."""
    return sheets.select_related("limits_file", "readings_file", "verdicts_file")


def sheets_to_look_at(person: Person) -> QuerySet[Sheet]:
    """Sheets with a verdict that is not decided or not good."""
    return visible_sheets(person).filter(UNDECIDED | Q(outside_limits__gt=0))


def lines(sheet: Sheet, *, verdict: str = "") -> Iterator[Line]:
    limits = read_limits(_text(sheet.limits_file), sheet.limits_name, warn=lambda sentence: None)
    readings = read_readings(_text(sheet.readings_file), sheet.readings_name)
    for out in csv.DictReader(_text(sheet.verdicts_file)):
        row = limits[out["row"]]
        reading = None if row.is_fit else next(readings)
        if not verdict or out["verdict"] == verdict:
            yield _line(row, out, reading)


def page_of_lines(sheet: Sheet, *, verdict: str, page: int, size: int) -> tuple[list[Line], bool]:
    """The lines of one page, and whether another follows."""
    found = list(islice(lines(sheet, verdict=verdict), (page - 1) * size, page * size + 1))
    return found[:size], len(found) > size


def spreadsheet(sheet: Sheet) -> bytes:
    """The verdicts for a spreadsheet, which must not run what somebody typed as a position."""
    header, *rows = csv.reader(_text(sheet.verdicts_file))
    return csv_bytes(header, rows)


def page_number(text: str | None) -> int:
    """What a page parameter asks for; anything that is no page is the first."""
    return int(text) if text and text.isascii() and text.isdigit() and 0 < int(text) < 10_000 else 1


def _line(row: LimitRow, out: dict[str, str], reading: list[str] | None) -> Line:
    given, u = _given(row, reading) if reading else ("", None)
    return Line(
        row=row,
        position=out["position"],
        given=given,
        minimum=out["minimum"],
        maximum=out["maximum"],
        mean=out["mean"],
        verdict=out["verdict"],
        conformity=out["conformity"],
        reason=out["reason"],
        strip=strip_of(row, out["minimum"], out["maximum"], out["verdict"], u),
    )


def _given(row: LimitRow, reading: list[str]) -> tuple[str, Fraction | None]:
    """What was typed, and its expanded uncertainty in the row's unit."""
    _, _, values, unit, typed_u = map(str.strip, reading)
    given = f"{' '.join(values.split())} {unit}"
    if not typed_u or not Fraction(typed_u):
        return given, None
    return f"{given}, U {typed_u}", Fraction(typed_u) * ratio(unit, row.unit)


def _text(file: StoredFile) -> io.StringIO:
    return io.StringIO(read(file).decode("utf-8-sig"), newline="")
