"""Roles: granted and ended by another manager, never by oneself; the last active manager remains."""

import threading

import pytest
from django.db import connection, transaction
from django.db.utils import DatabaseError, IntegrityError
from django.urls import reverse

from shopfloor.ledger.models import LedgerEvent
from shopfloor.people.errors import (
    CustomerStandsAlone,
    Inactive,
    NotACustomersPerson,
    NotAManager,
    OwnAccount,
    Refused,
    RoleHeldAlready,
    RoleNotHeld,
)
from shopfloor.people.models import Person, Role, RoleGrant
from shopfloor.people.permissions import HOLDERS, Permission, may
from shopfloor.people.queries import active_managers, of_customers_seen_by, roles_of
from shopfloor.people.services import deactivate, end_role, erase_person, grant_role, link_to_customer
from tests.making_people import AT, PASSWORD, make_customer, make_grant, make_person

GRANTABLE = [role for role in Role if role != Role.CUSTOMER]


def _fresh(person):
    return Person.objects.get(pk=person.pk)


def sees_customer(person, customer_id):
    """Whether a record of that customer is among those that `person` sees; a person stands for the record."""
    record = make_person(customer_id=customer_id)
    return Person.objects.filter(of_customers_seen_by(person), pk=record.pk).exists()


def test_a_person_holds_several_roles(manager, mechanic):
    grant_role(person=mechanic, role=Role.INSPECTOR, by=manager, at=AT)
    assert roles_of(_fresh(mechanic)) == {Role.MECHANIC, Role.INSPECTOR}


def test_a_role_is_held_once(manager, mechanic):
    with pytest.raises(RoleHeldAlready, match="mechanic already"):
        grant_role(person=mechanic, role=Role.MECHANIC, by=manager, at=AT)


def test_an_ended_role_is_gone_stays_in_sight_and_can_be_granted_anew(manager, mechanic):
    first = mechanic.grants.get()
    end_role(person=mechanic, grant=first, by=manager, at=AT)
    assert roles_of(_fresh(mechanic)) == frozenset()
    with pytest.raises(RoleNotHeld):
        end_role(person=mechanic, grant=first, by=manager, at=AT)
    grant_role(person=mechanic, role=Role.MECHANIC, by=manager, at=AT)
    assert mechanic.grants.count() == 2


def test_anothers_grant_is_not_ended_under_this_persons_name(manager, mechanic):
    other = make_person(Role.INSPECTOR)
    with pytest.raises(RoleNotHeld):
        end_role(person=mechanic, grant=other.grants.get(), by=manager, at=AT)


@pytest.mark.parametrize("role", GRANTABLE)
def test_the_customer_role_stands_alone_both_ways(manager, role):
    guest, hand = make_person(Role.CUSTOMER), make_person(role)
    with pytest.raises(CustomerStandsAlone):
        grant_role(person=guest, role=role, by=manager, at=AT)
    with pytest.raises(CustomerStandsAlone):
        grant_role(person=hand, role=Role.CUSTOMER, by=manager, at=AT)


def test_an_inactive_person_is_granted_nothing(manager):
    with pytest.raises(Inactive):
        grant_role(person=make_person(is_active=False), role=Role.MECHANIC, by=manager, at=AT)


# nobody raises their own rights, whatever the path


@pytest.mark.parametrize("role", list(Role))
def test_a_manager_grants_no_role_to_self(manager, role):
    with pytest.raises(OwnAccount):
        grant_role(person=manager, role=role, by=manager, at=AT)
    assert not LedgerEvent.objects.exists()


def test_a_manager_ends_no_role_of_self(manager):
    with pytest.raises(OwnAccount):
        end_role(person=manager, grant=manager.grants.get(), by=manager, at=AT)


def test_a_manager_links_no_customer_to_self(manager):
    with pytest.raises(OwnAccount):
        link_to_customer(person=manager, customer=make_customer(), by=manager, at=AT)


@pytest.mark.parametrize("held", [role for role in Role if role != Role.MANAGER])
@pytest.mark.parametrize("wanted", list(Role))
def test_nobody_else_grants_anything_to_anybody(manager, held, wanted):
    person, friend = make_person(held), make_person()
    for target in (person, friend):
        with pytest.raises((NotAManager, OwnAccount)):
            grant_role(person=target, role=wanted, by=person, at=AT)
    assert RoleGrant.objects.filter(person__in=[person, friend]).count() == 1


