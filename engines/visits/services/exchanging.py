"""Two numbered parts of one line change their positions: from now on each belongs where the other came from."""

from datetime import datetime

from django.db import transaction

from engines.visits.chains import chain_of
from engines.visits.errors import NotTagged
from engines.visits.models import Tagged, Visit
from engines.visits.queries import locked_visit, tagged_now
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def exchange_parts(
    *, visit: Visit, line: str, places: tuple[str, str], words: str, by: Person, at: datetime
) -> tuple[Tagged, Tagged]:
    """What was read of either part at its old position counts there no longer: its mates are others now. Raises NotTagged."""
    visit = locked_visit(visit.pk)
    here, there = (_tagged(visit, line, place) for place in places)
    moved = [_moved(here, there, words, by, at), _moved(there, here, words, by, at)]
    Tagged.objects.bulk_create(moved)
    chain = chain_of(visit)
    record(*(Entry(chain=chain, kind="part.tagged", of=each) for each in moved), by=by.pk, at=at)
    return moved[0], moved[1]


def _tagged(visit: Visit, line: str, place: str) -> Tagged:
    found = tagged_now(visit, line, place)
    if found is None or found.item is None:
        raise NotTagged(line, place)
    return found


def _moved(before: Tagged, other: Tagged, words: str, by: Person, at: datetime) -> Tagged:
    """The part of `other` at the position of `before`."""
    return Tagged(
        visit=before.visit,
        area=before.area,
        line=before.line,
        place=before.place,
        item=other.item,
        tray=other.tray,
        as_found=f"from {other.place}: {words}"[:400],
        in_place_of=before,
        tagged_by=by,
        tagged_at=at,
    )
