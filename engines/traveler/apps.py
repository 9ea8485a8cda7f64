from django.apps import AppConfig


class TravelerConfig(AppConfig):
    name = "engines.traveler"

    def ready(self) -> None:
        from engines.catalogue import hooks
        from engines.traveler import records
        from engines.traveler.authority import why_not_approving

        records.register()
        hooks.why_not_approving.append(why_not_approving)
