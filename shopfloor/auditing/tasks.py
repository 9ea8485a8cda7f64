"""The nightly look at the whole ledger; the scheduler sends it, any worker does it."""

from celery import shared_task
from django.utils import timezone

from shopfloor.auditing.services import check_ledger

TASK = "shopfloor.auditing.check_ledger"


@shared_task(name=TASK)
def nightly() -> None:
    check_ledger(by=None, at=timezone.now())
