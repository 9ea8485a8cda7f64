"""Accounts: added, put out of use, taken back, erased; the ledger verifies after each."""

import pytest
from django.db import transaction
from django.db.utils import IntegrityError
from django.urls import reverse

from shopfloor.ledger.models import ErasableText, LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.errors import AlreadySo, CertificateHalf, Erased, NameTaken, NotAManager, OwnAccount
from shopfloor.people.models import Person, Role, RoleGrant
from shopfloor.people.queries import roles_of
from shopfloor.people.services import (
    add_customer,
    add_first_manager,
    add_person,
    deactivate,
    end_role,
    erase_person,
    grant_role,
    link_to_customer,
    reactivate,
    reset_password,
    set_certificate,
    sign_in,
)
from tests.making_people import AT, PASSWORD, make_person


@pytest.fixture
def boss(db):
    return add_first_manager(username="manager", name="The manager", password=PASSWORD, at=AT)


@pytest.fixture
def leaver(boss):
    return _add(boss, username="mechanic1", name="The first mechanic", certificate_number="AB 123", role=Role.MECHANIC)[0]


def _add(by, username="mechanic2", name="The second mechanic", **more):
    return add_person(username=username, name=name, by=by, at=AT, **more)


def _kinds():
    return list(LedgerEvent.objects.filter(chain="people").order_by("sequence").values_list("kind", flat=True))


def test_an_added_person_signs_in_with_the_first_password_and_holds_the_first_role(boss):
    person, password = _add(boss, role=Role.MECHANIC)
    assert sign_in(username="mechanic2", password=password, at=AT) == person
    assert person.must_change_password
    assert roles_of(person) == {Role.MECHANIC}


def test_adding_is_one_act_in_the_ledger(boss):
    _add(boss, role=Role.MECHANIC)
    added, granted = LedgerEvent.objects.filter(chain="people").order_by("-sequence")[:2][::-1]
    assert (added.kind, granted.kind) == ("person.added", "role.granted")
    assert added.act == granted.act
    assert added.by == boss.pk


def test_first_passwords_differ_and_are_long(boss):
    passwords = {_add(boss, username=f"mechanic{n}")[1] for n in range(2, 6)}
    assert len(passwords) == 4
    assert {len(password) for password in passwords} == {19}


@pytest.mark.parametrize("username", ["manager", "MANAGER", "erased-person-7"])
def test_a_taken_or_reserved_name_is_refused_and_nothing_is_saved(boss, username):
    events = LedgerEvent.objects.count()
    with pytest.raises(NameTaken):
        _add(boss, username=username)
    assert Person.objects.count() == 1
    assert LedgerEvent.objects.count() == events


@pytest.mark.parametrize("role", [None, *(role for role in Role if role != Role.MANAGER)])
def test_only_a_manager_adds_persons(boss, role):
    other = make_person(*([role] if role else []))
    with pytest.raises(NotAManager):
        _add(other)


def test_a_manager_whose_role_has_ended_adds_nobody(boss):
    second, _ = _add(boss, username="manager2", name="The second manager", role=Role.MANAGER)
    end_role(person=boss, grant=boss.grants.get(), by=second, at=AT)
    with pytest.raises(NotAManager):
        _add(boss)


def test_an_inactive_manager_adds_nobody(boss):
    second, _ = _add(boss, username="manager2", name="The second manager", role=Role.MANAGER)
    deactivate(person=boss, by=second, at=AT)
    with pytest.raises(NotAManager):
        _add(boss)


def test_deactivated_and_taken_back(boss, leaver):
    deactivate(person=leaver, by=boss, at=AT)
    leaver.refresh_from_db()
    assert not leaver.is_active
    with pytest.raises(AlreadySo):
        deactivate(person=leaver, by=boss, at=AT)
    reactivate(person=leaver, by=boss, at=AT)
    leaver.refresh_from_db()
    assert leaver.is_active
    with pytest.raises(AlreadySo):
        reactivate(person=leaver, by=boss, at=AT)
    assert _kinds()[-2:] == ["person.deactivated", "person.reactivated"]
    assert list(verify()) == []


@pytest.mark.parametrize("act", [deactivate, reactivate, erase_person, reset_password])
def test_nobody_does_it_to_their_own_account(boss, act):
    with pytest.raises(OwnAccount, match="Ask another shop manager"):
        act(person=boss, by=boss, at=AT)
    boss.refresh_from_db()
    assert boss.is_active
    assert boss.check_password(PASSWORD)


