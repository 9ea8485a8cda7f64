"""A discrepancy is a serious failure, malfunction or defect: 14 CFR 145.221 wants it reported within 96 hours of its discovery.

Neither waits for the visit to be open: the hours run on after the engine has left.
"""

from datetime import datetime

from django.db import IntegrityError, transaction

from engines.inspection.models import Discrepancy
from engines.release.errors import FieldRefused, MarkedAlready, ReportedAlready
from engines.release.models import TIME_TO_REPORT, SeriousDefect
from engines.visits.chains import chain_of
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def mark_serious(*, discrepancy: Discrepancy, by: Person, at: datetime) -> SeriousDefect:
    """The hours count from the moment that the discrepancy was raised. Raises MarkedAlready."""
    due_at = discrepancy.raised_at + TIME_TO_REPORT
    try:
        with transaction.atomic():
            marked = SeriousDefect.objects.create(discrepancy=discrepancy, due_at=due_at, marked_by=by, marked_at=at)
    except IntegrityError:
        raise MarkedAlready(discrepancy.number) from None
    record(Entry(chain=chain_of(discrepancy.visit), kind="serious-defect.marked", of=marked), by=by.pk, at=at)
    return marked


@transaction.atomic
def report_serious(*, defect: SeriousDefect, reported_to: str, by: Person, at: datetime) -> SeriousDefect:
    """Raises FieldRefused, ReportedAlready."""
    found = SeriousDefect.objects.select_for_update(of=("self",)).select_related("discrepancy__visit").get(pk=defect.pk)
    if found.reported_at:
        raise ReportedAlready(found.discrepancy.number)
    if not reported_to.strip():
        raise FieldRefused("Say to whom it was reported, and under which reference.")
    found.reported_to, found.reported_by, found.reported_at = reported_to.strip()[:200], by, at
    found.save(update_fields=["reported_to", "reported_by", "reported_at"])
    record(Entry(chain=chain_of(found.discrepancy.visit), kind="serious-defect.reported", of=found), by=by.pk, at=at)
    return found
