"""Tables in which nothing is overwritten or deleted: triggers on both databases, put back after every migrate."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from types import ModuleType
from typing import Any

from django.apps import AppConfig
from django.core.checks import CheckMessage, Error
from django.db import connections, transaction
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.migrations.executor import MigrationExecutor
from django.db.models import Model

from shopfloor.ledger import app_role, append_only_postgresql, append_only_sqlite


@dataclass(frozen=True)
class ProtectedTable:
    """A table and the columns that may be filled once, all in one UPDATE, to close a row."""

    model: type[Model]
    closes: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        return self.model._meta.db_table

    @property
    def closing_columns(self) -> list[str]:
        return [str(self.model._meta.get_field(field).column) for field in self.closes]  # type: ignore[union-attr]


_protected: dict[str, ProtectedTable] = {}


def protect(model: type[Model], closes: tuple[str, ...] = ()) -> None:
    """Make the table of `model` append-only; `closes` names the fields that may be filled once, together."""
    _protected[model._meta.label_lower] = ProtectedTable(model, closes)


def protected_tables(connection: BaseDatabaseWrapper) -> Iterator[ProtectedTable]:
    """Those that exist in this database already."""
    existing = set(connection.introspection.table_names())
    yield from (table for label, table in sorted(_protected.items()) if table.name in existing)


def install(connection: BaseDatabaseWrapper) -> None:
    """Put every trigger in place, also where one was altered. Safe to repeat, and at no moment is a table open."""
    tables = list(protected_tables(connection))
    with transaction.atomic(using=connection.alias):
        for table in tables:
            _database(connection).remove(connection, table.name)
            _database(connection).install(connection, table.name, table.closing_columns)
        app_role.grant(connection, {table.name: table.closing_columns for table in tables})


def remove(connection: BaseDatabaseWrapper) -> None:
    """Take every trigger away: only the owner of the tables can."""
    for table in protected_tables(connection):
        _database(connection).remove(connection, table.name)


def missing_triggers(connection: BaseDatabaseWrapper) -> list[str]:
    """The protected tables whose triggers are absent, switched off or not as installed; empty when all is well."""
    return [
        f"{table.name}: {fault}"
        for table in protected_tables(connection)
        for fault in _database(connection).faults(connection, table.name, table.closing_columns)
    ]


def install_after_migrate(sender: AppConfig, using: str, **kwargs: object) -> None:
    install(connections[using])


def check_triggers(*, databases: Sequence[str] | None = None, **kwargs: Any) -> list[CheckMessage]:
    """Silent while migrations are waiting: migrate runs the checks first and installs the triggers last."""
    return [
        Error(
            f"Append-only triggers: {fault}.",
            hint="Nothing protects the record until they are back: run manage.py migrate --skip-checks as the owner.",
            id="ledger.E001",
        )
        for alias in databases or ()
        if not _migrations_waiting(connections[alias])
        for fault in missing_triggers(connections[alias])
    ]


def _migrations_waiting(connection: BaseDatabaseWrapper) -> bool:
    executor = MigrationExecutor(connection)
    return bool(executor.migration_plan(executor.loader.graph.leaf_nodes()))


def _database(connection: BaseDatabaseWrapper) -> ModuleType:
    return append_only_postgresql if connection.vendor == "postgresql" else append_only_sqlite
