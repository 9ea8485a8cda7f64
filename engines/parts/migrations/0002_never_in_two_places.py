"""On PostgreSQL an exclusion constraint keeps the spans of an item apart; on SQLite a trigger does (engines/parts/overlap.py)."""

from django.db import migrations

ADD = """
ALTER TABLE parts_fitment ADD CONSTRAINT fitments_never_overlap
EXCLUDE USING gist (item_id WITH =, tstzrange(fitted_at, removed_at, '[)') WITH &&)
"""


def add(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute("CREATE EXTENSION IF NOT EXISTS btree_gist")
        schema_editor.execute(ADD)


def take_away(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute("ALTER TABLE parts_fitment DROP CONSTRAINT fitments_never_overlap")


class Migration(migrations.Migration):
    dependencies = [("parts", "0001_initial")]
    operations = [migrations.RunPython(add, take_away)]
