"""An operation is opened again with a reason, and with it what depends on it. The earlier round stays."""

from collections.abc import Iterable
from datetime import datetime

from django.db import transaction
from django.db.models import F

from engines.catalogue.data import STAGES
from engines.catalogue.models import Pack
from engines.catalogue.queries import data_of
from engines.steps.registry import step_of
from engines.traveler.errors import ReasonMissing
from engines.traveler.models import Entry as Entered
from engines.traveler.models import Operation, Reopening
from engines.traveler.queries import operations_of
from engines.traveler.work import still_missing, work_on
from engines.visits.chains import chain_of
from engines.visits.models import Visit, VisitArea
from engines.visits.queries import locked_visit
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def reopen(*, operation: Operation, reason: str, by: Person, at: datetime) -> list[Operation]:
    """The operation and every signed one that depends on it. Raises ReasonMissing."""
    locked_visit(operation.area.visit_id)
    return reopen_with_dependents(operation, _reason(reason), by=by, at=at)


@transaction.atomic
def reopen_from(*, area: VisitArea, stage: str, reason: str, by: Person, at: datetime) -> list[Operation]:
    """Every signed operation of the area from that stage on, and what depends on them. Raises ReasonMissing."""
    reason = _reason(reason)
    visit = locked_visit(area.visit_id)
    every = list(operations_of(visit))
    begun = [each for each in every if each.area_id == area.pk and STAGES.index(each.stage) >= STAGES.index(stage)]
    return _open_again(_with_dependents(begun, every, visit.pack), reason, by, at)


def reopen_with_dependents(operation: Operation, reason: str, *, by: Person, at: datetime) -> list[Operation]:
    visit = operation.area.visit
    every = list(operations_of(visit))
    return _open_again(_with_dependents([operation], every, visit.pack), reason, by, at)


def ask_again(visit: Visit, by: Person, at: datetime) -> list[Operation]:
    """What the data ask for anew after a rework, where something of it is no longer done. What depends on it stays as it was."""
    planned = data_of(visit.pack).operations
    codes = [each.code for each in planned if step_of(each.kind).is_again_after_rework(each)]
    signed = list(operations_of(visit).filter(code__in=codes, signed_at__isnull=False)) if codes else []
    opened = []
    for operation in signed:
        if left := still_missing(operation, work_on(visit, operation, at)):
            opened += _open_again([operation], _reason(f"After a rework: {' '.join(left)}"), by, at)
    return opened


def _reason(text: str) -> str:
    if not text.strip():
        raise ReasonMissing
    return text.strip()[:400]


def _with_dependents(begun: Iterable[Operation], every: list[Operation], pack: Pack) -> list[Operation]:
    """Those that are signed, and of those that depend on them also the half done: what they rest on is gone."""
    begun = list(begun)
    after = {code: planned.after for code, planned in data_of(pack).operation_by_code.items()}
    codes = {each.code for each in begun}
    while more := {each.code for each in every if codes & set(after[each.code])} - codes:
        codes |= more
    here = [each for each in every if each.code in codes]
    unsigned = [each.pk for each in here if not each.signed_at and each not in begun]
    half_done = set(
        Entered.objects.filter(operation__in=unsigned, round=F("operation__round")).values_list("operation_id", flat=True)
    )
    return [each for each in here if each.signed_at or each.pk in half_done]


def _open_again(operations: list[Operation], reason: str, by: Person, at: datetime) -> list[Operation]:
    entries = []
    for operation in operations:
        reopening = Reopening.objects.create(
            operation=operation, round=operation.round, reason=reason, reopened_by=by, reopened_at=at
        )
        operation.round += 1
        operation.signed_by = operation.signed_at = operation.accepted_by = operation.accepted_at = None
        operation.save(update_fields=["round", "signed_by", "signed_at", "accepted_by", "accepted_at"])
        chain = chain_of(operation.area.visit)
        entries += [
            Entry(chain=chain, kind="operation.reopened", of=operation),
            Entry(chain=chain, kind="reopening.noted", of=reopening),
        ]
    if entries:
        record(*entries, by=by.pk, at=at)
    return operations
