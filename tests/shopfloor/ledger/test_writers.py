"""Twenty writers at once: no deadlock, no gap, on both databases."""

from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime

import pytest
from django.db import connection, transaction

from shopfloor.ledger.models import ChainHead, LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.ledger.services import Entry, record

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
WRITERS, ACTS = 20, 5


def write(chains):
    try:
        for _ in range(ACTS):
            with transaction.atomic():
                record(*(Entry(chain, "bench.swept") for chain in chains), by=None, at=NOON)
    finally:
        connection.close()


@pytest.mark.django_db(transaction=True)
@pytest.mark.parametrize("orders", [[["stores"]], [["stores", "people"], ["people", "stores"]], [["zinc"], ["shop", "arc"]]])
def test_twenty_writers_leave_no_gap(orders):
    with ThreadPoolExecutor(WRITERS) as pool:
        done = [pool.submit(write, orders[number % len(orders)]) for number in range(WRITERS)]
        for writer in done:
            writer.result(timeout=60)
    for head in ChainHead.objects.all():
        sequences = LedgerEvent.objects.filter(chain=head.name).order_by("sequence").values_list("sequence", flat=True)
        assert list(sequences) == list(range(1, head.sequence + 1))
    written = WRITERS * ACTS * sum(map(len, orders)) // len(orders)
    assert LedgerEvent.objects.filter(kind="bench.swept").count() == written
    assert list(verify()) == []
