"""Documents as a person may see them. What a person may not see does not exist for that person."""

from uuid import UUID

from django.db.models import Q, QuerySet

from shopfloor.documents.kinds import document_kinds
from shopfloor.documents.models import Document
from shopfloor.jobs.states import State
from shopfloor.people.models import Person


class NoSuchDocument(LookupError):
    """There is no such document, or this person may not know of it."""


def document(pk: UUID) -> Document:
    return Document.objects.select_related("job", "file", "requested_by").get(pk=pk)


def visible(person: Person) -> QuerySet[Document]:
    """The documents that this person may see, of every kind: one query."""
    condition = Q(pk__in=[])
    for kind in document_kinds():
        condition |= Q(kind=kind.name) & kind.visible_to(person)
    return Document.objects.filter(condition).select_related("job", "file", "requested_by")


def document_for(person: Person, pk: UUID) -> Document:
    """Raises NoSuchDocument."""
    try:
        return visible(person).get(pk=pk)
    except Document.DoesNotExist:
        raise NoSuchDocument(str(pk)) from None


def newest_for(person: Person) -> QuerySet[Document]:
    return visible(person).order_by("-requested_at", "-pk")


def can_try_again(person: Person, document: Document) -> bool:
    """Whoever asked for the document may ask again when it has failed."""
    return document.job.state == State.FAILED and document.requested_by_id == person.pk
