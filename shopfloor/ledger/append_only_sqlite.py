"""Append-only triggers in SQLite.

REPLACE deletes the row it collides with, and SQLite fires no DELETE trigger for that unless a connection asks for it. So
a third trigger looks at every INSERT first, and refuses one that collides with any unique index.
"""

# ruff: noqa: S608 (the text of a trigger takes no parameters; every name in it comes from the schema)

from dataclasses import dataclass

from django.core.exceptions import ImproperlyConfigured
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.backends.utils import CursorWrapper

PREFIX = "append_only_"


@dataclass(frozen=True)
class UniqueIndex:
    columns: tuple[str, ...]
    condition: str


def install(connection: BaseDatabaseWrapper, table: str, closing: list[str]) -> None:
    with connection.cursor() as cursor:
        for statement in _wanted(cursor, table, closing).values():
            cursor.execute(statement)


def remove(connection: BaseDatabaseWrapper, table: str) -> None:
    with connection.cursor() as cursor:
        for trigger in _names(table):
            cursor.execute(f'DROP TRIGGER IF EXISTS "{trigger}"')


def faults(connection: BaseDatabaseWrapper, table: str, closing: list[str]) -> list[str]:
    with connection.cursor() as cursor:
        wanted = _wanted(cursor, table, closing)
        cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND tbl_name = %s", [table])
        found = dict(cursor.fetchall())
    missing = [f"trigger {name} is missing" for name in wanted if name not in found]
    return missing + [f"trigger {name} was altered" for name in wanted if found.get(name, wanted[name]) != wanted[name]]


def _names(table: str) -> tuple[str, str, str]:
    return f"{PREFIX}{table}_update", f"{PREFIX}{table}_delete", f"{PREFIX}{table}_replace"


def _wanted(cursor: CursorWrapper, table: str, closing: list[str]) -> dict[str, str]:
    update, delete, replace = _names(table)
    columns = _columns(cursor, table)
    return {
        update: _trigger(update, "UPDATE", table, _not_a_closing(columns, closing)),
        delete: _trigger(delete, "DELETE", table, "1"),
        replace: _trigger(replace, "INSERT", table, _collides(cursor, table, columns)),
    }


def _trigger(name: str, act: str, table: str, condition: str) -> str:
    refusal = f"{table} is append-only: {'REPLACE' if act == 'INSERT' else act} refused"
    return f'CREATE TRIGGER "{name}" BEFORE {act} ON "{table}" WHEN {condition} BEGIN SELECT RAISE(ABORT, \'{refusal}\'); END'


def _not_a_closing(columns: list[str], closing: list[str]) -> str:
    if not closing:
        return "1"
    kept = [f'NEW."{column}" IS OLD."{column}"' for column in columns if column not in closing]
    still_open = [f"coalesce(OLD.\"{column}\", '') = ''" for column in closing]
    return f"NOT ({' AND '.join(kept + still_open)})"


def _collides(cursor: CursorWrapper, table: str, columns: list[str]) -> str:
    as_row = ", ".join(f'NEW."{column}" AS "{column}"' for column in columns)
    collisions = []
    for index in _unique_indexes(cursor, table):
        same = " AND ".join(f'"{column}" = NEW."{column}"' for column in index.columns)
        if index.condition:
            collisions.append(
                f'(EXISTS (SELECT 1 FROM "{table}" WHERE {same} AND ({index.condition}))'
                f" AND EXISTS (SELECT 1 FROM (SELECT {as_row}) WHERE {index.condition}))"
            )
        else:
            collisions.append(f'EXISTS (SELECT 1 FROM "{table}" WHERE {same})')
    return " OR ".join(collisions)


def _columns(cursor: CursorWrapper, table: str) -> list[str]:
    cursor.execute(f'PRAGMA table_info("{table}")')
    return [row[1] for row in cursor.fetchall()]


def _unique_indexes(cursor: CursorWrapper, table: str) -> list[UniqueIndex]:
    """The primary key first: an integer key has no index of its own."""
    cursor.execute(f'PRAGMA table_info("{table}")')
    key = tuple(row[1] for row in cursor.fetchall() if row[5])
    cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'index' AND tbl_name = %s ORDER BY name", [table])
    definitions = dict(cursor.fetchall())
    cursor.execute(f'PRAGMA index_list("{table}")')
    names = sorted(row[1] for row in cursor.fetchall() if row[2])
    return [UniqueIndex(key, ""), *(_unique_index(cursor, name, definitions.get(name) or "") for name in names)]


def _unique_index(cursor: CursorWrapper, name: str, definition: str) -> UniqueIndex:
    cursor.execute(f'PRAGMA index_info("{name}")')
    columns = tuple(row[2] for row in cursor.fetchall())
    if None in columns:
        raise ImproperlyConfigured(f"{name}: an append-only table cannot have a unique index over an expression on SQLite.")
    return UniqueIndex(columns, definition.partition(" WHERE ")[2])
