"""Signing in: who gets in, what everybody else is told, and how many tries there are.

The limit of tries and the growing wait: common practice, no source. That a refusal must not tell an unknown name from a
wrong password: OWASP Authentication Cheat Sheet, "Authentication and Error Messages" (from memory).
"""

import threading
from contextlib import contextmanager
from datetime import timedelta
from unittest.mock import patch

import pytest
from django.contrib.auth.hashers import Argon2PasswordHasher
from django.db import connection
from django.test import Client
from django.urls import reverse

from shopfloor.ledger.models import LedgerEvent
from shopfloor.people.errors import TooManyTries, WrongPassword
from shopfloor.people.models import Person, Role, SignInCount
from shopfloor.people.services import sign_in
from shopfloor.people.services.sign_in import TRIES, wait_after
from tests.making_people import AT, PASSWORD, make_person

WRONG = "four loud bearings"


def _wrong(username="mechanic1", at=AT):
    with pytest.raises(WrongPassword):
        sign_in(username=username, password=WRONG, at=at)


def _use_up(username="mechanic1", at=AT):
    for _ in range(TRIES):
        _wrong(username, at)


def test_the_right_password_signs_in_whatever_the_capitals_of_the_name(mechanic):
    assert sign_in(username="Mechanic1", password=PASSWORD, at=AT) == mechanic


def test_a_success_leaves_no_event_and_no_count(mechanic):
    _wrong()
    sign_in(username="mechanic1", password=PASSWORD, at=AT)
    assert not SignInCount.objects.exists()
    assert not LedgerEvent.objects.exists()


def test_the_right_password_is_refused_during_the_wait_and_accepted_after_it(mechanic):
    _use_up()
    with pytest.raises(TooManyTries, match=r"Try again after 08:01:00 \(UTC, in one minute or less\)"):
        sign_in(username="mechanic1", password=PASSWORD, at=AT + timedelta(seconds=59))
    assert sign_in(username="mechanic1", password=PASSWORD, at=AT + timedelta(seconds=60)) == mechanic


def test_the_wait_doubles_and_ends_at_an_hour():
    minutes = [wait_after(wrong).total_seconds() / 60 for wrong in range(TRIES, TRIES + 8)]
    assert minutes == [1, 2, 4, 8, 16, 32, 60, 60]
    assert wait_after(10_000) == timedelta(hours=1)


def test_each_wrong_try_after_a_wait_begins_the_next_longer_one(mechanic):
    _use_up()
    _wrong(at=AT + timedelta(minutes=1))
    with pytest.raises(TooManyTries, match="08:03:00"):
        sign_in(username="mechanic1", password=PASSWORD, at=AT + timedelta(minutes=2))


def test_asking_during_the_wait_does_not_lengthen_it(mechanic):
    _use_up()
    for _ in range(10):
        with pytest.raises(TooManyTries, match="08:01:00"):
            sign_in(username="mechanic1", password=WRONG, at=AT + timedelta(seconds=30))


def test_one_name_does_not_hold_up_another(mechanic, manager):
    _use_up()
    assert sign_in(username="manager", password=PASSWORD, at=AT) == manager


def test_wrong_tries_are_forgotten_after_a_quiet_day(mechanic):
    _use_up()
    _wrong(at=AT + timedelta(days=1, seconds=1))
    assert SignInCount.objects.get().wrong == 1


def test_capitals_do_not_buy_more_tries(mechanic):
    for name in ("mechanic1", "Mechanic1", "MECHANIC1", "mEchanic1", "meChanic1"):
        _wrong(name)
    with pytest.raises(TooManyTries):
        sign_in(username="mechAnic1", password=PASSWORD, at=AT)


def test_the_typed_name_is_not_stored(db):
    _wrong("my secret typed in the wrong field")
    assert "secret" not in SignInCount.objects.get().name_hash


@pytest.mark.django_db
def test_unknown_inactive_and_wrong_read_the_same_and_hash_once_each(mechanic):
    make_person(Role.MECHANIC, username="gone", is_active=False)
    told, hashed = set(), []
    for username, password in (("nobody", PASSWORD), ("gone", PASSWORD), ("mechanic1", WRONG)):
        with _counting_hashes() as hashes, pytest.raises(WrongPassword) as refused:
            sign_in(username=username, password=password, at=AT)
        told.add(str(refused.value))
        hashed.append(len(hashes))
    assert len(told) == 1
    assert hashed == [1, 1, 1]


@pytest.mark.parametrize("username", ["mechanic1", "nobody"])
def test_a_lock_out_is_recorded_whoever_the_name_belongs_to(mechanic, username):
    _use_up(username)
    event = LedgerEvent.objects.get(chain="people")
    assert event.kind == "sign-in.locked"
    assert event.body["facts"] == {"person": str(mechanic.pk) if username == "mechanic1" else None, "tries": "5"}