@pytest.mark.parametrize("act", [deactivate, reactivate, erase_person, reset_password])
def test_nobody_but_a_manager_does_it_to_another(boss, leaver, act):
    with pytest.raises(NotAManager):
        act(person=boss, by=leaver, at=AT)


def test_an_erased_person_is_a_number_and_the_ledger_verifies(boss, leaver):
    customer = add_customer(name="Lowfold Flying Club", by=boss, at=AT)
    for role in (Role.INSPECTOR, Role.AUDITOR):
        grant_role(person=leaver, role=role, by=boss, at=AT)
    erase_person(person=leaver, by=boss, at=AT)
    leaver.refresh_from_db()
    assert (leaver.username, leaver.name) == (f"erased-person-{leaver.pk}", f"erased person {leaver.pk}")
    assert leaver.certificate_number == "[erased]"
    assert not leaver.is_active
    assert not leaver.has_usable_password()
    assert not RoleGrant.objects.filter(person=leaver, ended_at=None).exists()
    kept = " ".join(ErasableText.objects.values_list("text", flat=True))
    assert "mechanic" not in kept
    assert "AB 123" not in kept
    assert "Lowfold" in kept
    assert customer.name == "Lowfold Flying Club"
    assert list(verify()) == []


def test_names_never_stand_in_the_hashed_bodies(boss, leaver):
    bodies = b" ".join(bytes(body) for body in LedgerEvent.objects.values_list("body_bytes", flat=True))
    for text in (b"mechanic1", b"The first mechanic", b"AB 123", b"The manager", b"argon2"):
        assert text not in bodies


@pytest.mark.parametrize("act", [deactivate, reactivate, erase_person, reset_password])
def test_an_erased_person_stays_erased(boss, leaver, act):
    erase_person(person=leaver, by=boss, at=AT)
    with pytest.raises(Erased):
        act(person=leaver, by=boss, at=AT)


def test_the_database_refuses_an_active_erased_person(leaver):
    with pytest.raises(IntegrityError), transaction.atomic():
        Person.objects.filter(pk=leaver.pk).update(erased_at=AT)


def test_every_act_of_the_room_leaves_a_ledger_that_verifies_and_reads(boss, leaver):
    from shopfloor.ledger.kinds import link_of, sentence_of

    guest, _ = _add(boss, username="customer", name="The customer", role=Role.CUSTOMER)
    customer = add_customer(name="Estuary Survey Air", by=boss, at=AT)
    link_to_customer(person=guest, customer=customer, by=boss, at=AT)
    end_role(person=guest, grant=guest.grants.get(), by=boss, at=AT)
    reset_password(person=leaver, by=boss, at=AT)
    assert list(verify()) == []
    events = LedgerEvent.objects.filter(chain="people").order_by("sequence")
    sentences = [sentence_of(event) for event in events]
    assert f"Person {guest.pk} now acts for customer {customer.pk}." in sentences
    assert f"Person {guest.pk} now acts for no customer." in sentences
    assert f"The role customer of person {guest.pk} was ended." in sentences
    assert f"Person {leaver.pk} was given a new first password." in sentences
    assert link_of(events.last()) == reverse("people:person", args=[leaver.pk])


def test_a_certificate_is_entered_by_a_manager_and_never_by_its_holder(boss, leaver):
    set_certificate(person=leaver, kind=" repairman ", number="INV 1", by=boss, at=AT)
    leaver.refresh_from_db()
    assert (leaver.certificate_kind, leaver.certificate_number) == ("repairman", "INV 1")
    for given, refusal in (
        ({"kind": "repairman", "number": "INV 1", "by": boss}, AlreadySo),
        ({"kind": "repairman", "number": " ", "by": boss}, CertificateHalf),
        ({"kind": "mechanic", "number": "INV 2", "by": leaver}, OwnAccount),
        ({"kind": "mechanic", "number": "INV 2", "by": make_person(Role.INSPECTOR)}, NotAManager),
    ):
        with pytest.raises(refusal):
            set_certificate(person=leaver, **given, at=AT)
    set_certificate(person=leaver, kind="", number="", by=boss, at=AT)
    assert _kinds().count("person.certificated") == 2
    assert [fault for fault in verify() if "INV" in fault.sentence or f"person {leaver.pk}" in fault.sentence] == []
