"""Writing a table down, and putting it into force."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from django.db import transaction

from measurements.limits.models import LimitRow, LimitTable, State
from measurements.limits.records import rows_hash
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

CHAIN = "measurements"


@transaction.atomic
def add_table(*, subject: str, revision: str, rows: Sequence[Mapping[str, object]], by: Person, at: datetime) -> LimitTable:
    """A draft; `rows` are fields of LimitRow, checked before by whoever read them from a file."""
    table = LimitTable(subject=subject, revision=revision, added_at=at)
    written = [LimitRow(table=table, order=order, **row) for order, row in enumerate(rows, start=1)]
    table.rows_sha256 = rows_hash(written)
    table.save()
    LimitRow.objects.bulk_create(written)
    record(Entry(chain=CHAIN, kind="limits.added", of=table), by=by.pk, at=at)
    return table


@transaction.atomic
def approve_table(*, table: LimitTable, by: Person, at: datetime) -> LimitTable:
    """Put a draft into force; the one that was in force gives way."""
    for older in LimitTable.objects.select_for_update().filter(subject=table.subject, state=State.APPROVED):
        _become(older, State.SUPERSEDED, "limits.superseded", by, at)
    table = LimitTable.objects.select_for_update().get(pk=table.pk)
    return _become(table, State.APPROVED, "limits.approved", by, at)


def _become(table: LimitTable, state: State, kind: str, by: Person, at: datetime) -> LimitTable:
    table.state = state
    table.save(update_fields=["state"])
    record(Entry(chain=CHAIN, kind=kind, of=table), by=by.pk, at=at)
    return table
