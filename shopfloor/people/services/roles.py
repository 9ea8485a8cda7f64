"""Roles granted and ended. Nobody grants or ends their own."""

from datetime import datetime

from django.db import transaction

from shopfloor.ledger.services import Entry, record
from shopfloor.people.errors import CustomerStandsAlone, Inactive, RoleHeldAlready, RoleNotHeld
from shopfloor.people.models import Person, Role, RoleGrant
from shopfloor.people.queries import open_grants
from shopfloor.people.services.administering import lock_for_change


@transaction.atomic
def grant_role(*, person: Person, role: Role, by: Person, at: datetime) -> RoleGrant:
    """Raises RoleHeldAlready, and CustomerStandsAlone for a customer role beside any other."""
    person = lock_for_change(person, by=by)
    check_grant(person, role)
    entry = open_grant(person, role, by=by, at=at)
    record(entry, by=by.pk, at=at)
    return RoleGrant.objects.get(person=person, role=role, ended_at=None)


def check_grant(person: Person, role: Role) -> None:
    if not person.is_active:
        raise Inactive
    held = set(open_grants().filter(person=person).values_list("role", flat=True))
    if role in held:
        raise RoleHeldAlready(role.label)
    if held and (role == Role.CUSTOMER or Role.CUSTOMER in held):
        raise CustomerStandsAlone


def open_grant(person: Person, role: Role, *, by: Person | None, at: datetime) -> Entry:
    grant = RoleGrant.objects.create(person=person, role=role, granted_by=by, granted_at=at)
    return Entry(chain="people", kind="role.granted", of=grant, facts={})


@transaction.atomic
def end_role(*, person: Person, grant: RoleGrant, by: Person, at: datetime) -> None:
    """End one open grant. With the customer role the person's customer goes too."""
    person = lock_for_change(person, by=by)
    open_now = open_grants().filter(pk=grant.pk, person=person).first()
    if open_now is None:
        raise RoleNotHeld
    entries = [_end(open_now, by=by, at=at)]
    if open_now.role == Role.CUSTOMER and person.customer_id is not None:
        person.customer = None
        person.save(update_fields=["customer"])
        entries.append(Entry(chain="people", kind="person.linked", of=person, facts={}))
    record(*entries, by=by.pk, at=at)


def end_open_grants(person: Person, *, by: Person, at: datetime) -> list[Entry]:
    return [_end(grant, by=by, at=at) for grant in open_grants().filter(person=person).order_by("pk")]


def _end(grant: RoleGrant, *, by: Person, at: datetime) -> Entry:
    grant.ended_by, grant.ended_at = by, at
    grant.save(update_fields=["ended_by", "ended_at"])
    return Entry(chain="people", kind="role.ended", of=grant, facts={})