@pytest.mark.django_db(transaction=True)
def test_twenty_guesses_at_once_get_no_more_than_the_tries():
    make_person(Role.MECHANIC, username="mechanic1")
    start, told = threading.Barrier(20), []

    def guess():
        start.wait()
        try:
            sign_in(username="mechanic1", password=WRONG, at=AT)
        except (WrongPassword, TooManyTries) as refused:
            told.append(type(refused))
        finally:
            connection.close()

    with _counting_hashes() as hashes:
        threads = [threading.Thread(target=guess) for _ in range(20)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join(60)
    assert (told.count(WrongPassword), told.count(TooManyTries)) == (TRIES, 20 - TRIES)
    assert len(hashes) == TRIES


def test_page_tells_when_to_try_again(client, mechanic):
    for _ in range(TRIES):
        assert _post(client, password=WRONG).status_code == 403
    answer = _post(client)
    assert answer.status_code == 429
    assert 1 <= int(answer.headers["Retry-After"]) <= 61
    assert "Try again after" in answer.content.decode()
    assert "_auth_user_id" not in client.session


def test_page_and_api_share_one_count(client, mechanic):
    for _ in range(TRIES):
        _post(client, password=WRONG)
    typed = {"username": "mechanic1", "password": PASSWORD}
    answer = client.post(reverse("people-api:session"), typed, content_type="application/json")
    assert answer.status_code == 429
    assert answer.headers["Retry-After"]
    assert "Try again after" in answer.json()["detail"]


def test_the_safety_notice_stands_on_the_sign_in_page(client, db):
    page = " ".join(client.get(reverse("people:sign-in")).content.decode().split())
    assert "Not a substitute" in page
    assert "certificated person always govern" in page


@pytest.mark.parametrize(
    ("wanted", "lands"),
    [("/people/", "/people/"), ("https://elsewhere.example/", "/people/password/"), ("//x", "/people/password/")],
)
def test_after_sign_in_the_reader_lands_where_they_were_going_but_never_elsewhere(client, mechanic, wanted, lands):
    assert _post(client, next=wanted).url == lands


def test_signing_in_makes_a_new_session_key(client, mechanic):
    client.get(reverse("people:sign-in"))
    session = client.session
    session["planted"] = True
    session.save()
    before = session.session_key
    client.cookies["sessionid"] = before
    _post(client)
    assert client.session.session_key != before


def test_signing_out_ends_the_session(client, mechanic):
    _post(client)
    client.post(reverse("people:sign-out"))
    assert client.get(reverse("people:own-password")).status_code == 302


def test_sessions_of_a_deactivated_person_end_at_once(client, mechanic):
    _post(client)
    assert client.get(reverse("people:own-password")).status_code == 200
    Person.objects.filter(pk=mechanic.pk).update(is_active=False)
    assert client.get(reverse("people:own-password")).status_code == 302


def test_sign_in_without_the_forgery_token_is_refused_on_page_and_api(mechanic):
    strict = Client(enforce_csrf_checks=True)
    page = _post(strict)
    assert page.status_code == 403
    assert "Send the form again" in page.content.decode()
    typed = {"username": "mechanic1", "password": PASSWORD}
    assert strict.post(reverse("people-api:session"), typed, content_type="application/json").status_code == 403


def test_a_program_signs_in_with_the_token_it_is_given_looks_and_leaves(manager):
    program, address = Client(enforce_csrf_checks=True), reverse("people-api:session")
    token = program.get(address).json()["csrf_token"]
    typed = {"username": "manager", "password": PASSWORD}
    me = program.post(address, typed, content_type="application/json", headers={"X-CSRFToken": token}).json()
    assert (me["signed_in"], me["username"], me["roles"]) == (True, "manager", ["manager"])
    assert program.get(reverse("people-api:persons")).json()[0]["roles"][0]["role"] == "manager"
    assert program.delete(address, headers={"X-CSRFToken": me["csrf_token"]}).status_code == 204
    assert program.get(address).json()["signed_in"] is False


def _post(client, **typed):
    return client.post(reverse("people:sign-in"), {"username": "mechanic1", "password": PASSWORD, **typed})


@contextmanager
def _counting_hashes():
    """Counts each computation of Argon2, for making a hash and for checking one."""
    computed = []

    def counted(compute):
        def count(*args):
            computed.append(compute.__name__)
            return compute(*args)

        return count

    with (
        patch.object(Argon2PasswordHasher, "encode", counted(Argon2PasswordHasher.encode)),
        patch.object(Argon2PasswordHasher, "verify", counted(Argon2PasswordHasher.verify)),
    ):
        yield computed
