"""Something found at work is a reason of its own, as if the engine had been received for it."""

from datetime import datetime

from django.db import transaction

from engines.catalogue.data import REASONS
from engines.visits.chains import chain_of
from engines.visits.errors import FieldRefused
from engines.visits.models import Visit
from engines.visits.queries import locked_visit
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def add_reason(*, visit: Visit, reason: str, by: Person, at: datetime) -> Visit:
    """The visit with the reason among its own; nothing is written where it has it already. Raises Closed, FieldRefused."""
    visit = locked_visit(visit.pk)
    if reason not in REASONS:
        raise FieldRefused(f"Choose the reason, one of: {', '.join(REASONS)}.")
    if reason not in visit.reasons:
        visit.reasons = [each for each in REASONS if each == reason or each in visit.reasons]
        visit.save(update_fields=["reasons"])
        record(Entry(chain=chain_of(visit), kind="visit.reason-added", of=visit), by=by.pk, at=at)
    return visit
