"""Reading the ledger: events for lists, and the proof that nothing in it was altered."""

from collections.abc import Iterator

from django.db import DEFAULT_DB_ALIAS
from django.db.models import QuerySet

from shopfloor.ledger.chains import check_acts, check_chains
from shopfloor.ledger.faults import Fault
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.replay import check_records
from shopfloor.ledger.veiled import check_texts

__all__ = ["Fault", "event_at", "events", "newest_event", "verify"]


def verify(using: str = DEFAULT_DB_ALIAS) -> Iterator[Fault]:
    """Every fault of the ledger, as found: the links of each chain, the heads, then the events against the records.

    Reads as a stream: memory does not grow with the ledger. It finds accidents and partial edits. It cannot find the
    work of a database owner who rewrites events, heads and records together, nor the loss of the newest events of a
    chain, head included, where they are about no record and belong to no act on another chain: that takes a signed root
    kept elsewhere, which is not there yet.
    """
    yield from check_chains(using)
    yield from check_acts(using)
    yield from check_texts(using)
    yield from check_records(using)


def events(*, chain: str = "", kind: str = "", about_label: str = "", about_id: str = "") -> QuerySet[LedgerEvent]:
    """Newest first; empty means any."""
    wanted = {"chain": chain, "kind": kind, "about_label": about_label, "about_id": about_id}
    return LedgerEvent.objects.filter(**{field: value for field, value in wanted.items() if value}).order_by("-id")


def event_at(chain: str, sequence: int) -> LedgerEvent | None:
    return LedgerEvent.objects.filter(chain=chain, sequence=sequence).first()


def newest_event() -> int:
    """The number of the newest event of all chains, 0 before the first: it moves when anything is recorded."""
    return LedgerEvent.objects.order_by("-pk").values_list("pk", flat=True).first() or 0
