"""Recording an act: bytes, hashes, chains, one round trip."""

from datetime import UTC, datetime
from unittest.mock import patch
from uuid import UUID

import pytest
from django.db import connection, transaction
from django.test.utils import CaptureQueriesContext

from shopfloor.ledger import services, texts
from shopfloor.ledger.canonical import NotCanonical
from shopfloor.ledger.hashing import NOTHING_BEFORE
from shopfloor.ledger.models import ChainHead, ErasableText, LedgerEvent
from shopfloor.ledger.records import NotRegistered, register_record
from shopfloor.ledger.services import BadEntry, Entry, OutsideTransaction, record
from shopfloor.people.models import Customer, Person

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
# The example of RFC 9562 (from memory).
ACT = UUID("017f22e2-79b0-7cc3-98c4-dc0c0c07398f")
pytestmark = pytest.mark.django_db


def test_the_first_event_of_a_chain_is_preceded_by_its_creation_in_shop():
    act = record(Entry("stores", "bench.swept", facts={"bench": "3"}), by=7, at=NOON)
    written = LedgerEvent.objects.order_by("id")
    assert [(event.chain, event.sequence, event.kind, event.about_id) for event in written] == [
        ("shop", 1, "chain.created", "shop"),
        ("shop", 2, "chain.created", "stores"),
        ("stores", 1, "bench.swept", ""),
    ]
    assert {event.act for event in written} == {act}


def test_bytes_and_hashes_are_the_same_on_both_databases():
    """Expected hashes: coreutils sha256sum over bytes laid out by printf as shopfloor/ledger/hashing.py writes them down."""
    body = (
        '{"about":null,"act":"017f22e2-79b0-7cc3-98c4-dc0c0c07398f","at":"2026-11-25T12:00:00.000000Z","by":7,'
        '"chains":["stores"],"content":null,"facts":{"bench":"3","sworn":true,"Ø":"54,0 mm"},"kind":"bench.swept","texts":{}}'
    )
    hashes = (
        "be8e0bb5b53f0f9878f37b519b08e428e7f20de2b94b9d7b158bdece3db93fa3",
        "4154fa6c64e6d5ba7035295a534d42c96e2392bf9be0a0d6683bec2269a311d3",
    )
    with patch.object(services, "uuid7", return_value=ACT):
        for _ in range(2):
            record(Entry("stores", "bench.swept", facts={"Ø": "54,0 mm", "sworn": True, "bench": "3"}), by=7, at=NOON)
    first, second = LedgerEvent.objects.filter(chain="stores").order_by("sequence")
    assert bytes(first.body_bytes) == bytes(second.body_bytes) == body.encode()
    assert (bytes(first.hash).hex(), bytes(second.hash).hex()) == hashes
    assert (bytes(first.previous), bytes(second.previous)) == (NOTHING_BEFORE, bytes(first.hash))
    head = ChainHead.objects.get(name="stores")
    assert (head.sequence, bytes(head.hash)) == (2, bytes(second.hash))


def test_a_private_field_is_veiled_by_a_salted_hash():
    """Expected hash: sha256sum, as above."""
    person = Person.objects.create(username="mechanic1", name="First Mechanic")
    with patch.object(texts, "new_salt", return_value=b"\1" * 32):
        record(Entry("people", "person.changed", of=person), by=None, at=NOON)
    event = LedgerEvent.objects.get(chain="people")
    veiled = {"salted": "c945ea09794b6c7d892340fb40471dae9b24ae91b5f530e577cef8f836b2c903"}
    assert event.body["content"] == {"username": "mechanic1", "name": veiled}
    assert (event.about_label, event.about_id) == ("people.person", str(person.pk))
    assert ErasableText.objects.get().text == "First Mechanic"


@pytest.mark.postgresql
def test_an_act_on_two_chains_with_a_private_text_is_one_round_trip():
    person = Person.objects.create(username="mechanic1", name="First Mechanic")
    entries = Entry("people", "person.changed", of=person), Entry("stores", "bench.swept")
    with CaptureQueriesContext(connection) as queries:
        record(*entries, by=person.pk, at=NOON)
    assert len(queries) == 1


@pytest.mark.django_db(transaction=True)
def test_recording_outside_a_transaction_is_refused():
    with pytest.raises(OutsideTransaction, match=r"inside transaction\.atomic"):
        record(Entry("stores", "bench.swept"), by=None, at=NOON)


@pytest.mark.django_db(transaction=True)
def test_what_is_rolled_back_leaves_no_event():
    with transaction.atomic():
        record(Entry("stores", "bench.swept"), by=None, at=NOON)
        transaction.set_rollback(True)
    assert not LedgerEvent.objects.exists()
    assert not ChainHead.objects.exists()


@pytest.mark.parametrize(
    ("entry", "refusal", "sentence"),
    [
        (Entry("Stores", "bench.swept"), BadEntry, "no chain name"),
        (Entry("stores", "bench.flooded"), BadEntry, "call register_kind"),
        (Entry("stores", "bench.swept", texts={"reason": "x"}), BadEntry, "private texts need the record"),
        (Entry("stores", "bench.swept", facts={"gap": 0.5}), NotCanonical, "facts.gap"),
        (Entry("stores", "bench.swept", of=Customer(pk=1, name="x")), NotRegistered, "people.customer"),
    ],
)
def test_a_bad_entry_is_refused_before_anything_is_written(entry, refusal, sentence):
    with pytest.raises(refusal, match=sentence):
        record(Entry("stores", "bench.swept"), entry, by=None, at=NOON)
    assert not LedgerEvent.objects.exists()


def test_a_private_field_among_the_open_ones_is_refused():
    register_record(Customer, content=lambda customer: {"name": customer.name}, private=("name",))
    with pytest.raises(ValueError, match="take them out there"):
        record(Entry("people", "person.changed", of=Customer(pk=1, name="x")), by=None, at=NOON)
