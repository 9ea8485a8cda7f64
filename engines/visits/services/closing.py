"""A stay ends. Called by `release` only, within the transaction that releases the engine."""

from datetime import datetime

from django.db import transaction

from engines.visits.chains import chain_of
from engines.visits.models import Tray, Visit
from engines.visits.queries import locked_visit
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def close_visit(*, visit: Visit, by: Person, at: datetime) -> Visit:
    """Its trays are free for another engine, and nothing is added to it from now on. Raises Closed."""
    visit = locked_visit(visit.pk)
    trays = list(Tray.objects.select_for_update().filter(visit=visit, emptied_at__isnull=True).order_by("tag"))
    for tray in trays:
        tray.emptied_at = at
    Tray.objects.bulk_update(trays, ["emptied_at"])
    visit.closed_at = at
    visit.save(update_fields=["closed_at"])
    chain = chain_of(visit)
    emptied = [Entry(chain=chain, kind="tray.emptied", of=tray) for tray in trays]
    record(*emptied, Entry(chain=chain, kind="visit.closed", of=visit), by=by.pk, at=at)
    return visit
