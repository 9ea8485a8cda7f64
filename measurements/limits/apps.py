from django.apps import AppConfig


class LimitsConfig(AppConfig):
    name = "measurements.limits"

    def ready(self) -> None:
        from measurements.limits import records

        records.register()
