from django.apps import AppConfig


class InspectionConfig(AppConfig):
    name = "engines.inspection"

    def ready(self) -> None:
        from engines.inspection import records

        records.register()
