"""A person of the roster puts their name to what they see, and the engine may leave; later, what amends that."""

import hashlib
from datetime import datetime

from django.db import IntegrityError, transaction
from django.db.models import Max
from django.utils import timezone

from engines.release.checking import text_to_sign
from engines.release.errors import AmendedAlready, NumberTaken, SeenOtherwise
from engines.release.models import Notice, Release
from engines.release.statement import Given
from engines.visits.chains import chain_of
from engines.visits.models import Visit
from engines.visits.queries import JOINED, locked_visit
from engines.visits.services import close_visit
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def release(*, visit: Visit, given: Given, seen_sha256: str, by: Person, at: datetime) -> Release:
    """Closes the visit. Of two that release it at once the first wins: the second finds it closed.

    Raises Closed, NotAuthorised, FieldRefused, ReleaseHeld, SeenOtherwise, NumberTaken.
    """
    visit = locked_visit(visit.pk)
    signer = Person.objects.get(pk=by.pk)
    text = _seen(text_to_sign(visit, given, signer, timezone.localdate(at)), seen_sha256)
    visit = close_visit(visit=visit, by=signer, at=at)
    signed = _written(visit, given, text, signer, at)
    record(Entry(chain=chain_of(visit), kind="release.signed", of=signed), by=by.pk, at=at)
    return signed


@transaction.atomic
def amend(*, release: Release, given: Given, seen_sha256: str, by: Person, at: datetime) -> Release:
    """A release that takes the place of another, which stays, and a notice to the customer. The visit stays closed.

    Raises AmendedAlready, NotAuthorised, FieldRefused, ReleaseHeld, SeenOtherwise, NumberTaken.
    """
    Visit.objects.select_for_update().get(pk=release.visit_id)
    visit = Visit.objects.select_related(*JOINED).get(pk=release.visit_id)
    release = Release.objects.select_related("amended_by").get(pk=release.pk)
    if hasattr(release, "amended_by"):
        raise AmendedAlready(release.number, release.amended_by.number)
    signer = Person.objects.get(pk=by.pk)
    text = _seen(text_to_sign(visit, given, signer, timezone.localdate(at), amends=release), seen_sha256)
    signed = _written(visit, given, text, signer, at, amends=release)
    words = f"The record of {visit.engine} was corrected: release {signed.number} takes the place of release {release.number}."
    notice = Notice.objects.create(customer=visit.customer, release=signed, words=f"{words} Reason: {signed.reason}", made_at=at)
    chain = chain_of(visit)
    told = Entry(chain=chain, kind="notice.made", of=notice)
    record(told, Entry(chain=chain, kind="release.amended", of=signed), by=by.pk, at=at)
    return signed


def sha256_of(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def _seen(text: str, seen_sha256: str) -> str:
    if sha256_of(text) != seen_sha256:
        raise SeenOtherwise
    return text


def _written(visit: Visit, given: Given, text: str, signer: Person, at: datetime, amends: Release | None = None) -> Release:
    last = Release.objects.aggregate(last=Max("number"))["last"] or 0
    made = Release(
        visit=visit,
        number=last + 1,
        amendment=amends.amendment + 1 if amends else 0,
        status=given.status,
        description=given.description,
        completed_on=given.completed_on,
        recommendations=given.recommendations,
        certificate_kind=signer.certificate_kind,
        certificate_number=signer.certificate_number,
        shown=text,
        shown_sha256=sha256_of(text),
        signed_by=signer,
        signed_at=at,
        amends=amends,
        reason=given.reason,
    )
    made.done_by = ", ".join(made.content["done_by"])
    try:
        with transaction.atomic():
            made.save(force_insert=True)
    except IntegrityError:
        raise NumberTaken from None
    return made
