"""A real shop must not be opened on the invented one's database, nor with its password."""

from collections.abc import Iterator, Sequence
from typing import Any

from django.conf import settings
from django.core.checks import CheckMessage, Error
from django.db import connections

from engines.scenario.chapters.people import ACCOUNTS
from engines.scenario.passwords import DEMO_PASSWORD
from engines.scenario.queries import told
from shopfloor.ledger.models import LedgerEvent
from shopfloor.people.models import Person

NEEDED = {LedgerEvent._meta.db_table, Person._meta.db_table}


def check_no_scenario(*, databases: Sequence[str] | None = None, **kwargs: Any) -> list[CheckMessage]:
    """Says nothing in mode `try`, nor before the first migrate."""
    if settings.TRY_MODE or "default" not in (databases or ()):
        return []
    if NEEDED - set(connections["default"].introspection.table_names()):
        return []
    return [*_loaded(), *_known_passwords()]


def _loaded() -> Iterator[CheckMessage]:
    if told():
        yield Error(
            "The invented scenario was loaded into this database.",
            hint="A real shop begins with an empty database: set DATABASE_URL to one and run manage.py migrate.",
            id="scenario.E001",
        )


def _known_passwords() -> Iterator[CheckMessage]:
    names = [account.username for account in ACCOUNTS]
    for person in Person.objects.filter(username__in=names, is_active=True):
        if person.check_password(DEMO_PASSWORD):
            yield Error(
                f"The account {person.username} has the password of the demo.",
                hint="Let a shop manager reset it, or deactivate the account.",
                id="scenario.E002",
            )
