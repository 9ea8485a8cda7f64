"""Keeping readings: written together, recorded in one act."""

from contextlib import nullcontext
from typing import Any

from django.db import IntegrityError, transaction

from measurements.readings.errors import CorrectedAlready
from measurements.readings.ledger import kind_of
from measurements.readings.models import Reading
from measurements.readings.services import drafts
from shopfloor.ledger.inserting import insert
from shopfloor.ledger.services import Entry, record

CHAIN = "measurements"


def take_reading(**fields: Any) -> Reading:
    """One reading, judged and kept; the fields are those of `drafts.reading`. Raises ReadingRefused."""
    draft = drafts.reading(**fields)
    with transaction.atomic():
        record(*write(draft), by=draft.taken_by_id, at=draft.received_at)
    return draft


def write(*readings: Reading) -> list[Entry]:
    """Keep drafts that belong together, within the caller's transaction; it records the entries with its own. Raises
    CorrectedAlready, and then nothing of these was written.
    """
    corrected = [reading.corrects_id for reading in readings if reading.corrects_id]
    # a savepoint costs two round trips, and only a correction can meet another of the same reading
    try:
        with transaction.atomic() if corrected else nullcontext():
            insert(readings)
    except IntegrityError:
        if corrected and Reading.objects.filter(corrects__in=corrected).exists():
            raise CorrectedAlready from None
        raise
    return [_entry(reading) for reading in readings]


def _entry(reading: Reading) -> Entry:
    row = reading.row
    facts = {"part": row.part, "characteristic": row.characteristic, "unit": row.unit}
    return Entry(chain=CHAIN, kind=kind_of(reading), of=reading, facts=facts)
