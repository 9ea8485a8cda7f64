"""Putting readings into their table with one statement that is worded once: every reading waits for this."""

from collections.abc import Sequence
from functools import lru_cache

from django.db import connection
from django.db.models import Field

from measurements.readings.models import Reading

# Django words its INSERT anew each time; for one row that takes longer than PostgreSQL takes to insert it.
FIELDS: tuple[Field, ...] = tuple(Reading._meta.concrete_fields)  # type: ignore[type-arg]


def insert(readings: Sequence[Reading]) -> None:
    """Raises IntegrityError. A reading may name another of the same call: references are checked at the commit."""
    values = [field.get_db_prep_save(getattr(reading, field.attname), connection) for reading in readings for field in FIELDS]
    with connection.cursor() as cursor:
        cursor.execute(_statement(connection.vendor, len(readings)), values)
    for reading in readings:
        reading._state.adding, reading._state.db = False, connection.alias


@lru_cache(maxsize=32)
def _statement(vendor: str, rows: int) -> str:
    quoted = connection.ops.quote_name
    columns = ", ".join(quoted(str(field.column)) for field in FIELDS)
    row = f"({', '.join(['%s'] * len(FIELDS))})"
    return f"INSERT INTO {quoted(Reading._meta.db_table)} ({columns}) VALUES {', '.join([row] * rows)}"  # noqa: S608  no input
