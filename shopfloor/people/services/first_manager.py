"""The one account that nobody grants: the first manager, added from the command line of the host."""

from datetime import datetime

from django.contrib.auth.hashers import make_password
from django.db import transaction

from shopfloor.ledger.services import Entry, record
from shopfloor.people.errors import ManagerExists
from shopfloor.people.models import Person, Role
from shopfloor.people.queries import active_managers
from shopfloor.people.services.accounts import create_person
from shopfloor.people.services.roles import open_grant


@transaction.atomic
def add_first_manager(*, username: str, name: str, password: str, by: None = None, at: datetime) -> Person:
    """Raises ManagerExists when there is an active one. `by` is nobody: the act of whoever runs the host."""
    if active_managers().exists():
        raise ManagerExists
    person = create_person(username=username, name=name, password=make_password(password))
    entries = [Entry(chain="people", kind="person.added", of=person, facts={}), open_grant(person, Role.MANAGER, by=by, at=at)]
    record(*entries, by=None, at=at)
    # Two commands started together both saw no manager. `record` holds the head of the chain until commit, so the second
    # one gets here only after the first has committed, and sees it now.
    if active_managers().exclude(pk=person.pk).exists():
        raise ManagerExists
    return person
