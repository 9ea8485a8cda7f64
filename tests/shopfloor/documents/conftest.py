"""A kind of paper that only its reader list may see, and persons who ask for it."""

from datetime import UTC, datetime

import pytest
from django.db.models import Q

from shopfloor.documents.kinds import DocumentKind, Subject, register_document_kind
from shopfloor.documents.services import request_document
from shopfloor.jobs.performing import perform
from shopfloor.people.models import Person

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
READERS = {"mechanic1", "inspector"}
register_document_kind(
    DocumentKind(
        name="bench-note",
        title="Bench note",
        template="documents/paper.html",
        context=lambda subject: {},
        describe=lambda subject: Subject(f"bench {subject}"),
        visible_to=lambda person: Q() if person.username in READERS else Q(pk__in=[]),
        filename=lambda subject: f"bench-note-{subject}.pdf",
    )
)


@pytest.fixture
def mechanic(db):
    return Person.objects.create(username="mechanic1", name="First mechanic", must_change_password=False)


@pytest.fixture
def inspector(db):
    return Person.objects.create(username="inspector", name="Inspector", must_change_password=False)


@pytest.fixture
def outsider(db):
    return Person.objects.create(username="customer", name="Customer", must_change_password=False)


@pytest.fixture
def paper(mechanic):
    return request_document(kind="bench-note", subject="7", by=mechanic, at=NOON)


@pytest.fixture
def made(paper):
    perform(paper.job_id)
    paper.refresh_from_db()
    paper.job.refresh_from_db()
    return paper
