"""Papers for tests in any state, made quickly: only who asked for one may see it."""

from datetime import UTC, datetime

from django.db.models import Q

from shopfloor.documents import files
from shopfloor.documents.kinds import DocumentKind, Subject, register_document_kind
from shopfloor.documents.models import Document
from shopfloor.documents.services import request_document
from shopfloor.jobs import services as jobs
from shopfloor.people.models import Person

AT = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
register_document_kind(
    DocumentKind(
        name="private-note",
        title="Private note",
        template="documents/paper.html",
        context=lambda subject: {},
        describe=Subject,
        visible_to=lambda person: Q(subject=person.username),
        filename=lambda subject: f"note-{subject}.pdf",
    )
)


def make_paper(by: Person, state: str = "done") -> Document:
    """A paper that is `waiting`, `done` or `failed`; its file is no real PDF."""
    paper = request_document(kind="private-note", subject=by.username, by=by, at=AT)
    job = jobs.claim(job_id=paper.job_id, at=AT) if state != "waiting" else None
    if job and state == "done":
        data = b"%PDF-1.7 a note"
        jobs.finish(job=job, result={"sha256": files.shelve(data), "size": len(data)}, at=AT)
    elif job:
        jobs.fail(job=job, reason="The pen ran dry. Try again.", at=AT)
    return paper
