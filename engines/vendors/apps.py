from django.apps import AppConfig


class VendorsConfig(AppConfig):
    name = "engines.vendors"

    def ready(self) -> None:
        from engines.parts.at_hand import elsewhere
        from engines.vendors import records
        from engines.vendors.queries import where_out

        records.register()
        elsewhere.append(where_out)
