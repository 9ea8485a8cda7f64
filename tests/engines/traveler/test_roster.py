"""The roster: who grants what to whom, and for how long."""

from datetime import date, timedelta

import pytest
from django.db import IntegrityError, transaction

from engines.traveler.authority import why_not
from engines.traveler.errors import AuthorisationRefused, EndedAlready
from engines.traveler.models import Authorisation, Authorised
from engines.traveler.needs import RELEASING
from engines.traveler.services import authorise, end_authorisation
from shopfloor.ledger.queries import verify
from shopfloor.people.errors import NotAManager, OwnAccount
from shopfloor.people.models import Role
from tests.making_packs import make_pack
from tests.making_people import AT, make_person

pytestmark = pytest.mark.django_db
DAY = date(2026, 3, 2)


@pytest.fixture
def manager():
    return make_person(Role.MANAGER)


@pytest.fixture
def inspector():
    return make_person(Role.INSPECTOR)


def grant(person, by, **given):
    granted = {"what": Authorised.RELEASE, "covers": (), "valid_from": DAY, "valid_until": None, "training": "engine course"}
    return authorise(person=person, **granted | given, by=by, at=AT)


def test_nobody_grants_or_ends_their_own(manager, inspector):
    with pytest.raises(OwnAccount):
        grant(manager, manager)
    with pytest.raises(NotAManager):
        grant(inspector, make_person(Role.INSPECTOR))
    given = grant(manager, make_person(Role.MANAGER))
    with pytest.raises(OwnAccount):
        end_authorisation(authorisation=given, by=manager, at=AT)
    with pytest.raises(IntegrityError), transaction.atomic():
        Authorisation.objects.create(
            person=manager, what="release", valid_from=DAY, training="x", granted_by=manager, granted_at=AT
        )


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"training": " "}, "training or experience"),
        ({"valid_until": DAY - timedelta(days=1)}, "ends before it begins"),
        ({"covers": ("T9",)}, "No engine data is on record for T9"),
        ({"what": Authorised.WORK}, "Choose which work"),
        ({"what": Authorised.WORK, "kinds": ["locking", "magic"]}, "no work of the kind magic"),
        ({"what": Authorised.WORK, "kinds": ["locking"], "level": 4}, "go from 1 to 3"),
        ({"kinds": ["locking"]}, "for work at operations only"),
        ({"level": 2}, "for work at operations only"),
    ],
)
def test_an_entry_that_means_nothing_is_refused(manager, inspector, given, words):
    with pytest.raises(AuthorisationRefused, match=words):
        grant(inspector, manager, **given)
    assert not Authorisation.objects.exists()


def test_it_counts_for_its_models_and_its_days_until_it_is_ended(manager, inspector):
    make_pack(manager, inspector)
    given = grant(inspector, manager, covers=["T2-90"], valid_until=DAY)

    def counts(model="T2-90", day=DAY):
        return not why_not(inspector, RELEASING, model, day)

    assert counts()
    assert not counts(model="F6-240")
    assert not counts(day=DAY + timedelta(days=1))
    assert not counts(day=DAY - timedelta(days=1))
    end_authorisation(authorisation=given, by=manager, at=AT)
    assert not counts()
    with pytest.raises(EndedAlready):
        end_authorisation(authorisation=given, by=manager, at=AT)
    assert [fault for fault in verify() if str(given.pk) in fault.sentence] == []


def test_somebody_who_left_is_not_authorised(manager):
    with pytest.raises(AuthorisationRefused, match="not active"):
        grant(make_person(Role.INSPECTOR, is_active=False), manager)
