"""Passwords: handed out by a manager, chosen by their owner, bound to sessions."""

import pytest
from django.contrib.auth.hashers import identify_hasher
from django.test import Client
from django.urls import reverse

from shopfloor.people.errors import Inactive, TooManyTries, WrongPassword
from shopfloor.people.models import Person, Role
from shopfloor.people.services import change_own_password, reset_password, sign_in
from shopfloor.people.services.sign_in import TRIES
from tests.making_people import AT, PASSWORD, make_person

NEW = "nine loud crankcases"


def _change(client, current=PASSWORD, new=NEW, again=NEW):
    return client.post(reverse("people:own-password"), {"current": current, "new": new, "again": again})


def _signed_in(password=PASSWORD):
    client = Client()
    client.post(reverse("people:sign-in"), {"username": "mechanic1", "password": password})
    return client


def _inside(client):
    return client.get(reverse("people:own-password")).status_code == 200


def test_passwords_are_kept_as_argon2(mechanic):
    assert identify_hasher(mechanic.password).algorithm == "argon2"


def test_changing_it_ends_every_other_session_and_keeps_this_one(mechanic):
    here, tablet = _signed_in(), _signed_in()
    assert _inside(tablet)
    assert _change(here).status_code == 302
    assert _inside(here)
    assert not _inside(tablet)
    assert sign_in(username="mechanic1", password=NEW, at=AT) == mechanic


def test_a_borrowed_session_cannot_guess_the_current_password(mechanic):
    for _ in range(TRIES):
        with pytest.raises(WrongPassword):
            change_own_password(current="a guess", new=NEW, by=mechanic, at=AT)
    with pytest.raises(TooManyTries):
        change_own_password(current=PASSWORD, new=NEW, by=mechanic, at=AT)
    with pytest.raises(TooManyTries):
        sign_in(username="mechanic1", password=PASSWORD, at=AT)


def test_a_reset_in_between_wins_over_a_change_that_began_before_it(manager, mechanic):
    before = Person.objects.get(pk=mechanic.pk)
    password = reset_password(person=mechanic, by=manager, at=AT)
    with pytest.raises(WrongPassword):
        change_own_password(current=PASSWORD, new=NEW, by=before, at=AT)
    assert sign_in(username="mechanic1", password=password, at=AT) == mechanic


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"new": "short", "again": "short"}, "too short"),
        ({"new": "password123", "again": "password123"}, "too common"),
        ({"new": "mechanic123", "again": "mechanic123"}, "too similar"),
        ({"new": PASSWORD, "again": PASSWORD}, "must differ"),
        ({"again": "nine loud crankcase"}, "passwords differ"),
    ],
)
def test_a_poor_new_password_is_refused_in_words(client, mechanic, typed, told):
    client.force_login(mechanic)
    answer = _change(client, **typed)
    assert answer.status_code == 400
    assert told in answer.content.decode()
    mechanic.refresh_from_db()
    assert mechanic.check_password(PASSWORD)


def test_a_wrong_current_password_is_refused_in_words(client, mechanic):
    client.force_login(mechanic)
    answer = _change(client, current="a guess")
    assert answer.status_code == 403
    assert "do not match" in answer.content.decode()


def test_a_first_password_opens_only_the_page_to_change_it(manager, mechanic):
    first = reset_password(person=mechanic, by=manager, at=AT)
    client = _signed_in(first)
    assert client.get(reverse("people:persons")).url.startswith(reverse("people:own-password"))
    api = client.get(reverse("people-api:persons"))
    assert api.status_code == 403
    assert "own password first" in api.json()["detail"]
    assert _change(client, current=first).status_code == 302
    assert client.get(reverse("people:persons")).status_code == 403


def test_a_reset_ends_every_session_of_the_person(manager, mechanic):
    tablet = _signed_in()
    reset_password(person=mechanic, by=manager, at=AT)
    assert not _inside(tablet)


def test_a_reset_password_is_shown_once_and_never_cached(client, manager, mechanic):
    client.force_login(manager)
    answer = client.post(reverse("people:reset-password", args=[mechanic.pk]))
    assert "no-store" in answer.headers["Cache-Control"]
    shown = answer.content.decode()
    password = shown.partition("<code>")[2].partition("</code>")[0]
    assert sign_in(username="mechanic1", password=password, at=AT) == mechanic
    assert password not in client.get(reverse("people:person", args=[mechanic.pk])).content.decode()


def test_an_inactive_person_gets_no_new_password(manager):
    with pytest.raises(Inactive):
        reset_password(person=make_person(Role.MECHANIC, is_active=False), by=manager, at=AT)
