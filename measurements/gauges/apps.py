from django.apps import AppConfig


class GaugesConfig(AppConfig):
    name = "measurements.gauges"

    def ready(self) -> None:
        from measurements.gauges import records

        records.register()