def test_the_database_itself_refuses_a_grant_to_self_and_an_end_by_self(manager):
    with pytest.raises(IntegrityError), transaction.atomic():
        RoleGrant.objects.create(person=manager, role=Role.AUDITOR, granted_by=manager, granted_at=AT)
    with pytest.raises(IntegrityError), transaction.atomic():
        RoleGrant.objects.filter(person=manager).update(ended_by=manager, ended_at=AT)


@pytest.mark.parametrize("change", ["role", "granted_at", "person"])
def test_the_database_itself_refuses_to_rewrite_a_grant(mechanic, change):
    forged = {"role": "manager", "granted_at": AT.replace(year=2020), "person": make_person()}
    with pytest.raises(DatabaseError), transaction.atomic():
        RoleGrant.objects.filter(person=mechanic).update(**{change: forged[change]})


def test_the_database_itself_refuses_to_delete_a_grant(mechanic):
    with pytest.raises(DatabaseError), transaction.atomic():
        RoleGrant.objects.filter(person=mechanic).delete()


def test_pages_and_api_take_no_role_from_what_was_typed(client, mechanic):
    client.force_login(mechanic)
    typed = {
        "current": PASSWORD,
        "new": "nine loud crankcases",
        "again": "nine loud crankcases",
        "role": "manager",
        "is_active": "1",
    }
    assert client.post(reverse("people:own-password"), typed).status_code == 302
    api = {"username": "mechanic1", "password": "nine loud crankcases", "roles": ["manager"]}
    client.post(reverse("people-api:session"), api, content_type="application/json")
    assert roles_of(_fresh(mechanic)) == {Role.MECHANIC}


# the last manager


@pytest.mark.parametrize("act", ["end", "deactivate", "erase"])
@pytest.mark.django_db(transaction=True)
def test_two_managers_who_remove_each_other_at_once_leave_one(act):
    first, second = make_person(Role.MANAGER), make_person(Role.MANAGER)
    start, told = threading.Barrier(2), []

    def remove(target, by):
        start.wait()
        try:
            _REMOVALS[act](target, by)
            told.append("done")
        except Refused as refused:
            told.append(type(refused).__name__)
        finally:
            connection.close()

    threads = [threading.Thread(target=remove, args=pair) for pair in ((first, second), (second, first))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert sorted(told) == ["NotAManager", "done"]
    assert active_managers().count() == 1


_REMOVALS = {
    "end": lambda person, by: end_role(person=person, grant=person.grants.get(), by=by, at=AT),
    "deactivate": lambda person, by: deactivate(person=person, by=by, at=AT),
    "erase": lambda person, by: erase_person(person=person, by=by, at=AT),
}


# what follows from roles


@pytest.mark.parametrize("permission", list(Permission))
@pytest.mark.parametrize("role", list(Role))
def test_may_follows_the_one_table(db, permission, role):
    assert may(make_person(role), permission) == (role in HOLDERS[permission])
    assert not may(make_person(role, is_active=False), permission)


def test_every_permission_has_its_line_in_the_table():
    assert set(HOLDERS) == set(Permission)


def test_roles_are_asked_once_per_person(mechanic, django_assert_num_queries):
    person = _fresh(mechanic)
    with django_assert_num_queries(1):
        for permission in Permission:
            may(person, permission)


def test_a_customer_sees_only_their_own_customer(db):
    own, other = make_customer(), make_customer()
    guest = make_person(Role.CUSTOMER, customer=own)
    assert [sees_customer(guest, customer) for customer in (own.pk, other.pk, None)] == [True, False, False]
    assert not sees_customer(make_person(Role.CUSTOMER), None)


@pytest.mark.parametrize("role", GRANTABLE)
def test_shop_roles_and_the_auditor_see_every_customer(db, role):
    person = make_person(role)
    assert sees_customer(person, make_customer().pk)
    assert sees_customer(person, None)


def test_without_a_role_or_an_active_account_nothing_of_a_customer_is_seen(db):
    customer = make_customer()
    assert not sees_customer(make_person(customer=customer), customer.pk)
    assert not sees_customer(make_person(Role.MANAGER, is_active=False), customer.pk)


def test_only_the_customer_role_is_linked_and_its_end_cuts_the_link(manager, mechanic):
    customer, guest = make_customer(), make_person(Role.CUSTOMER)
    with pytest.raises(NotACustomersPerson):
        link_to_customer(person=mechanic, customer=customer, by=manager, at=AT)
    link_to_customer(person=guest, customer=customer, by=manager, at=AT)
    assert sees_customer(_fresh(guest), customer.pk)
    end_role(person=guest, grant=guest.grants.get(), by=manager, at=AT)
    make_grant(guest, Role.CUSTOMER)
    assert not sees_customer(_fresh(guest), customer.pk)
