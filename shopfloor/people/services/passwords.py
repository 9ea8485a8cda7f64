"""Passwords: made by the shop for a first sign-in, chosen by their owner after it."""

import secrets
from datetime import datetime

from django.contrib.auth.hashers import check_password, make_password
from django.db import transaction

from shopfloor.ledger.services import Entry, record
from shopfloor.people.errors import Inactive, WrongPassword
from shopfloor.people.models import Person
from shopfloor.people.services.administering import lock_for_change
from shopfloor.people.services.sign_in import counted

UNMISTAKABLE = "abcdefghjkmnpqrstuvwxyz23456789"


def initial_password() -> str:
    """Four groups of four, without letters and digits that look alike on paper."""
    return "-".join("".join(secrets.choice(UNMISTAKABLE) for _ in range(4)) for _ in range(4))


@transaction.atomic
def reset_password(*, person: Person, by: Person, at: datetime) -> str:
    """A new first password, shown once. Every session of the person ends, because sessions are bound to the old one."""
    person = lock_for_change(person, by=by)
    if not person.is_active:
        raise Inactive
    password = initial_password()
    person.password = make_password(password)
    person.must_change_password = True
    person.save(update_fields=["password", "must_change_password"])
    record(Entry(chain="people", kind="password.reset", of=person, facts={}), by=by.pk, at=at)
    return password


def change_own_password(*, current: str, new: str, by: Person, at: datetime) -> Person:
    """Raises WrongPassword or TooManyTries as a sign-in does: a borrowed session must not help to guess."""
    with counted(by.username, at=at) as count:
        if not check_password(current, by.password):
            raise WrongPassword
        count.forget()
    return _set_own_password(password=make_password(new), replaces=by.password, by=by, at=at)


@transaction.atomic
def _set_own_password(*, password: str, replaces: str, by: Person, at: datetime) -> Person:
    # A reset by the manager may have come in between; the password that was checked must still be the one replaced.
    person = Person.objects.select_for_update().filter(pk=by.pk, password=replaces, is_active=True).first()
    if person is None:
        raise WrongPassword
    person.password = password
    person.must_change_password = False
    person.save(update_fields=["password", "must_change_password"])
    record(Entry(chain="people", kind="password.changed", of=person, facts={}), by=by.pk, at=at)
    return person
