from django.apps import AppConfig


class VisitsConfig(AppConfig):
    name = "engines.visits"

    def ready(self) -> None:
        from engines.visits import records

        records.register()
