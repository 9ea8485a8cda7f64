"""Limit tables: written once, in force one at a time, and never changed behind the ledger's back."""

from decimal import Decimal

import pytest
from django.db import DatabaseError, IntegrityError, transaction

from measurements.limits.exact import exact
from measurements.limits.models import LimitRow, State
from measurements.limits.services import approve_table
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_limits import PIN_ROW, make_table
from tests.making_people import AT, make_person

pytestmark = pytest.mark.django_db


@pytest.fixture
def keeper():
    return make_person(Role.INSPECTOR)


def faults():
    return [fault.sentence for fault in verify() if "people." not in fault.sentence]


def test_rows_are_exact(keeper):
    row = exact(make_table(keeper).rows.get(row="pin"))
    assert (row.new_min, row.new_max) == (Decimal(PIN_ROW["new_min"]), Decimal(PIN_ROW["new_max"]))
    assert row.service_min is None


def test_a_newer_table_takes_the_place_of_the_older(keeper):
    older, newer = make_table(keeper), make_table(keeper, revision="2")
    approve_table(table=older, by=keeper, at=AT)
    approve_table(table=newer, by=keeper, at=AT)
    older.refresh_from_db()
    newer.refresh_from_db()
    assert (older.state, newer.state) == (State.SUPERSEDED, State.APPROVED)
    assert faults() == []


def test_a_revision_is_written_once(keeper):
    make_table(keeper)
    with pytest.raises(IntegrityError), transaction.atomic():
        make_table(keeper)


def test_a_row_never_changes(keeper):
    make_table(keeper)
    with pytest.raises(DatabaseError, match=r"append-only|permission denied"), transaction.atomic():
        LimitRow.objects.update(new_max="9")
    with pytest.raises(DatabaseError, match=r"append-only|permission denied"), transaction.atomic():
        LimitRow.objects.all().delete()


def test_the_ledger_notices_a_limit_that_was_changed(keeper, as_owner):
    table = make_table(keeper)
    assert faults() == []
    with as_owner():
        LimitRow.objects.filter(row="pin").update(new_max="1.6000")
    assert [sentence for sentence in faults() if str(table.pk) in sentence and "rows_sha256" in sentence]
    assert LedgerEvent.objects.filter(kind="limits.added").count() == 1
