"""Nothing in a protected table is overwritten or deleted, whatever the statement."""

from datetime import UTC, datetime

import pytest
from django.db import DatabaseError, connection, transaction

from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person, RoleGrant

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
pytestmark = pytest.mark.django_db


@pytest.fixture
def event():
    record(Entry("stores", "bench.swept"), by=None, at=NOON)
    return LedgerEvent.objects.get(chain="stores")


@pytest.fixture
def grant(as_owner):
    with as_owner():
        pass
    persons = [Person.objects.create(username=name, name=name) for name in ("manager", "mechanic1")]
    return RoleGrant.objects.create(person=persons[1], role="mechanic", granted_by=persons[0], granted_at=NOON)


def refused(statement, parameters=()):
    with pytest.raises(DatabaseError, match=r"append-only|permission denied"), transaction.atomic():
        connection.cursor().execute(statement, parameters)
    return True


def test_an_event_cannot_be_updated_or_deleted(event):
    assert refused("UPDATE ledger_ledgerevent SET kind = 'x' WHERE id = %s", [event.pk])
    assert refused("DELETE FROM ledger_ledgerevent WHERE id = %s", [event.pk])
    assert LedgerEvent.objects.get(pk=event.pk).kind == "bench.swept"


@pytest.mark.sqlite
@pytest.mark.parametrize("key", ["id", "chain and sequence"])
def test_an_event_cannot_be_replaced(event, key):
    new_id = "id" if key == "id" else "id + 1000"
    new_chain = "'other'" if key == "id" else "chain"
    assert refused(
        f"INSERT OR REPLACE INTO ledger_ledgerevent SELECT {new_id}, {new_chain}, sequence, 'forged', act, by, at, about_label,"
        " about_id, body_bytes, previous, hash FROM ledger_ledgerevent WHERE id = %s",
        [event.pk],
    )
    assert LedgerEvent.objects.get(pk=event.pk).kind == "bench.swept"


@pytest.mark.sqlite
def test_an_open_grant_cannot_be_replaced_by_way_of_its_partial_index(grant):
    insert = "INTO people_rolegrant (person_id, role, granted_at, ended_at) VALUES (%s, 'mechanic', '2026-11-26', {})"
    assert refused("INSERT OR REPLACE " + insert.format("NULL"), [grant.person_id])
    connection.cursor().execute("INSERT " + insert.format("'2026-11-27'"), [grant.person_id])
    assert RoleGrant.objects.filter(pk=grant.pk).exists()


@pytest.mark.postgresql
def test_events_cannot_be_truncated_even_by_the_owner(event):
    assert refused("TRUNCATE ledger_ledgerevent")
    connection.cursor().execute("RESET ROLE")
    assert refused("TRUNCATE ledger_ledgerevent")
    assert refused("DELETE FROM ledger_ledgerevent")


def test_a_grant_is_closed_once_and_otherwise_unchanged(grant):
    assert refused("UPDATE people_rolegrant SET role = 'manager' WHERE id = %s", [grant.pk])
    assert refused("UPDATE people_rolegrant SET role = 'manager', ended_at = granted_at WHERE id = %s", [grant.pk])
    close = RoleGrant.objects.filter(pk=grant.pk)
    close.update(ended_at=NOON, ended_by=grant.granted_by)
    with pytest.raises(DatabaseError, match="append-only"), transaction.atomic():
        close.update(ended_at=None, ended_by=None)
    with pytest.raises(DatabaseError, match="append-only"), transaction.atomic():
        close.update(ended_at=datetime(2027, 1, 1, tzinfo=UTC))
    assert refused("DELETE FROM people_rolegrant WHERE id = %s", [grant.pk])
    assert RoleGrant.objects.get(pk=grant.pk).ended_at == NOON
