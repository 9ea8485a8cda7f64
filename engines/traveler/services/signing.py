"""A person puts their name to what they see. Their password was asked for again before this is called."""

import hashlib
from datetime import datetime

from django.db import IntegrityError, transaction
from django.utils.timezone import localdate

from engines.inspection.services import raise_discrepancy
from engines.steps.parts_out import parts_out
from engines.steps.registry import step_of
from engines.traveler.authority import check_authorised
from engines.traveler.errors import NothingToAccept, NotYet, SameHand, SeenOtherwise, SignedAlready
from engines.traveler.models import Act, Authorisation, Operation, Signature
from engines.traveler.needs import ACCEPTING, need_at
from engines.traveler.queries import locked_operation
from engines.traveler.work import shown_text, still_missing, waits_for, work_on
from engines.visits.chains import chain_of
from engines.visits.queries import locked_visit
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

KINDS = {Act.DONE: "operation.signed", Act.ACCEPTED: "operation.accepted"}


@transaction.atomic
def sign(*, operation: Operation, seen_sha256: str, by: Person, at: datetime) -> Operation:
    """By whoever did it. A reading that is not good and that nobody was asked about becomes a discrepancy with the signature.

    Raises SignedAlready, NotAuthorised, NotYet with all that is missing, SeenOtherwise.
    """
    visit = locked_visit(operation.area.visit_id)
    operation = locked_operation(operation.pk, visit)
    if operation.signed_at:
        raise SignedAlready(operation.title)
    work, step = work_on(visit, operation, at, by), step_of(operation.kind)
    under = check_authorised(by, need_at(work.operation), work.data.model, localdate(at))
    if reasons := [*waits_for(visit, operation), *still_missing(operation, work), *step.refuses_signer(work, by)]:
        raise NotYet(reasons)
    text = _seen(shown_text(operation, work), seen_sha256)
    for reading in step.undecided(work):
        raise_discrepancy(visit=visit, area="", words="", reading=reading, by=by, at=at)
    operation.signed_by, operation.signed_at = by, at
    operation.save(update_fields=["signed_by", "signed_at"])
    return _record(operation, Act.DONE, text, under, by, at)


@transaction.atomic
def accept(*, operation: Operation, seen_sha256: str, by: Person, at: datetime) -> Operation:
    """By another person, at a hold point. Raises NothingToAccept, SameHand, NotAuthorised, NotYet, SeenOtherwise."""
    visit = locked_visit(operation.area.visit_id)
    operation = locked_operation(operation.pk, visit)
    if not operation.hold_point or not operation.signed_at or operation.accepted_at:
        raise NothingToAccept
    if operation.signed_by_id == by.pk:
        raise SameHand
    under = check_authorised(by, ACCEPTING, visit.pack.model.code, localdate(at))
    work = work_on(visit, operation)
    if out := parts_out(work.now, work.operation):
        raise NotYet(out)
    text = _seen(shown_text(operation, work), seen_sha256)
    operation.accepted_by, operation.accepted_at = by, at
    operation.save(update_fields=["accepted_by", "accepted_at"])
    return _record(operation, Act.ACCEPTED, text, under, by, at)


def sha256_of(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def _seen(text: str, seen_sha256: str) -> str:
    if sha256_of(text) != seen_sha256:
        raise SeenOtherwise
    return text


def _record(operation: Operation, act: Act, text: str, under: Authorisation, by: Person, at: datetime) -> Operation:
    try:
        with transaction.atomic():
            signature = Signature.objects.create(
                operation=operation,
                round=operation.round,
                act=act,
                shown=text,
                shown_sha256=sha256_of(text),
                signed_by=by,
                signed_at=at,
                under=under,
            )
    except IntegrityError:
        raise SignedAlready(operation.title) from None
    chain = chain_of(operation.area.visit)
    record(
        Entry(chain=chain, kind=KINDS[act], of=operation),
        Entry(chain=chain, kind="signature.given", of=signature),
        by=by.pk,
        at=at,
    )
    return operation
