"""Signing in, with tries counted in the database per typed name."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth.hashers import check_password, make_password
from django.db import transaction
from django.utils.crypto import salted_hmac

from shopfloor.ledger.services import Entry, record
from shopfloor.people.errors import TooManyTries, WrongPassword
from shopfloor.people.models import Person, SignInCount

TRIES = 5
FIRST_WAIT, LONGEST_WAIT = timedelta(minutes=1), timedelta(hours=1)
FORGOTTEN_AFTER = timedelta(days=1)


def sign_in(*, username: str, password: str, at: datetime) -> Person:
    """The person, or WrongPassword or TooManyTries. An unknown name costs the same time and reads the same.

    Success writes no event: a session is no record. A lock-out does, whether or not the name belongs to anybody.
    """
    with counted(username, at=at) as count:
        person = Person.objects.filter(username=username.casefold()).first()
        if person is None:
            make_password(password)
            raise WrongPassword
        if not check_password(password, person.password) or not person.is_active:
            raise WrongPassword
        count.forget()
    return person


@dataclass(frozen=True)
class Count:
    name_hash: str
    wrong: int
    refused_until: datetime | None

    def forget(self) -> None:
        """The password was right: the name starts afresh."""
        SignInCount.objects.filter(name_hash=self.name_hash).delete()


@contextmanager
def counted(username: str, *, at: datetime) -> Iterator[Count]:
    """Count a try before the password is looked at; record the lock-out when it proves wrong and was the last one.

    The race: twenty guesses arrive together, each reads "four wrong so far", and all twenty are tried. So the count is
    taken first: lock the row, decide, write, commit; only then is the password hashed. Whoever comes sixth is refused
    even if the first five are still being hashed, and a right password during the wait is refused too.
    """
    count = _take_a_try(username, at=at)
    try:
        yield count
    except WrongPassword:
        if count.refused_until:
            _record_lock_out(username, count, at=at)
        raise


@transaction.atomic(durable=True)
def _take_a_try(username: str, *, at: datetime) -> Count:
    SignInCount.objects.filter(asked_at__lt=at - FORGOTTEN_AFTER).delete()
    name_hash = salted_hmac("shopfloor.people.sign_in", username.casefold(), algorithm="sha256").hexdigest()
    # Insert or update in one statement: it locks the row on PostgreSQL, whether or not it existed; SQLite's immediate
    # transaction has locked the whole database already.
    SignInCount.objects.bulk_create(
        [SignInCount(name_hash=name_hash, asked_at=at)],
        update_conflicts=True,
        unique_fields=["name_hash"],
        update_fields=["asked_at"],
    )
    row = SignInCount.objects.get(name_hash=name_hash)
    if row.refused_until and at < row.refused_until:
        raise TooManyTries(row.refused_until, at)
    row.wrong += 1
    row.refused_until = at + wait_after(row.wrong) if row.wrong >= TRIES else None
    row.save(update_fields=["wrong", "refused_until"])
    return Count(name_hash, row.wrong, row.refused_until)


def wait_after(wrong: int) -> timedelta:
    """One minute after the last free try, doubled by each wrong one after it, an hour at most."""
    return min(FIRST_WAIT * (1 << min(wrong - TRIES, 10)), LONGEST_WAIT)


@transaction.atomic
def _record_lock_out(username: str, count: Count, *, at: datetime) -> None:
    person = Person.objects.filter(username=username.casefold()).values_list("pk", flat=True).first()
    facts = {"person": str(person) if person else None, "tries": str(count.wrong)}
    record(Entry(chain="people", kind="sign-in.locked", of=None, facts=facts), by=None, at=at)


def confirm_password(*, password: str, by: Person, at: datetime) -> None:
    """The person types their password again before a signature. Raises WrongPassword or TooManyTries, as a sign-in does."""
    with counted(by.username, at=at) as count:
        if not check_password(password, by.password):
            raise WrongPassword
        count.forget()
