"""Putting new records into their table with a statement that is worded once: every act waits for this."""

from collections.abc import Sequence
from functools import lru_cache

from django.db import DEFAULT_DB_ALIAS, connections
from django.db.models import AutoField, Field, Model

MOST_VALUES = 30_000  # SQLite takes 32,766 in a statement, PostgreSQL 65,535


# Django words its INSERT anew each time; for one row that takes longer than PostgreSQL takes to insert it.
def insert(records: Sequence[Model], using: str = DEFAULT_DB_ALIAS) -> None:
    """Records of one model; a key that the database counts up is not told to them. Raises IntegrityError.

    A record may name another of the same call: references are checked at the commit.
    """
    if not records:
        return
    connection, model = connections[using], type(records[0])
    fields = _fields(model)
    most = MOST_VALUES // len(fields)
    with connection.cursor() as cursor:
        for few in (records[start : start + most] for start in range(0, len(records), most)):
            values = [field.get_db_prep_save(getattr(record, field.attname), connection) for record in few for field in fields]
            cursor.execute(_statement(model, len(few)), values)
    for record in records:
        record._state.adding, record._state.db = False, using


@lru_cache
def _fields(model: type[Model]) -> tuple[Field, ...]:  # type: ignore[type-arg]
    return tuple(field for field in model._meta.concrete_fields if not isinstance(field, AutoField))


@lru_cache(maxsize=256)
def _statement(model: type[Model], rows: int) -> str:
    columns = ", ".join(f'"{field.column}"' for field in _fields(model))
    row = f"({', '.join(['%s'] * len(_fields(model)))})"
    return f'INSERT INTO "{model._meta.db_table}" ({columns}) VALUES {", ".join([row] * rows)}'  # noqa: S608  no input
