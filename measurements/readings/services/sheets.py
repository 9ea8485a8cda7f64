"""Judging a sheet: two files in, every verdict kept, one event in the ledger."""

import io
from dataclasses import dataclass
from datetime import datetime

from django.db import transaction

from measurements.judge import judge_files
from measurements.metrology.verdicts import Verdict
from measurements.readings.models import Sheet
from shopfloor.documents.files import store
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Customer, Person

MOST_LINES = 10_000
CSV = "text/csv"


class SheetRefused(Exception):
    """A file that cannot be judged; the sentence says what to do."""


@dataclass(frozen=True)
class Upload:
    name: str
    data: bytes


def judge_sheet(*, title: str, limits: Upload, readings: Upload, customer: Customer | None, by: Person, at: datetime) -> Sheet:
    """Raises BadInput (with file and line) or SheetRefused; then nothing is kept."""
    out, warnings = io.StringIO(newline=""), list[str]()
    counts = judge_files(text_of(limits), text_of(readings), out, limits.name, readings.name, warnings.append)
    with transaction.atomic():
        sheet = Sheet.objects.create(
            title=title,
            customer=customer,
            limits_file=store(limits.data, CSV),
            readings_file=store(readings.data, CSV),
            verdicts_file=store(out.getvalue().encode(), CSV),
            limits_name=limits.name,
            readings_name=readings.name,
            warnings=warnings,
            **{column(verdict): counts[verdict] for verdict in Verdict},
            judged_by=by,
            judged_at=at,
        )
        record(Entry(chain="measurements", kind="sheet.judged", of=sheet), by=by.pk, at=at)
    return sheet


def column(verdict: Verdict) -> str:
    return verdict.replace(" ", "_")


def text_of(upload: Upload) -> io.StringIO:
    try:
        text = upload.data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = upload.data[: error.start].count(b"\n") + 1
        raise SheetRefused(
            f"{upload.name}:{line}: this is not UTF-8 text. Save the sheet as CSV (UTF-8) and try again."
        ) from None
    if text.count("\n") > MOST_LINES:
        raise SheetRefused(
            f"{upload.name} has more than {MOST_LINES:,} lines. Split it, or run manage.py judge on it: that has no such limit."
        )
    return io.StringIO(text, newline="")
