from django.apps import AppConfig

from shopfloor.ledger.kinds import register_kind


class AuditingConfig(AppConfig):
    name = "shopfloor.auditing"

    def ready(self) -> None:
        from shopfloor.auditing.services import CHECKED
        from shopfloor.ledger.models import LedgerEvent

        def sentence(event: LedgerEvent) -> str:
            faults = event.body["facts"]["faults"]
            return (
                "the whole ledger was checked; no fault" if faults == "0" else f"the ledger was checked; {faults} fault(s) found"
            )

        register_kind(CHECKED, sentence=sentence)
