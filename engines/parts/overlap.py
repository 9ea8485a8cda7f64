"""No item is in two places over the same time: on PostgreSQL by an exclusion constraint (a migration), here by a trigger.

SQLite drops a trigger whenever it rebuilds the table, so it is put back after every migrate.
"""

from collections.abc import Sequence
from typing import Any

from django.apps import AppConfig
from django.core.checks import CheckMessage, Error
from django.db import connections
from django.db.backends.base.base import BaseDatabaseWrapper

NAME, TABLE = "fitments_never_overlap", "parts_fitment"
FOREVER = "9999-12-31"  # no plain number: SQLite would compare it as one
TRIGGER = (
    f'CREATE TRIGGER "{NAME}" BEFORE INSERT ON "{TABLE}" WHEN EXISTS (SELECT 1 FROM "{TABLE}" AS other'  # noqa: S608
    f" WHERE other.item_id = NEW.item_id AND other.id <> NEW.id"
    f" AND NEW.fitted_at < coalesce(other.removed_at, '{FOREVER}') AND other.fitted_at < coalesce(NEW.removed_at, '{FOREVER}'))"
    f" BEGIN SELECT RAISE(ABORT, '{TABLE}: the item was elsewhere at that time'); END"
)


def install_after_migrate(sender: AppConfig, using: str, **kwargs: object) -> None:
    connection = connections[using]
    if connection.vendor == "sqlite" and _has_table(connection):
        with connection.cursor() as cursor:
            cursor.execute(f'DROP TRIGGER IF EXISTS "{NAME}"')
            cursor.execute(TRIGGER)


def check_trigger(*, databases: Sequence[str] | None = None, **kwargs: Any) -> list[CheckMessage]:
    """Silent before the first migrate, and on PostgreSQL, where the constraint belongs to the table."""
    return [
        Error(
            "The trigger that keeps a part from being in two places at once is missing.",
            hint="Run manage.py migrate --skip-checks: it puts the trigger back.",
            id="parts.E001",
        )
        for alias in databases or ()
        if connections[alias].vendor == "sqlite" and _has_table(connections[alias]) and not _is_there(connections[alias])
    ]


def _has_table(connection: BaseDatabaseWrapper) -> bool:
    return TABLE in connection.introspection.table_names()


def _is_there(connection: BaseDatabaseWrapper) -> bool:
    with connection.cursor() as cursor:
        cursor.execute("SELECT sql FROM sqlite_master WHERE type = 'trigger' AND name = %s", [NAME])
        found = cursor.fetchone()
    return found is not None and found[0] == TRIGGER
