"""Recording an act: bytes, hashes, chains, one round trip."""

from datetime import UTC, datetime

import pytest

from shopfloor.ledger.hashing import NOTHING_BEFORE, event_hash
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import ChainHead, LedgerEvent
from shopfloor.ledger.services import Entry, record

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _kinds():
    register_kind("bench.swept", sentence=lambda event: "the bench was swept")


def test_the_first_event_of_a_chain_is_preceded_by_its_creation_in_shop():
    act = record(Entry("stores", "bench.swept", facts={"bench": "3"}), by=7, at=NOON)
    begun_shop, begun_stores, swept = LedgerEvent.objects.order_by("id")
    assert [(event.chain, event.sequence, event.kind) for event in (begun_shop, begun_stores, swept)] == [
        ("shop", 1, "chain.created"),
        ("shop", 2, "chain.created"),
        ("stores", 1, "bench.swept"),
    ]
    assert (begun_shop.about_id, begun_stores.about_id) == ("shop", "stores")
    assert {event.act for event in (begun_shop, begun_stores, swept)} == {act}


def test_an_event_is_hashed_as_written_down():
    record(Entry("stores", "bench.swept"), Entry("stores", "bench.swept"), by=None, at=NOON)
    first, second = LedgerEvent.objects.filter(chain="stores").order_by("sequence")
    assert bytes(first.previous) == NOTHING_BEFORE
    for event in (first, second):
        assert bytes(event.hash) == event_hash("stores", event.sequence, bytes(event.previous), bytes(event.body_bytes))
    assert bytes(second.previous) == bytes(first.hash)
    head = ChainHead.objects.get(name="stores")
    assert (head.sequence, bytes(head.hash)) == (2, bytes(second.hash))


def test_a_clean_ledger_has_no_fault():
    from shopfloor.ledger.queries import verify

    record(Entry("stores", "bench.swept"), Entry("people", "bench.swept"), by=None, at=NOON)
    assert list(verify()) == []
