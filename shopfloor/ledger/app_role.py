"""Two roles in PostgreSQL: the owner migrates; the application's role reads and adds, and cannot touch what is protected."""

from collections.abc import Iterator, Mapping

from django.conf import settings
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.backends.utils import CursorWrapper
from psycopg import sql

ERASABLE = "ledger_erasabletext"
WRITTEN_BY_THE_FUNCTION = ("ledger_chainhead", "ledger_ledgerevent", ERASABLE)
MIGRATIONS = "django_migrations"


def grant(connection: BaseDatabaseWrapper, protected: Mapping[str, list[str]]) -> None:
    """Give DATABASE_APP_ROLE its rights; nothing where none is named. `protected`: table -> columns that close a row."""
    if connection.vendor != "postgresql" or not settings.DATABASE_APP_ROLE:
        return
    with connection.cursor() as cursor:
        existing = set(connection.introspection.table_names(cursor))
        cursor.execute("SELECT current_schema()")
        names = {"role": sql.Identifier(settings.DATABASE_APP_ROLE), "schema": sql.Identifier(cursor.fetchone()[0])}
        for statement in _everywhere():
            cursor.execute(sql.SQL(statement).format(**names))
        cursor.execute("SELECT 1 FROM pg_proc WHERE proname = 'ledger_append'")
        if cursor.fetchone():
            cursor.execute(sql.SQL("GRANT EXECUTE ON FUNCTION ledger_append TO {role}").format(**names))
        for table, columns in protected.items():
            _revoke(cursor, names, "UPDATE, DELETE, TRUNCATE", table)
            if columns:
                closing = sql.SQL(", ").join(map(sql.Identifier, columns))
                cursor.execute(
                    sql.SQL("GRANT UPDATE ({columns}) ON {table} TO {role}").format(
                        columns=closing, table=sql.Identifier(table), **names
                    )
                )
        for table in existing.intersection((*WRITTEN_BY_THE_FUNCTION, MIGRATIONS)):
            _revoke(cursor, names, "INSERT, UPDATE, TRUNCATE" if table == ERASABLE else "INSERT, UPDATE, DELETE, TRUNCATE", table)


def _everywhere() -> Iterator[str]:
    yield "REVOKE CREATE ON SCHEMA {schema} FROM {role}"
    yield "GRANT USAGE ON SCHEMA {schema} TO {role}"
    yield "GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA {schema} TO {role}"
    yield "GRANT USAGE, SELECT ON ALL SEQUENCES IN SCHEMA {schema} TO {role}"


def _revoke(cursor: CursorWrapper, names: Mapping[str, sql.Identifier], rights: str, table: str) -> None:
    statement = sql.SQL("REVOKE {rights} ON {table} FROM {role}")
    cursor.execute(statement.format(rights=sql.SQL(rights), table=sql.Identifier(table), **names))
