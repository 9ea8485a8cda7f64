"""What persons of the tests are authorised for, written together for speed: every kind of work, on every model."""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from django.db import transaction

from engines.steps.registry import STEPS
from engines.traveler.models import HIGHEST_LEVEL, Authorisation, Authorised
from engines.traveler.services.authorising import CHAIN
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person, Role
from tests.making_people import AT, make_person

SINCE = date(2020, 1, 1)


def entrust(*persons: Person, whats: Iterable[str] = (Authorised.WORK,), by: Person, **fields: Any) -> list[Authorisation]:
    """Authorise each of them for each of these."""
    return entrust_each(dict.fromkeys(persons, tuple(whats)), by=by, **fields)


@transaction.atomic
def entrust_each(whats: Mapping[Person, Iterable[str]], *, by: Person, **fields: Any) -> list[Authorisation]:
    granted = {"valid_from": SINCE, "training": "invented course", "granted_by": by, "granted_at": AT}
    work = {"kinds": list(STEPS), "level": HIGHEST_LEVEL}
    made = Authorisation.objects.bulk_create(
        Authorisation(person=person, what=what, **granted | (work if what == "work" else {}) | fields)
        for person, each in whats.items()
        for what in each
    )
    record(*(Entry(chain=CHAIN, kind="authorisation.granted", of=each) for each in made), by=by.pk, at=AT)
    return made


def make_approver(by: Person) -> Person:
    """An inspector whom the manager lets approve engine data."""
    inspector = make_person(Role.INSPECTOR)
    entrust(inspector, whats=[Authorised.DATA_APPROVAL], by=by)
    return inspector
