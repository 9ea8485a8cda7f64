"""What pages and gates ask of the traveler."""

from collections.abc import Iterable
from uuid import UUID

from django.db.models import F, QuerySet

from engines.traveler.models import Authorisation, Entry, Operation, Reopening, Signature
from engines.visits.models import AddedOperation, Visit
from engines.visits.queries import joined_to


def operations() -> QuerySet[Operation]:
    joined = Operation.objects.select_related(*joined_to("area__visit"), "signed_by", "accepted_by")
    return joined.defer("area__visit__pack__content").order_by("order")


def operations_of(visit: Visit) -> QuerySet[Operation]:
    """Of the whole visit, in the order of the route."""
    joined = ("area__visit", "signed_by", "accepted_by")
    return Operation.objects.filter(area__visit=visit).select_related(*joined).order_by("order")


def locked_operation(pk: UUID, visit: Visit) -> Operation:
    """For a write on this operation of a visit that is locked already."""
    joined = Operation.objects.select_related("area", "signed_by", "accepted_by")
    operation = joined.select_for_update(of=("self",)).get(pk=pk, area__visit=visit)
    operation.area.visit = visit
    return operation


def entries_of(operation: Operation) -> QuerySet[Entry]:
    """What was entered in this round."""
    return Entry.objects.filter(operation=operation, round=operation.round).select_related("entered_by")


def entries_of_all(operations: Iterable[Operation]) -> QuerySet[Entry]:
    """What was entered in the round of each of them now, in its order."""
    return Entry.objects.filter(operation__in=[each.pk for each in operations], round=F("operation__round"))


def signatures_of(operation: Operation) -> QuerySet[Signature]:
    return Signature.objects.filter(operation=operation).select_related("signed_by")


def reopenings_of(operation: Operation) -> QuerySet[Reopening]:
    return Reopening.objects.filter(operation=operation).select_related("reopened_by").order_by("reopened_at")


def addition_of(operation: Operation) -> AddedOperation | None:
    """What it was added for, where it is no operation of the data; no query where the visit has none such."""
    visit = operation.area.visit
    found = AddedOperation.objects.filter(pk__in=visit.added, code=operation.code) if visit.added else None
    return found.select_related("asked_by", "decided_by").first() if found is not None else None


def waiting_for_acceptance() -> QuerySet[Operation]:
    """Hold points that are signed and not accepted yet, the oldest first."""
    open_ones = operations().filter(hold_point=True, signed_at__isnull=False, accepted_at__isnull=True)
    return open_ones.filter(area__visit__closed_at__isnull=True).order_by("signed_at", "id")


def authorisations() -> QuerySet[Authorisation]:
    """The whole roster, ended entries too, the newest first."""
    return Authorisation.objects.select_related("person", "granted_by", "ended_by")
