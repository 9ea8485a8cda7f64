from django.db import migrations

from shopfloor.ledger.postgresql import APPEND_FUNCTION, DROP_FUNCTIONS, PLACE_FUNCTION


def make_functions(apps, schema_editor):
    if schema_editor.connection.vendor != "postgresql":
        return
    with schema_editor.connection.cursor() as cursor:
        cursor.execute("SELECT quote_ident(current_schema())")
        schema = cursor.fetchone()[0]
        for function in (PLACE_FUNCTION, APPEND_FUNCTION):
            cursor.execute(function.format(schema=schema))
        cursor.execute("REVOKE ALL ON FUNCTION ledger_append, ledger_place FROM PUBLIC")


def drop_functions(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        with schema_editor.connection.cursor() as cursor:
            cursor.execute(DROP_FUNCTIONS)


class Migration(migrations.Migration):
    dependencies = [("ledger", "0001_initial")]

    operations = [migrations.RunPython(make_functions, drop_functions)]
