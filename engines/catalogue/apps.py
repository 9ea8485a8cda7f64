from django.apps import AppConfig


class CatalogueConfig(AppConfig):
    name = "engines.catalogue"

    def ready(self) -> None:
        from engines.catalogue import records

        records.register()
