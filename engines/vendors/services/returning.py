"""The part comes back, with the vendor's papers or without them, and an inspector looks at it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from functools import partial

from django.db import transaction
from django.utils import timezone

from engines.parts.models import Certificate
from engines.parts.services import book_evidence
from engines.parts.services.evidence import Upload
from engines.vendors.errors import Ended, EvidenceMissing, FieldRefused, NotAnInspector, NotBack, NotSent
from engines.vendors.models import Back, Look, OutsideWork, Seen
from engines.vendors.services.chains import entries_of
from engines.vendors.services.ordering import approval_for, end, locked
from shopfloor.ledger.services import record
from shopfloor.people.models import Person
from shopfloor.people.permissions import Permission, may

CERTIFICATE = "vendor's certificate"


@dataclass(frozen=True)
class Papers:
    """The vendor's certificate, what it says was done, and the number of each other paper that the data ask for."""

    certificate: str
    dated: date | None
    did: str
    numbers: Mapping[str, str] = field(default_factory=dict)
    upload: Upload | None = None


@transaction.atomic
def receive_back(*, order: OutsideWork, papers: Papers | None = None, without: str = "", by: Person, at: datetime) -> Back:
    """With all the papers asked for, from a vendor that was approved on the day of its certificate; or `without` and why.

    Raises NotSent, Ended, FieldRefused, EvidenceMissing, NotApproved.
    """
    order, _ = locked(order.pk)
    if order.ended_at:
        raise Ended(order.number)
    if not hasattr(order, "sent"):
        raise NotSent(order.number)
    if (papers is None) == (not without.strip()):
        raise FieldRefused("It comes back either with its papers or without them: say which, and without them say why.")
    certificate = _booked(order, papers, by, at) if papers else None
    back = Back.objects.create(
        order=order,
        certificate=certificate,
        did=papers.did.strip()[:600] if papers else "",
        papers=[f"{name}: {papers.numbers[name].strip()}" for name in order.evidence] if papers else [],
        without=without.strip()[:400],
        back_by=by,
        back_at=at,
    )
    end(order, at)
    record(*entries_of(order, ("outside-work.back", back), ("outside-work.ended", order)), by=by.pk, at=at)
    return back


@transaction.atomic
def look(*, order: OutsideWork, verdict: str, words: str, by: Person, at: datetime) -> Look:
    """What came back is as asked, or damaged or wrong; without its papers it is never as asked.

    Raises NotAnInspector, NotBack, FieldRefused.
    """
    if not may(by, Permission.ACCEPT_WORK):
        raise NotAnInspector
    order, _ = locked(order.pk)
    if not order.is_back or hasattr(order, "look"):
        raise NotBack(order.number)
    if verdict not in Seen.values:
        raise FieldRefused(f"Choose one of: {', '.join(Seen.values)}.")
    if verdict == Seen.AS_ASKED and order.back.without:
        raise FieldRefused("It came back without its papers, so nothing shows what was done. Say that it is damaged or wrong.")
    if verdict == Seen.WRONG and not words.strip():
        raise FieldRefused("Say what is wrong, so that whoever decides can see it before them.")
    seen = Look.objects.create(order=order, verdict=verdict, words=words.strip()[:400], looked_by=by, looked_at=at)
    record(*entries_of(order, ("outside-work.looked-at", seen)), by=by.pk, at=at)
    return seen


def _booked(order: OutsideWork, papers: Papers, by: Person, at: datetime) -> Certificate:
    """The certificate, as evidence of the item with every other paper."""
    dated = _checked(order, papers, timezone.localdate(at))
    approval_for(order.vendor, order.work, order.part, dated)
    book = partial(book_evidence, item=order.item, issued_by=order.vendor.name, issued_on=dated, by=by, at=at)
    certificate = book(kind=CERTIFICATE, number=papers.certificate, upload=papers.upload)
    for name in order.evidence:
        book(kind=name, number=papers.numbers[name])
    return certificate


def _checked(order: OutsideWork, papers: Papers, today: date) -> date:
    missing = [name for name in order.evidence if not papers.numbers.get(name, "").strip()]
    missing = [*([] if papers.certificate.strip() else [CERTIFICATE]), *missing]
    if missing:
        raise EvidenceMissing(missing)
    if not papers.did.strip():
        raise FieldRefused("Say what the vendor did, as it stands on the certificate.")
    sent_on = timezone.localdate(order.sent.sent_at)
    if papers.dated is None or not sent_on <= papers.dated <= today:
        raise FieldRefused(f"The certificate is dated from the day it was sent ({sent_on}) to today. Check the day on the paper.")
    return papers.dated
