"""manage.py add_first_manager USERNAME NAME: the account from which every other one is added."""

import getpass
import os

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from shopfloor.people import services
from shopfloor.people.errors import Refused
from shopfloor.people.forms import PersonForm
from shopfloor.people.models import Person

VARIABLE = "FIRST_MANAGER_PASSWORD"


class Command(BaseCommand):
    help = f"Add the first shop manager. Reads the password from {VARIABLE}, or asks for it. Refuses when there is a manager."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("username", help="name to sign in with")
        parser.add_argument("name", help="full name, as it shall stand on papers")

    def handle(self, *, username: str, name: str, **options: object) -> None:
        form = PersonForm({"username": username, "name": name})
        if not form.is_valid():
            raise CommandError(" ".join(f"{field}: {told}" for field, messages in form.errors.items() for told in messages))
        username, name = form.cleaned_data["username"], form.cleaned_data["name"]
        try:
            password = _password(Person(username=username, name=name))
            services.add_first_manager(username=username, name=name, password=password, at=timezone.now())
        except (Refused, ValidationError) as refused:
            raise CommandError(" ".join(getattr(refused, "messages", [str(refused)]))) from refused
        self.stdout.write(f"{username} is the first shop manager.")


def _password(person: Person) -> str:
    password = os.environ.get(VARIABLE) or _typed_twice()
    validate_password(password, person)
    return password


def _typed_twice() -> str:
    password = getpass.getpass("Password: ")
    if password != getpass.getpass("Password again: "):
        raise CommandError("The two passwords differ. Nobody was added; run the command again.")
    return password
