from django.apps import AppConfig


class PeopleConfig(AppConfig):
    name = "shopfloor.people"

    def ready(self) -> None:
        from shopfloor.people import records

        records.register()
