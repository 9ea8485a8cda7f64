from django.apps import AppConfig


class TravelerConfig(AppConfig):
    name = "engines.traveler"

    def ready(self) -> None:
        from engines.catalogue import hooks
        from engines.inspection.hooks import after_work
        from engines.traveler import records
        from engines.traveler.authority import why_not_approving
        from engines.traveler.services import ask_again

        records.register()
        hooks.why_not_approving.append(why_not_approving)
        after_work.append(ask_again)
