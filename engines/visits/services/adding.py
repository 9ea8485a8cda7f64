"""Work that the pinned data do not ask for: asked for by one person, and part of the visit once another has approved it.

Called by `traveler` only, which holds the operation against the data first.
"""

from dataclasses import asdict
from datetime import datetime

from django.db import transaction

from engines.catalogue.data import STAGES, Operation
from engines.visits.chains import chain_of
from engines.visits.errors import AdditionDecided, FieldRefused, OwnAddition, StagePassed
from engines.visits.models import AddedOperation, Visit
from engines.visits.queries import locked_visit
from shopfloor.ledger.canonical import canonical
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

REASON, WORDS = 600, 400


@transaction.atomic
def ask_for_operation(
    *, visit: Visit, operation: Operation, from_data: bool, reason: str, by: Person, at: datetime
) -> AddedOperation:
    """Raises Closed, FieldRefused without a reason, StagePassed."""
    visit = locked_visit(visit.pk)
    if not reason.strip():
        raise FieldRefused("Say why it is added: the reason stands on the traveler.")
    _check_stage(visit, operation.area, operation.stage)
    added = AddedOperation.objects.create(
        visit=visit,
        area=operation.area,
        stage=operation.stage,
        code=operation.code,
        content=canonical(asdict(operation)).decode(),
        from_data=from_data,
        reason=reason.strip()[:REASON],
        asked_by=by,
        asked_at=at,
    )
    record(Entry(chain=chain_of(visit), kind="addition.asked", of=added), by=by.pk, at=at)
    return added


@transaction.atomic
def approve_addition(*, added: AddedOperation, by: Person, at: datetime) -> Visit:
    """By another person; the visit with the operation in its route. Raises Closed, OwnAddition, AdditionDecided, StagePassed."""
    visit = locked_visit(added.visit_id)
    added = _undecided(added)
    if added.asked_by_id == by.pk:
        raise OwnAddition
    _check_stage(visit, added.area, added.stage)
    visit.added = [*visit.added, str(added.pk)]
    visit.save(update_fields=["added"])
    decided = _decided(added, True, "", by, at)
    chain = chain_of(visit)
    record(
        Entry(chain=chain, kind="addition.decided", of=decided),
        Entry(chain=chain, kind="visit.operation-added", of=visit),
        by=by.pk,
        at=at,
    )
    return visit


@transaction.atomic
def refuse_addition(*, added: AddedOperation, words: str, by: Person, at: datetime) -> AddedOperation:
    """By whoever may add: who asked for it may take it back. Raises Closed, AdditionDecided, FieldRefused without words."""
    visit = locked_visit(added.visit_id)
    added = _undecided(added)
    if not words.strip():
        raise FieldRefused("Say why it is not to be done.")
    decided = _decided(added, False, words.strip()[:WORDS], by, at)
    record(Entry(chain=chain_of(visit), kind="addition.decided", of=decided), by=by.pk, at=at)
    return decided


def _undecided(added: AddedOperation) -> AddedOperation:
    added = AddedOperation.objects.select_for_update().get(pk=added.pk)
    if added.decided_at:
        raise AdditionDecided
    return added


def _decided(added: AddedOperation, approved: bool, words: str, by: Person, at: datetime) -> AddedOperation:
    added.approved, added.decided_words, added.decided_by, added.decided_at = approved, words, by, at
    added.save(update_fields=["approved", "decided_words", "decided_by", "decided_at"])
    return added


def _check_stage(visit: Visit, code: str, stage: str) -> None:
    area = visit.areas.filter(code=code).first()
    if area is None:
        raise FieldRefused("Choose an area of this engine.")
    if STAGES.index(stage) < STAGES.index(area.stage):
        raise StagePassed(area.name, area.stage, stage)
