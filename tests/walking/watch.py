"""Who watches the database during a walk: every row that an act touched, and every event that it left."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from typing import Any, TypeVar
from uuid import UUID

from django.apps import apps
from django.db import connection
from django.db.models import UUIDField

from shopfloor.ledger.records import record_kinds

Thing = TypeVar("Thing")
# What the ledger keeps itself; everything else that an act touches must have an event.
LEDGER = {"ledger_ledgerevent", "ledger_chainhead", "ledger_erasabletext"}
CHANGES = "INSERT", "UPDATE", "DELETE"


_known: dict[Any, Any] = {}


def forget() -> None:
    """Something was written: whatever was read is read anew."""
    _known.clear()


def remembered(ask: Callable[..., Thing]) -> Callable[..., Thing]:
    """Between two writes the same question has the same answer."""

    @wraps(ask)
    def answer(*arguments: Any) -> Thing:
        key = (ask.__qualname__, *arguments)
        if key not in _known:
            _known[key] = ask(*arguments)
        answered: Thing = _known[key]
        return answered

    return answer


@remembered
def rows(sql: str, *parameters: Any) -> list[tuple[Any, ...]]:
    """Plain SQL, so that what is checked rests on none of the code that is checked."""
    return asked(sql, *parameters)


def asked(sql: str, *parameters: Any) -> list[tuple[Any, ...]]:
    with connection.cursor() as cursor:
        cursor.execute(sql, [each.hex if isinstance(each, UUID) else each for each in parameters])
        return cursor.fetchall()


def value(sql: str, *parameters: Any) -> Any:
    return rows(sql, *parameters)[0][0]


class Watch:
    """Triggers of this connection alone note each row that is put in, changed or deleted. What is rolled back is not noted."""

    def __init__(self) -> None:
        self.labels = {kind.model._meta.db_table: kind.label for kind in record_kinds()}
        self.keys = {model._meta.db_table: model._meta.pk for model in apps.get_models()}
        self.last_event = 0

    @contextmanager
    def standing(self) -> Iterator[None]:
        with connection.cursor() as cursor:
            cursor.execute("CREATE TEMP TABLE walk_touched (name text, key text)")
            for trigger in self._triggers():
                cursor.execute(trigger)
        self.begin()
        yield
        with connection.cursor() as cursor:
            for name in (f"walk_{what}_{table}" for table in self._tables() for what in CHANGES):
                cursor.execute(f'DROP TRIGGER temp."{name}"')
            cursor.execute("DROP TABLE walk_touched")

    def begin(self) -> None:
        asked("DELETE FROM walk_touched RETURNING 1")
        self.last_event = asked("SELECT coalesce(max(id), 0) FROM ledger_ledgerevent")[0][0]

    def touched(self) -> set[tuple[str, str]]:
        """(table, key) of every row since the last `begin`."""
        return set(asked("SELECT name, key FROM walk_touched"))

    def told(self) -> set[tuple[str, str]]:
        """(label, key) of what the events since then are about."""
        return set(asked("SELECT about_label, about_id FROM ledger_ledgerevent WHERE id > %s", self.last_event))

    def as_told(self, table: str, key: str) -> tuple[str, str]:
        """How an event names a row."""
        is_uuid = isinstance(self.keys[table], UUIDField) or len(key) == 32
        return self.labels.get(table, table), str(UUID(key)) if is_uuid else key

    def _tables(self) -> list[str]:
        return sorted(name for name in self.keys if not name.startswith("django_"))

    def _triggers(self) -> Iterator[str]:
        for table in self._tables():
            for what in CHANGES:
                row = "OLD" if what == "DELETE" else "NEW"
                note = f"INSERT INTO walk_touched VALUES ('{table}', {row}.\"{self.keys[table].column}\")"
                yield f'CREATE TEMP TRIGGER "walk_{what}_{table}" AFTER {what} ON "{table}" BEGIN {note}; END'
