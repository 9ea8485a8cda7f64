"""Evidence of eligibility comes with a part."""

from dataclasses import dataclass
from datetime import date, datetime

from django.db import transaction

from engines.parts.errors import FieldRefused
from engines.parts.models import Certificate, Item
from engines.parts.queries import chain_of
from shopfloor.documents.files import store
from shopfloor.documents.models import StoredFile
from shopfloor.documents.photos import PhotoRefused, store_photo
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

PDF = b"%PDF-"
MOST_BYTES = 15 * 1024 * 1024


@dataclass(frozen=True)
class Upload:
    name: str
    data: bytes


@transaction.atomic
def book_evidence(
    *,
    item: Item,
    kind: str,
    number: str,
    issued_by: str = "",
    issued_on: date | None = None,
    upload: Upload | None = None,
    by: Person,
    at: datetime,
) -> Certificate:
    """Raises FieldRefused; a file is kept as a PDF or, encoded anew, as a photo."""
    if not kind.strip() or not number.strip():
        raise FieldRefused("Say what the evidence is and type its number.")
    certificate = Certificate.objects.create(
        item=item,
        kind=kind.strip(),
        number=number.strip(),
        issued_by=issued_by.strip(),
        issued_on=issued_on,
        file=_kept(upload, at) if upload else None,
        booked_by=by,
        booked_at=at,
    )
    record(Entry(chain=chain_of(item), kind="evidence.booked", of=certificate), by=by.pk, at=at)
    return certificate


def _kept(upload: Upload, at: datetime) -> StoredFile:
    if upload.data.startswith(PDF):
        if len(upload.data) > MOST_BYTES:
            raise FieldRefused(f"{upload.name} is larger than 15 MB. Scan it at a lower resolution.")
        return store(upload.data, "application/pdf", at)
    try:
        return store_photo(upload.data, name=upload.name, at=at)
    except PhotoRefused:
        raise FieldRefused(f"{upload.name} is neither a PDF nor a photo. Send a PDF, JPEG, PNG or WebP file.") from None
