from datetime import datetime
from typing import TYPE_CHECKING

from django.apps import AppConfig

if TYPE_CHECKING:
    from engines.catalogue.models import Pack
    from shopfloor.people.models import Person


class BenchesConfig(AppConfig):
    name = "engines.benches"

    def ready(self) -> None:
        from engines.benches import links
        from engines.packs.hooks import after_approval
        from engines.visits.services import list_impact

        def list_what_changes(older: "Pack | None", newer: "Pack", by: "Person", at: datetime) -> None:
            list_impact(pack=newer, by=by, at=at)

        after_approval.append(list_what_changes)
        links.register()
