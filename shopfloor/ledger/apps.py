from django.apps import AppConfig
from django.core import checks
from django.db.models.signals import post_migrate


class LedgerConfig(AppConfig):
    name = "shopfloor.ledger"

    def ready(self) -> None:
        from shopfloor.ledger.append import CHAIN_CREATED
        from shopfloor.ledger.append_only import check_triggers, install_after_migrate, protect
        from shopfloor.ledger.kinds import register_kind
        from shopfloor.ledger.models import LedgerEvent

        protect(LedgerEvent)
        register_kind(CHAIN_CREATED, sentence=lambda event: f"chain {event.about_id} was begun")
        post_migrate.connect(install_after_migrate, sender=self)
        checks.register(check_triggers, checks.Tags.database)
