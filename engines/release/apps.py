from django.apps import AppConfig


class ReleaseConfig(AppConfig):
    name = "engines.release"

    def ready(self) -> None:
        from engines.release import records

        records.register()
