"""manage.py add_first_manager: once, from the command line of the host."""

import threading

import pytest
from django.core.management import CommandError, call_command
from django.db import connection

from shopfloor.people.errors import ManagerExists
from shopfloor.people.models import Person, Role
from shopfloor.people.queries import active_managers, roles_of
from shopfloor.people.services import add_first_manager, sign_in
from tests.making_people import AT, PASSWORD


@pytest.fixture
def password_given(monkeypatch):
    monkeypatch.setenv("FIRST_MANAGER_PASSWORD", PASSWORD)


def test_it_adds_a_manager_who_signs_in(db, password_given):
    call_command("add_first_manager", "manager", "The manager")
    assert roles_of(sign_in(username="manager", password=PASSWORD, at=AT)) == {Role.MANAGER}


def test_it_asks_for_the_password_when_none_is_given(db, monkeypatch):
    monkeypatch.delenv("FIRST_MANAGER_PASSWORD", raising=False)
    monkeypatch.setattr("getpass.getpass", lambda prompt: PASSWORD)
    call_command("add_first_manager", "manager", "The manager")
    assert Person.objects.get().check_password(PASSWORD)


def test_two_different_answers_add_nobody(db, monkeypatch):
    answers = iter([PASSWORD, "another one"])
    monkeypatch.delenv("FIRST_MANAGER_PASSWORD", raising=False)
    monkeypatch.setattr("getpass.getpass", lambda prompt: next(answers))
    with pytest.raises(CommandError, match="differ"):
        call_command("add_first_manager", "manager", "The manager")
    assert not Person.objects.exists()


def test_it_refuses_when_there_is_a_manager(manager, password_given):
    with pytest.raises(CommandError, match="shop manager already"):
        call_command("add_first_manager", "manager2", "The second manager")


@pytest.mark.parametrize(
    ("username", "password", "told"), [("two words", PASSWORD, "letters"), ("manager", "short", "too short")]
)
def test_it_refuses_a_bad_name_or_password_in_words(db, monkeypatch, username, password, told):
    monkeypatch.setenv("FIRST_MANAGER_PASSWORD", password)
    with pytest.raises(CommandError, match=told):
        call_command("add_first_manager", username, "The manager")
    assert not Person.objects.exists()


@pytest.mark.django_db(transaction=True)
def test_two_commands_at_once_add_one_manager():
    start, told = threading.Barrier(2), []

    def add(username):
        start.wait()
        try:
            add_first_manager(username=username, name="The manager", password=PASSWORD, at=AT)
            told.append("added")
        except ManagerExists:
            told.append("refused")
        finally:
            connection.close()

    threads = [threading.Thread(target=add, args=(f"manager{n}",)) for n in (1, 2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert sorted(told) == ["added", "refused"]
    assert active_managers().count() == 1
