"""A vendor enters the register, is approved for some kinds of work, and suspended. What was is never changed."""

from datetime import date, datetime

from django.db import IntegrityError, transaction
from django.utils import timezone

from engines.vendors.errors import FieldRefused, NameTaken, NotSuspended, SuspendedAlready
from engines.vendors.models import Approval, Suspension, Vendor
from engines.vendors.standing import read_scope
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

CHAIN = "stores"


@transaction.atomic
def add_vendor(*, name: str, address: str = "", by: Person, at: datetime) -> Vendor:
    """Without an approval nothing goes there yet. Raises FieldRefused, NameTaken."""
    name = " ".join(name.split())
    if not name:
        raise FieldRefused("Type the name of the vendor as it stands on its certificates.")
    if Vendor.objects.filter(name__iexact=name).exists():
        raise NameTaken(name)
    try:
        with transaction.atomic():
            vendor = Vendor.objects.create(name=name, address=address.strip(), added_by=by, added_at=at)
    except IntegrityError:
        raise NameTaken(name) from None
    record(Entry(chain=CHAIN, kind="vendor.added", of=vendor), by=by.pk, at=at)
    return vendor


@transaction.atomic
def approve(
    *, vendor: Vendor, reference: str, scope: str, valid_from: date, valid_until: date, words: str, by: Person, at: datetime
) -> Approval:
    """For the first time, or anew: from the day it begins it takes the place of the one before.

    `scope` holds a line for each kind of work, `grinding: crankshaft, camshaft`. Raises FieldRefused.
    """
    pairs = read_scope(scope)
    if not reference.strip():
        raise FieldRefused("Type the reference of the approval, such as the number on the vendor's certificate.")
    if not pairs:
        raise FieldRefused("Write a line for each kind of work with its sorts of part, such as: grinding: crankshaft, camshaft")
    if valid_until < valid_from:
        raise FieldRefused("It ends before it begins: check both days.")
    if not words.strip():
        raise FieldRefused("Say what the approval rests on, such as an audit and its day: an auditor asks for it.")
    approval = Approval.objects.create(
        vendor=vendor,
        reference=reference.strip(),
        scope=pairs,
        valid_from=valid_from,
        valid_until=valid_until,
        words=words.strip()[:600],
        granted_by=by,
        granted_at=at,
    )
    record(Entry(chain=CHAIN, kind="vendor.approved", of=approval), by=by.pk, at=at)
    return approval


@transaction.atomic
def suspend(*, vendor: Vendor, suspended_on: date, reason: str, by: Person, at: datetime) -> Suspension:
    """From a day on, which may have passed. What is out stays out until it is back. Raises FieldRefused, SuspendedAlready."""
    if not reason.strip():
        raise FieldRefused("Say why: whoever orders reads it.")
    if suspended_on > timezone.localdate(at):
        raise FieldRefused("A suspension begins today or on a day that has passed. Let the approval end where it ends later.")
    given = {"suspended_on": suspended_on, "reason": reason.strip()[:400], "suspended_by": by, "suspended_at": at}
    try:
        with transaction.atomic():
            held = Suspension.objects.create(vendor=vendor, **given)
    except IntegrityError:
        raise SuspendedAlready(vendor.name) from None
    record(Entry(chain=CHAIN, kind="vendor.suspended", of=held), by=by.pk, at=at)
    return held


@transaction.atomic
def lift(*, vendor: Vendor, words: str, by: Person, at: datetime) -> Suspension:
    """From today on; the days before stay suspended. Raises FieldRefused, NotSuspended."""
    held = Suspension.objects.select_for_update().filter(vendor=vendor, lifted_at__isnull=True).first()
    if held is None:
        raise NotSuspended(vendor.name)
    if not words.strip():
        raise FieldRefused("Say what was done, so that work may go there again.")
    held.lifted_on, held.lifted_words, held.lifted_by, held.lifted_at = timezone.localdate(at), words.strip()[:400], by, at
    held.save(update_fields=["lifted_on", "lifted_words", "lifted_by", "lifted_at"])
    record(Entry(chain=CHAIN, kind="vendor.restored", of=held), by=by.pk, at=at)
    return held
