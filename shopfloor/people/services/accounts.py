"""A person's account: added, put out of use, taken back, erased."""

from datetime import datetime

from django.contrib.auth.hashers import make_password
from django.db import IntegrityError, transaction

from shopfloor.ledger.erasure import ERASED, erase_texts
from shopfloor.ledger.services import Entry, record
from shopfloor.people.errors import AlreadySo, CertificateHalf, NameTaken
from shopfloor.people.models import Person, Role
from shopfloor.people.services.administering import lock_for_change, lock_manager
from shopfloor.people.services.passwords import initial_password
from shopfloor.people.services.roles import end_open_grants, open_grant

MARKER = "erased-person-"


@transaction.atomic
def add_person(
    *,
    username: str,
    name: str,
    certificate_kind: str = "",
    certificate_number: str = "",
    role: Role | None = None,
    by: Person,
    at: datetime,
) -> tuple[Person, str]:
    """The new person and the first password, which is shown once and must be changed at first sign-in."""
    lock_manager(by)
    password = initial_password()
    person = create_person(
        username=username,
        name=name,
        certificate_kind=certificate_kind,
        certificate_number=certificate_number,
        password=make_password(password),
        must_change_password=True,
    )
    entries = [Entry(chain="people", kind="person.added", of=person, facts={})]
    if role:
        entries.append(open_grant(person, role, by=by, at=at))
    record(*entries, by=by.pk, at=at)
    return person, password


def create_person(*, username: str, **fields: object) -> Person:
    """The name to sign in with is kept folded, so that capitals typed in haste do not matter. Raises NameTaken."""
    username = username.casefold()
    if username.startswith(MARKER):
        raise NameTaken(username)
    try:
        with transaction.atomic():
            return Person.objects.create(username=username, **fields)
    except IntegrityError:
        raise NameTaken(username) from None


@transaction.atomic
def deactivate(*, person: Person, by: Person, at: datetime) -> None:
    """The person can no longer sign in, and open sessions end at their next request. Roles stay for a return."""
    person = lock_for_change(person, by=by)
    if not person.is_active:
        raise AlreadySo("inactive")
    person.is_active = False
    person.save(update_fields=["is_active"])
    record(Entry(chain="people", kind="person.deactivated", of=person, facts={}), by=by.pk, at=at)


@transaction.atomic
def reactivate(*, person: Person, by: Person, at: datetime) -> None:
    person = lock_for_change(person, by=by)
    if person.is_active:
        raise AlreadySo("active")
    person.is_active = True
    person.save(update_fields=["is_active"])
    record(Entry(chain="people", kind="person.reactivated", of=person, facts={}), by=by.pk, at=at)


@transaction.atomic
def set_certificate(*, person: Person, kind: str, number: str, by: Person, at: datetime) -> None:
    """What a person is certificated as, and under which number; both blank: nothing. Raises CertificateHalf, AlreadySo."""
    person = lock_for_change(person, by=by)
    kind, number = kind.strip(), number.strip()
    if bool(kind) != bool(number):
        raise CertificateHalf
    if (person.certificate_kind, person.certificate_number) == (kind, number):
        raise AlreadySo("on record with this certificate")
    person.certificate_kind, person.certificate_number = kind, number
    person.save(update_fields=["certificate_kind", "certificate_number"])
    record(Entry(chain="people", kind="person.certificated", of=person, facts={}), by=by.pk, at=at)


@transaction.atomic
def erase_person(*, person: Person, by: Person, at: datetime) -> None:
    """Remove for good what names the person. The number stays, so that every signature still has its one signer."""
    person = lock_for_change(person, by=by)
    ended = end_open_grants(person, by=by, at=at)
    person.username = f"{MARKER}{person.pk}"
    person.name = f"erased person {person.pk}"
    person.certificate_kind = person.certificate_number = ERASED
    person.customer = None
    person.is_active = False
    person.erased_at = at
    person.last_login = None
    person.set_unusable_password()
    person.save()
    erase_texts(of=person)
    record(*ended, Entry(chain="people", kind="person.erased", of=person, facts={}), by=by.pk, at=at)
