"""Photos of an engine: encoded anew, kept by their hash."""

from datetime import datetime

from django.db import transaction

from engines.visits.chains import chain_of
from engines.visits.models import Photo, Visit
from engines.visits.queries import locked_visit
from shopfloor.documents.photos import store_photo
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def add_photo(*, visit: Visit, area: str, words: str, data: bytes, name: str, by: Person, at: datetime) -> Photo:
    """Raises PhotoRefused, Closed."""
    visit = locked_visit(visit.pk)
    file = store_photo(data, name=name, at=at)
    photo = Photo.objects.create(visit=visit, area=area, words=words, file=file, taken_by=by, taken_at=at)
    record(Entry(chain=chain_of(visit), kind="visit.photographed", of=photo), by=by.pk, at=at)
    return photo
