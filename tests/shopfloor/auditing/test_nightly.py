"""The nightly check of the ledger: what it found is kept in the ledger itself, and faults are logged."""

import pytest
from django.db import connection
from django.utils import timezone

from shopfloor.auditing.services import check_ledger
from shopfloor.auditing.tasks import TASK, nightly
from shopfloor.ledger.kinds import sentence_of
from shopfloor.ledger.models import LedgerEvent
from shopfloor.people.services import add_first_manager

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def manager():
    return add_first_manager(username="manager", name="Shop manager", password="seven quiet bearings", at=timezone.now())


def test_a_sound_ledger(manager):
    nightly()
    event = LedgerEvent.objects.get(kind="ledger.checked")
    assert (event.chain, event.by) == ("shop", None)
    assert sentence_of(event) == "the whole ledger was checked; no fault"
    assert check_ledger(by=manager, at=timezone.now()) == 0


def test_a_forged_record_is_found_logged_and_kept(manager, as_owner, caplog):
    with as_owner(), connection.cursor() as cursor:
        cursor.execute("UPDATE people_rolegrant SET role = 'auditor'")
    found = check_ledger(by=None, at=timezone.now())
    event = LedgerEvent.objects.get(kind="ledger.checked")
    assert found > 0
    assert event.body["facts"]["faults"] == str(found)
    assert event.body["facts"]["first"][0] in caplog.text
    assert sentence_of(event) == f"the ledger was checked; {found} fault(s) found"


def test_the_scheduler_sends_a_task_that_workers_know():
    from shopfloor.celery import app

    (due,) = app.conf.beat_schedule.values()
    app.loader.import_default_modules()
    assert due["task"] == TASK
    assert TASK in app.tasks
