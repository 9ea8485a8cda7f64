"""Whoever alters the record behind the application's back is named by `manage.py verify_ledger`."""

from datetime import UTC, datetime
from io import StringIO

import pytest
from django.apps import apps
from django.core.management import call_command
from django.db import connection

from shopfloor.ledger.erasure import ERASED, erase_texts
from shopfloor.ledger.models import ChainHead, ErasableText, LedgerEvent
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
EVENT, HEAD = "ledger_ledgerevent", "ledger_chainhead"
pytestmark = pytest.mark.django_db


def verified():
    """Exit code and output of the command."""
    out = StringIO()
    try:
        call_command("verify_ledger", stdout=out)
    except SystemExit as stop:
        return stop.code, out.getvalue()
    return 0, out.getvalue()


@pytest.fixture
def mechanic():
    """A person with two events in `people`; three events of two acts in `stores`, one of them shared with `people`."""
    person = Person.objects.create(username="mechanic1", name="First Mechanic")
    record(Entry("people", "person.changed", of=person), by=None, at=NOON)
    record(Entry("stores", "bench.swept"), Entry("stores", "bench.swept"), by=person.pk, at=NOON)
    person.name = "Senior Mechanic"
    person.save()
    record(Entry("stores", "bench.swept"), Entry("people", "person.changed", of=person), by=None, at=NOON)
    return person


@pytest.fixture
def forge(as_owner, mechanic):
    def run(*statements):
        with as_owner(), connection.cursor() as cursor:
            for statement in statements:
                cursor.execute(statement)

    return run


def cut_last(chain):
    return (
        f"DELETE FROM {EVENT} WHERE chain = '{chain}' AND sequence = (SELECT max(sequence) FROM {EVENT} WHERE chain = '{chain}')"
    )


def roll_head_back(chain):
    last = f"FROM {EVENT} WHERE chain = '{chain}' ORDER BY sequence DESC LIMIT 1"
    return f"UPDATE {HEAD} SET sequence = (SELECT sequence {last}), hash = (SELECT hash {last}) WHERE name = '{chain}'"


def test_an_untouched_ledger_has_no_fault(mechanic):
    assert verified() == (0, "No fault found in 8 events.\n")


@pytest.mark.parametrize(
    ("statements", "sentence"),
    [
        (["UPDATE people_person SET username = 'other'"], "no longer reads as recorded here: username"),
        (["UPDATE people_person SET name = 'Other'"], "person {pk} no longer reads as recorded here: name"),
        (["DELETE FROM people_person"], "people 2: people.person {pk} is gone from the database"),
        ([cut_last("stores")], "stores 2: is the last event, but the head says 3"),
        ([cut_last("people")], "people 1: is the last event, but the head says 2"),
        ([cut_last("stores"), roll_head_back("stores")], "stores: lost 1 event(s) of act"),
        ([cut_last("people"), roll_head_back("people")], "people 1: people.person {pk} no longer reads as recorded here: name"),
        ([f"DELETE FROM {EVENT} WHERE chain = 'stores' AND sequence = 2"], "stores 3: comes after 1"),
        (
            [f"DELETE FROM {EVENT} WHERE chain = 'stores'", f"DELETE FROM {HEAD} WHERE name = 'stores'"],
            "stores: was dropped as a whole: shop 3 records its beginning",
        ),
        ([f"DELETE FROM {EVENT} WHERE chain = 'stores'"], "stores: has a head at 3 but no events"),
        (
            [f"DELETE FROM {EVENT} WHERE chain = 'shop'", f"DELETE FROM {HEAD} WHERE name = 'shop'"],
            "shop: is gone: the chain that lists the beginning of every other chain was dropped",
        ),
        (
            [
                f"UPDATE {EVENT} SET sequence = 99 WHERE chain = 'stores' AND sequence = 1",
                f"UPDATE {EVENT} SET sequence = 1 WHERE chain = 'stores' AND sequence = 2",
                f"UPDATE {EVENT} SET sequence = 2 WHERE chain = 'stores' AND sequence = 99",
            ],
            "stores 1: does not match its hash",
        ),
        ([f"UPDATE {HEAD} SET sequence = 7 WHERE name = 'stores'"], "stores 3: is the last event, but the head says 7"),
        ([f"UPDATE {HEAD} SET hash = previous FROM {EVENT} WHERE chain = name AND name = 'stores'"], "stores 3: is the last"),
        ([f"DELETE FROM {HEAD} WHERE name = 'stores'"], "stores: has events but no head"),
        ([f"UPDATE {EVENT} SET kind = 'bench.painted' WHERE chain = 'stores'"], "stores 1: is listed with another kind"),
        ([f'UPDATE {EVENT} SET "by" = 99 WHERE chain = \'people\''], "people 1: is listed with another person"),
        (["UPDATE ledger_erasabletext SET text = 'Other'"], "'name' of people.person {pk} does not match its hash"),
        (["DELETE FROM ledger_erasabletext"], "people 1: name of people.person {pk}: the text is gone, but no"),
    ],
)  # fmt: skip
def test_a_forger_is_named(forge, mechanic, statements, sentence):
    forge(*statements)
    code, out = verified()
    assert code == 1
    assert sentence.format(pk=mechanic.pk) in out


