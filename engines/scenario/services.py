"""Telling the scenario through the services of the rooms, chapter by chapter; an event closes each."""

from datetime import datetime

from django.conf import settings
from django.db import transaction

from engines.scenario.names import BEGUN
from engines.scenario.queries import told
from engines.scenario.saying import Say, nobody
from engines.scenario.story import CHAPTERS
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


class Refused(Exception):
    """The scenario does not belong here; the sentence says what to do."""


def load_scenario(*, at: datetime, say: Say = nobody) -> list[str]:
    """Tell the chapters that are still to be told; their names. Raises Refused in a real shop."""
    if not settings.TRY_MODE:
        raise Refused("The scenario is invented: mode 'shop' keeps real records only. Set MAIN_JOURNAL_MODE=try to try it.")
    done = told()
    if not done and Person.objects.exists():
        raise Refused("Real persons are in this database. Set MAIN_JOURNAL_DATA to another folder and load the scenario there.")
    if BEGUN not in done:
        _note(BEGUN, at=at)
    ahead = [chapter for chapter in CHAPTERS if chapter.kind not in done]
    for chapter in ahead:
        say(f"telling of {chapter.name}")
        chapter.tell(at, say)
        _note(chapter.kind, at=at)
    return [chapter.name for chapter in ahead]


@transaction.atomic
def _note(kind: str, *, at: datetime) -> None:
    record(Entry(chain="shop", kind=kind), by=None, at=at)
