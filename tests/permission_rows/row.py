"""A row of the permission table: an address, a method, and the status that each reader gets."""

from collections.abc import Mapping
from dataclasses import dataclass

from django.contrib.auth.models import AnonymousUser

from shopfloor.people.models import Person, Role
from tests.making_people import make_person

READERS = (
    "anonymous",
    "manager",
    "mechanic",
    "inspector",
    "storekeeper",
    "customer",
    "auditor",
    "no_role",  # signed in, but no role was granted yet
    "first_password",  # a manager who has not chosen an own password yet
)


class Row:
    def __init__(self, url, method, *, of="", data=None, fragment=False, everyone=None, others=None, **expected):
        self.url, self.method, self.of, self.data, self.fragment = url, method, of, data or {}, fragment
        if unknown := expected.keys() - set(READERS):
            raise ValueError(f"{self}: no reader is called {sorted(unknown)}")
        given = {reader: expected.get(reader, everyone if reader == "anonymous" else others or everyone) for reader in READERS}
        if missing := [reader for reader, status in given.items() if status is None]:
            raise ValueError(f"{self}: say what {missing} get")
        self.expected: Mapping[str, int] = given

    def __str__(self):
        return " ".join(filter(None, (self.method, self.url, self.of, "fragment" if self.fragment else "")))


@dataclass(frozen=True)
class World:
    """The reader of one cell, or the anonymous one."""

    reader: Person | AnonymousUser

    @property
    def self_or_stranger(self) -> Person:
        """The reader; nobody is the anonymous reader's own, so there a stranger stands in."""
        return self.reader if self.reader.pk else make_person(Role.MECHANIC)
