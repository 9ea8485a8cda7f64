"""A notice to a customer is seen."""

from datetime import datetime

from django.db import transaction

from engines.release.errors import SeenAlready
from engines.release.models import Notice
from engines.visits.chains import chain_of
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def see_notice(*, notice: Notice, by: Person, at: datetime) -> Notice:
    """By a person of the customer. Raises SeenAlready."""
    notice = Notice.objects.select_for_update(of=("self",)).select_related("release__visit").get(pk=notice.pk)
    if notice.seen_at:
        raise SeenAlready
    notice.seen_by, notice.seen_at = by, at
    notice.save(update_fields=["seen_by", "seen_at"])
    record(Entry(chain=chain_of(notice.release.visit), kind="notice.seen", of=notice), by=by.pk, at=at)
    return notice
