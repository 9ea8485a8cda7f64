"""Two tablets press the same button at the same moment."""

import threading

import pytest
from django.db import connection

from engines.testbench import services
from engines.testbench.errors import StandRefused
from engines.testbench.models import Run
from shopfloor.ledger.models import LedgerEvent
from tests.making_runs import Stand


@pytest.mark.django_db(transaction=True)
def test_of_runs_begun_at_once_one_is_begun_and_the_others_are_told():
    stand = Stand(begun=False)
    told, start = [], threading.Barrier(4)

    def begin():
        start.wait()
        try:
            services.begin_run(visit=stand.visit, by=stand.by, at=stand.now)
        except StandRefused as refused:
            told.append(str(refused))
        finally:
            connection.close()

    threads = [threading.Thread(target=begin) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert told == ["Run 1 of this engine is going on. End it, or break it off, before another is begun."] * 3
    assert Run.objects.count() == LedgerEvent.objects.filter(kind="run.begun").count() == 1
