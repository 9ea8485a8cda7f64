"""What pages, papers and the API read of a sheet. Every line comes from the kept files, whose hashes are checked."""

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from django.db.models import Q, QuerySet

from measurements.judge import LimitRow, read_limits
from measurements.readings.models import Sheet
from measurements.readings.strips import Strip, strip_of
from shopfloor.documents.files import read
from shopfloor.people.models import Person
from shopfloor.people.queries import sees_customer, sees_every_customer

UNDECIDED = Q(too_close_to_call__gt=0) | Q(not_judged__gt=0)


@dataclass(frozen=True)
class Line:
    """One verdict as it is shown: the figures as text in the limit row's unit, and how they lie in the limits."""

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


def visible_sheets(person: Person) -> QuerySet[Sheet]:
    sheets = Sheet.objects.select_related("customer", "judged_by")
    return sheets if sees_every_customer(person) else sheets.filter(customer__isnull=False, customer=person.customer_id)


def sheet_visible_to(person: Person, sheet_id: str) -> bool:
    sheet = Sheet.objects.filter(pk=sheet_id).only("customer_id").first()
    return sheet is not None and sees_customer(person, sheet.customer_id)


def sheets_to_look_at(person: Person) -> QuerySet[Sheet]:
    """Sheets with a verdict that is not decided or not good."""
    return visible_sheets(person).filter(UNDECIDED | Q(outside_limits__gt=0))


def lines(sheet: Sheet, *, verdict: str = "") -> Iterator[Line]:
    limits = {row.row: row for row in read_limits(_text(sheet.limits_file), sheet.limits_name)}
    readings = csv.DictReader(_text(sheet.readings_file))
    for out in csv.DictReader(_text(sheet.verdicts_file)):
        row = limits[out["row"]]
        reading = None if row.is_fit else next(readings)
        if not verdict or out["verdict"] == verdict:
            yield _line(row, out, reading)


def page_of_lines(sheet: Sheet, *, verdict: str, page: int, size: int) -> tuple[list[Line], bool]:
    """The lines of one page, and whether another follows."""
    found = list(islice(lines(sheet, verdict=verdict), (page - 1) * size, page * size + 1))
    return found[:size], len(found) > size


def page_number(text: str | None) -> int:
    """What a page parameter asks for; anything that is no page is the first."""
    return int(text) if text and text.isascii() and text.isdigit() and 0 < int(text) < 10_000 else 1


def _line(row: LimitRow, out: dict[str, str], reading: dict[str, str] | None) -> Line:
    given, u = "", ""
    if reading:
        given = f"{' '.join(reading['values'].split())} {reading['unit'].strip()}"
        u = reading["expanded_u"].strip()
    return Line(
        row=row,
        position=out["position"],
        given=f"{given}, U {u}" if u else given,
        minimum=out["minimum"],
        maximum=out["maximum"],
        mean=out["mean"],
        verdict=out["verdict"],
        conformity=out["conformity"],
        reason=out["reason"],
        strip=strip_of(row, out["minimum"], out["maximum"], out["verdict"]),
    )


def _text(file) -> io.StringIO:  # type: ignore[no-untyped-def]
    return io.StringIO(read(file).decode("utf-8-sig"), newline="")
