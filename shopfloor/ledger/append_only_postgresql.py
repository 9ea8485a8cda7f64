"""Append-only triggers in PostgreSQL: one function and two triggers for each table."""

from django.db.backends.base.base import BaseDatabaseWrapper
from psycopg import sql

ROW_TRIGGER, TRUNCATE_TRIGGER = "append_only_rows", "append_only_truncate"
# Sums of the bits in pg_trigger.tgtype: row 1, before 2, delete 8, update 16, truncate 32.
BEFORE_UPDATE_OR_DELETE_OF_ROWS, BEFORE_TRUNCATE = 1 + 2 + 8 + 16, 2 + 32

FUNCTION_BODY = """
DECLARE
    closing text[] := {closing};
BEGIN
    IF TG_OP = 'UPDATE' AND cardinality(closing) > 0
        AND to_jsonb(NEW) - closing = to_jsonb(OLD) - closing
        AND NOT EXISTS (SELECT 1 FROM unnest(closing) AS name WHERE coalesce(to_jsonb(OLD) ->> name, '') <> '')
    THEN
        RETURN NEW;
    END IF;
    RAISE EXCEPTION '% is append-only: % refused', TG_TABLE_NAME, TG_OP USING ERRCODE = 'integrity_constraint_violation';
END
"""


def install(connection: BaseDatabaseWrapper, table: str, closing: list[str]) -> None:
    function = sql.Identifier(_function(table))
    statements = [
        sql.SQL("CREATE FUNCTION {}() RETURNS trigger LANGUAGE plpgsql AS {}").format(
            function, sql.Literal(_body(connection, closing))
        ),
        sql.SQL("CREATE TRIGGER {} BEFORE UPDATE OR DELETE ON {} FOR EACH ROW EXECUTE FUNCTION {}()").format(
            sql.Identifier(ROW_TRIGGER), sql.Identifier(table), function
        ),
        sql.SQL("CREATE TRIGGER {} BEFORE TRUNCATE ON {} FOR EACH STATEMENT EXECUTE FUNCTION {}()").format(
            sql.Identifier(TRUNCATE_TRIGGER), sql.Identifier(table), function
        ),
    ]
    with connection.cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)


def remove(connection: BaseDatabaseWrapper, table: str) -> None:
    with connection.cursor() as cursor:
        cursor.execute(sql.SQL("DROP FUNCTION IF EXISTS {}() CASCADE").format(sql.Identifier(_function(table))))


def faults(connection: BaseDatabaseWrapper, table: str, closing: list[str]) -> list[str]:
    with connection.cursor() as cursor:
        cursor.execute(
            "SELECT tgname, tgenabled IN ('O', 'A') AND tgqual IS NULL, tgtype, prosrc FROM pg_trigger"
            " JOIN pg_proc ON pg_proc.oid = tgfoid WHERE tgrelid = quote_ident(%s)::regclass AND NOT tgisinternal",
            [table],
        )
        found = {name: as_found for name, *as_found in cursor.fetchall()}
    sentences = []
    for trigger, when in ((ROW_TRIGGER, BEFORE_UPDATE_OR_DELETE_OF_ROWS), (TRUNCATE_TRIGGER, BEFORE_TRUNCATE)):
        if trigger not in found:
            sentences.append(f"trigger {trigger} is missing")
        elif found[trigger] != [True, when, _body(connection, closing)]:
            sentences.append(f"trigger {trigger} is switched off or was altered")
    return sentences


def _function(table: str) -> str:
    return f"append_only_{table}"


def _body(connection: BaseDatabaseWrapper, closing: list[str]) -> str:
    names = sql.SQL("ARRAY[{}]::text[]").format(sql.SQL(", ").join(sql.Literal(column) for column in closing))
    return FUNCTION_BODY.replace("{closing}", names.as_string(connection.connection))
