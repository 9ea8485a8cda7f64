"""The invented shop: loads once, completes what was cut short, and keeps away from real shops."""

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone

from engines.catalogue.data import AREA_STAGES
from engines.inspection.models import Discrepancy, Taken, WorkAsked
from engines.release.models import Release
from engines.scenario.chapters import people
from engines.scenario.chapters.people import ACCOUNTS
from engines.scenario.checks import check_no_scenario
from engines.scenario.passwords import DEMO_PASSWORD
from engines.scenario.saying import nobody
from engines.scenario.services import Refused, load_scenario
from engines.scenario.story import CHAPTERS
from engines.testbench.models import Run
from engines.visits.models import Visit, VisitArea
from measurements.readings.models import Sheet
from shopfloor.ledger.kinds import sentence_of
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Customer, Person, Role
from shopfloor.people.queries import roles_of
from tests.making_people import make_person

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture(autouse=True)
def quick_passwords(settings):
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture(autouse=True)
def without_engines(monkeypatch):
    """Engine data and eight engines take their time; one test below tells all."""
    monkeypatch.setattr("engines.scenario.services.CHAPTERS", CHAPTERS[:4])


@pytest.fixture
def with_packs(monkeypatch):
    monkeypatch.setattr("engines.scenario.services.CHAPTERS", CHAPTERS[:5])


def load():
    return load_scenario(at=timezone.now())


def events():
    return LedgerEvent.objects.count()


@pytest.mark.timeout(400)
def test_it_loads_once(monkeypatch):
    monkeypatch.setattr("engines.scenario.services.CHAPTERS", CHAPTERS)
    assert load() == ["people", "authorisations", "gauges", "sheets", "packs", "vendors", "engines"]
    before = events()
    assert load() == []
    assert events() == before
    assert list(verify()) == []
    assert Visit.objects.count() == 10
    assert {area.stage for area in VisitArea.objects.all()} == {*AREA_STAGES, "close-up", "test", "release"}
    assert [run.outcome for run in Run.objects.order_by("pk")] == ["", "failed", "passed"]
    released = Release.objects.get()
    assert (released.status, released.visit.engine.item.serial) == ("overhauled", "F4-0150")
    assert [each.waits for each in WorkAsked.objects.all()] == [True]
    decided = set(Discrepancy.objects.filter(dispositions__isnull=False).values_list("reading__verdict", flat=True))
    assert decided == {"outside limits"}
    undecided = Discrepancy.objects.filter(dispositions__isnull=True)
    assert {each.reading.verdict if each.reading else "in words" for each in undecided} >= {"outside limits", "in words"}
    assert Taken.objects.filter(reading__verdict="too close to call").exists()


def test_everybody_can_sign_in_and_has_the_one_role(client):
    load()
    for account in ACCOUNTS:
        person = Person.objects.get(username=account.username)
        assert roles_of(person) == {account.role}
        answer = client.post("/people/sign-in/", {"username": account.username, "password": DEMO_PASSWORD})
        assert answer.status_code == 302, account
        assert not person.must_change_password
    assert {account.role for account in ACCOUNTS} == set(Role)
    assert Person.objects.get(username="customer").customer == Customer.objects.get(name="Lowfold Flying Club")


def test_its_sheet_shows_every_verdict():
    load()
    sheet = Sheet.objects.get()
    assert all(number > 0 for _, number in sheet.counts), sheet.counts
    assert sheet.warnings == []
    assert "not for any real engine" in sheet.title


def test_what_was_cut_short_is_completed(monkeypatch, with_packs):
    add, added = people.add_person, []

    def add_two(**fields):
        if len(added) == 2:
            raise KeyboardInterrupt
        added.append(fields["username"])
        return add(**fields)

    with monkeypatch.context() as patched:
        patched.setattr(people, "add_person", add_two)
        with pytest.raises(KeyboardInterrupt):
            load()
    assert Person.objects.count() == 3
    assert load() == ["people", "authorisations", "gauges", "sheets", "packs"]
    assert Person.objects.count() == len(ACCOUNTS)
    assert list(verify()) == []


def test_a_password_that_was_not_changed_yet_is_changed():
    load()
    manager = Person.objects.get(username="manager")
    stores = Person.objects.get(username="stores")
    people.reset_password(person=stores, by=manager, at=timezone.now())
    people.tell(timezone.now(), nobody)
    stores.refresh_from_db()
    assert stores.check_password(DEMO_PASSWORD)
    assert not stores.must_change_password


def test_real_persons_are_left_alone():
    make_person(Role.MANAGER)
    with pytest.raises(Refused, match="Real persons are in this database"):
        load()
    assert events() == 0


def test_it_is_refused_in_a_real_shop(settings):
    settings.TRY_MODE = False
    with pytest.raises(CommandError, match="keeps real records only"):
        call_command("load_scenario")
    assert Person.objects.count() == 0


def test_the_accounts_are_printed(capsys):
    call_command("load_scenario")
    told = capsys.readouterr().out
    assert all(account.username in told for account in ACCOUNTS)
    assert DEMO_PASSWORD in told


def test_a_real_shop_that_finds_the_scenario_says_so(settings):
    assert check_no_scenario(databases=["default"]) == []
    load()
    settings.TRY_MODE = False
    assert {error.id for error in check_no_scenario(databases=["default"])} == {"scenario.E001", "scenario.E002"}
    Person.objects.update(password="")
    assert {error.id for error in check_no_scenario(databases=["default"])} == {"scenario.E001"}
    assert check_no_scenario(databases=None) == []


def test_its_events_have_their_sentences(with_packs):
    load()
    told = [sentence_of(event) for event in LedgerEvent.objects.filter(kind__startswith="scenario.").order_by("id")]
    assert told == [
        "loading the demo was begun",
        "the chapter people of the demo was loaded",
        "the chapter authorisations of the demo was loaded",
        "the chapter gauges of the demo was loaded",
        "the chapter sheets of the demo was loaded",
        "the chapter packs of the demo was loaded",
    ]
