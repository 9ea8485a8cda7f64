"""Nothing in a protected table is overwritten or deleted, whatever the statement."""

from datetime import UTC, datetime

import pytest
from django.core.management import call_command
from django.db import DatabaseError, connection, transaction

from shopfloor.ledger.append_only import check_triggers, install, missing_triggers
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
    insert = (
        "INTO people_rolegrant (person_id, role, granted_at, ended_at, ended_by_id) VALUES (%s, 'mechanic', '2026-11-26', {})"
    )
    assert refused("INSERT OR REPLACE " + insert.format("NULL, NULL"), [grant.person_id])
    closed = insert.format("'2026-11-27', %s")
    connection.cursor().execute(f"INSERT {closed}", [grant.person_id, grant.granted_by_id])
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


def test_triggers_are_put_back_however_often(as_owner):
    with as_owner():
        install(connection)
        install(connection)
    assert missing_triggers(connection) == []


def test_missing_triggers_fail_the_system_check(as_owner):
    with as_owner():
        assert any("ledger_ledgerevent" in fault for fault in missing_triggers(connection))
        ids = {error.id for error in check_triggers(databases=["default"])}
        assert ids == {"ledger.E001"}
    assert check_triggers(databases=["default"]) == []


@pytest.mark.postgresql
def test_a_trigger_that_no_longer_looks_at_updates_is_a_fault(as_owner):
    with as_owner(), connection.cursor() as cursor:
        install(connection)
        cursor.execute("DROP TRIGGER append_only_rows ON ledger_ledgerevent")
        cursor.execute(
            "CREATE TRIGGER append_only_rows BEFORE DELETE ON ledger_ledgerevent"
            " FOR EACH ROW EXECUTE FUNCTION append_only_ledger_ledgerevent()"
        )
        faults = missing_triggers(connection)
    assert faults == ["ledger_ledgerevent: trigger append_only_rows is switched off or was altered"]


@pytest.mark.postgresql
def test_a_trigger_switched_off_is_a_fault(as_owner):
    with as_owner():
        install(connection)
        connection.cursor().execute("ALTER TABLE ledger_ledgerevent DISABLE TRIGGER append_only_truncate")
        faults = missing_triggers(connection)
    assert faults == ["ledger_ledgerevent: trigger append_only_truncate is switched off or was altered"]


@pytest.mark.sqlite
@pytest.mark.django_db(transaction=True)
def test_triggers_lost_to_a_rebuilt_table_are_back_after_migrate():
    """SQLite drops the triggers of a table that Django rebuilds to alter it."""
    field = LedgerEvent._meta.get_field("kind")
    longer = type(field)(max_length=61)
    longer.set_attributes_from_name("kind")
    longer.model = LedgerEvent
    with connection.schema_editor() as editor:
        editor.alter_field(LedgerEvent, field, longer)
    assert any("is missing" in fault for fault in missing_triggers(connection))
    with connection.schema_editor() as editor:
        editor.alter_field(LedgerEvent, longer, field)
    call_command("migrate", verbosity=0, skip_checks=True)
    assert missing_triggers(connection) == []


@pytest.mark.postgresql
@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE ledger_chainhead SET sequence = 0",
        "INSERT INTO ledger_chainhead (name, sequence, hash) VALUES ('x', 0, '')",
        "DELETE FROM ledger_chainhead",
        "INSERT INTO ledger_ledgerevent SELECT * FROM ledger_ledgerevent",
        "UPDATE ledger_erasabletext SET text = ''",
        "TRUNCATE ledger_erasabletext",
        "DELETE FROM django_migrations",
        "DELETE FROM people_rolegrant",
        "UPDATE people_rolegrant SET role = 'manager'",
        "SELECT ledger_place('x', 'x', gen_random_uuid(), 1, now(), '', '', '')",
        "ALTER TABLE ledger_ledgerevent DISABLE TRIGGER ALL",
        "DROP TRIGGER append_only_rows ON ledger_ledgerevent",
        "CREATE TABLE ledger_shadow (id integer)",
        "SET session_replication_role = replica",
        "DROP TABLE ledger_ledgerevent",
    ],
)
def test_the_application_role_has_no_right_to(event, grant, statement):
    with pytest.raises(DatabaseError, match=r"permission denied|must be owner"), transaction.atomic():
        connection.cursor().execute(statement)
