"""Checking the ledger and keeping, in the ledger itself, that it was checked and what was found."""

import logging
from datetime import datetime

from django.db import DEFAULT_DB_ALIAS, transaction

from shopfloor.ledger.queries import verify
from shopfloor.ledger.services import Entry, record
from shopfloor.ledger.snapshot import snapshot
from shopfloor.people.models import Person

logger = logging.getLogger(__name__)
CHECKED = "ledger.checked"
KEPT = 20


def check_ledger(*, by: Person | None, at: datetime) -> int:
    """The number of faults. Each is logged; the event names the first twenty. `by` is nobody when the scheduler asks."""
    count, first = 0, list[str]()
    with snapshot(DEFAULT_DB_ALIAS):
        for fault in verify():
            count += 1
            logger.error("The ledger has a fault: %s", fault)
            if len(first) < KEPT:
                first.append(str(fault))
    with transaction.atomic():
        facts = {"faults": str(count), "first": first}
        record(Entry(chain="shop", kind=CHECKED, facts=facts), by=by.pk if by else None, at=at)
    return count
