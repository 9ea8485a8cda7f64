from django.apps import AppConfig
from django.core import checks
from django.db.models.signals import post_migrate


class PartsConfig(AppConfig):
    name = "engines.parts"

    def ready(self) -> None:
        from engines.parts import records
        from engines.parts.overlap import check_trigger, install_after_migrate

        records.register()
        post_migrate.connect(install_after_migrate, sender=self)
        checks.register(check_trigger, checks.Tags.database)
