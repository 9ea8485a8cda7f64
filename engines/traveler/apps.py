from django.apps import AppConfig


class TravelerConfig(AppConfig):
    name = "engines.traveler"

    def ready(self) -> None:
        from engines.inspection.hooks import after_work
        from engines.traveler import records
        from engines.traveler.services import ask_again

        records.register()
        after_work.append(ask_again)
