"""The people room is tested without the first page, which belongs to a room above."""

import pytest

from shopfloor.people.models import Role
from tests.making_people import make_person


@pytest.fixture(autouse=True)
def _land_in_this_room(settings):
    settings.LOGIN_REDIRECT_URL = "people:own-password"


@pytest.fixture
def manager(db):
    return make_person(Role.MANAGER, username="manager")


@pytest.fixture
def mechanic(db):
    return make_person(Role.MECHANIC, username="mechanic1")
