from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = []

    operations = [
        migrations.CreateModel(
            name="ChainHead",
            fields=[
                ("name", models.CharField(max_length=80, primary_key=True, serialize=False)),
                ("sequence", models.BigIntegerField()),
                ("hash", models.BinaryField(max_length=32)),
            ],
        ),
        migrations.CreateModel(
            name="ErasableText",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("digest", models.BinaryField(max_length=32, unique=True)),
                ("salt", models.BinaryField(max_length=32)),
                ("text", models.TextField()),
                ("about_label", models.CharField(max_length=60)),
                ("about_id", models.CharField(max_length=80)),
                ("field", models.CharField(max_length=60)),
            ],
            options={
                "indexes": [models.Index(fields=["about_label", "about_id"], name="text_about")],
            },
        ),
        migrations.CreateModel(
            name="LedgerEvent",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("chain", models.CharField(max_length=80)),
                ("sequence", models.BigIntegerField()),
                ("kind", models.CharField(max_length=60)),
                ("act", models.UUIDField()),
                ("by", models.BigIntegerField(null=True)),
                ("at", models.DateTimeField()),
                ("about_label", models.CharField(blank=True, max_length=60)),
                ("about_id", models.CharField(blank=True, max_length=80)),
                ("body_bytes", models.BinaryField()),
                ("previous", models.BinaryField(max_length=32)),
                ("hash", models.BinaryField(max_length=32)),
            ],
            options={
                "indexes": [
                    models.Index(fields=["chain", "id"], name="event_chain"),
                    models.Index(fields=["act"], name="event_act"),
                    models.Index(fields=["kind", "id"], name="event_kind"),
                    models.Index(fields=["at"], name="event_at"),
                    models.Index(fields=["about_label", "about_id", "id"], name="event_about"),
                ],
                "constraints": [models.UniqueConstraint(fields=("chain", "sequence"), name="one_event_per_place")],
            },
        ),
    ]