def test_a_person_slipped_in_beside_the_services_is_named(mechanic):
    stranger = Person.objects.create(username="stranger", name="Stranger")
    code, out = verified()
    assert code == 1
    assert f"people.person {stranger.pk} stands in the database, but no event tells of it" in out


@pytest.mark.parametrize("place", [0, 40, -1])
def test_one_altered_byte_of_a_body_is_named(as_owner, mechanic, place):
    event = LedgerEvent.objects.get(chain="stores", sequence=2)
    altered = bytearray(event.body_bytes)
    altered[place] ^= 1
    with as_owner(), connection.cursor() as cursor:
        cursor.execute(f"UPDATE {EVENT} SET body_bytes = %s WHERE id = %s", [bytes(altered), event.pk])
    code, out = verified()
    assert code == 1
    assert "stores 2: does not match its hash" in out


def test_an_event_of_an_unknown_kind_of_record_is_named(mechanic):
    from shopfloor.ledger import records

    records._kinds.clear()
    code, out = verified()
    assert code == 1
    assert "is about a people.person, which no room registers" in out


def test_an_erased_person_leaves_no_text_and_everything_verifies(mechanic):
    mechanic.name = ERASED
    mechanic.save()
    assert erase_texts(of=mechanic) == 2
    record(Entry("people", "person.changed", of=mechanic), by=None, at=NOON)
    assert verified()[0] == 0
    assert ErasableText.objects.count() == 0
    for model in apps.get_models():
        for row in model._base_manager.values_list():
            shown = " ".join(bytes(cell).decode("latin-1") if isinstance(cell, bytes | memoryview) else str(cell) for cell in row)
            assert "First Mechanic" not in shown
            assert "Senior Mechanic" not in shown


def test_a_name_put_back_after_erasure_without_an_event_is_named(mechanic):
    mechanic.name = ERASED
    mechanic.save()
    erase_texts(of=mechanic)
    record(Entry("people", "person.changed", of=mechanic), by=None, at=NOON)
    Person.objects.update(name="Guessed")
    assert "no longer reads as recorded here: name" in verified()[1]


def test_free_text_of_an_act_is_veiled_and_erased_with_its_record(mechanic):
    record(Entry("people", "person.changed", of=mechanic, texts={"reason": "moved away"}), by=None, at=NOON)
    event = LedgerEvent.objects.filter(chain="people").latest("sequence")
    assert b"moved away" not in bytes(event.body_bytes)
    assert ErasableText.objects.filter(text="moved away", field="reason").exists()
    assert verified()[0] == 0


def test_heads_of_all_chains_are_known(mechanic):
    assert dict(ChainHead.objects.values_list("name", "sequence")) == {"shop": 3, "people": 2, "stores": 3}
