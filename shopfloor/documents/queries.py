"""Documents as a person may see them. What a person may not see does not exist for that person."""

from itertools import islice
from uuid import UUID

from shopfloor.documents.kinds import UnknownDocumentKind, document_kind
from shopfloor.documents.models import Document
from shopfloor.jobs.states import State
from shopfloor.people.models import Person

SHOWN, LOOKED_THROUGH = 50, 200


class NoSuchDocument(LookupError):
    """There is no such document, or this person may not know of it."""


def document(pk: UUID) -> Document:
    return Document.objects.select_related("job", "file", "requested_by").get(pk=pk)


def document_for(person: Person, pk: UUID) -> Document:
    """Raises NoSuchDocument."""
    try:
        found = document(pk)
    except Document.DoesNotExist:
        raise NoSuchDocument(str(pk)) from None
    if not sees(person, found):
        raise NoSuchDocument(str(pk))
    return found


def sees(person: Person, document: Document) -> bool:
    try:
        return document_kind(document.kind).visible_to(person, document.subject)
    except UnknownDocumentKind:
        return False


def newest_for(person: Person) -> list[Document]:
    """The newest documents that this person may see, out of the last few hundred."""
    newest = Document.objects.select_related("job", "file", "requested_by").order_by("-requested_at", "-pk")
    return list(islice((paper for paper in newest[:LOOKED_THROUGH] if sees(person, paper)), SHOWN))


def can_try_again(person: Person, document: Document) -> bool:
    """Whoever asked for the document may ask again when it has failed."""
    return document.job.state == State.FAILED and document.requested_by_id == person.pk
