"""Persons and customers for tests, made quickly and directly. Use the services where the ledger must verify."""

from datetime import UTC, datetime
from itertools import count

from django.contrib.auth.hashers import make_password

from shopfloor.people.models import Customer, Person, Role, RoleGrant

AT = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
PASSWORD = "seven quiet bearings"
_number = count(1)
_hash = make_password(PASSWORD)


def make_customer(name: str = "") -> Customer:
    return Customer.objects.create(name=name or f"Lowfold Flying Club {next(_number)}")


def make_person(*roles: Role, **fields) -> Person:
    username = fields.pop("username", "") or f"{roles[0] if roles else 'person'}{next(_number)}"
    person = Person.objects.create(username=username, name=f"The {username}", password=_hash, **fields)
    for role in roles:
        make_grant(person, role)
    return person


def make_grant(person: Person, role: Role) -> RoleGrant:
    return RoleGrant.objects.create(person=person, role=role, granted_by=None, granted_at=AT)
