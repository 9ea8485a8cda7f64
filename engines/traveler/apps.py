from django.apps import AppConfig


class TravelerConfig(AppConfig):
    name = "engines.traveler"

    def ready(self) -> None:
        from engines.traveler import records

        records.register()
