"""Asking for a document, asking again, and publishing it: one transaction and one event each."""

from datetime import datetime

from django.core.exceptions import PermissionDenied
from django.db import transaction
from uuid_utils.compat import uuid7

from shopfloor.documents.kinds import document_kind
from shopfloor.documents.models import Document, StoredFile
from shopfloor.documents.queries import document_for
from shopfloor.jobs.models import Job
from shopfloor.jobs.services import request_job, retry_job
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

CHAIN = "shop"
JOB_KIND = "document"
PDF = "application/pdf"


def request_document(*, kind: str, subject: str, by: Person, at: datetime) -> Document:
    """Ask a worker for the paper. Raises UnknownDocumentKind, and NoSuchDocument where `by` may not see it."""
    words, customer_id = document_kind(kind).describe(subject)
    pk = uuid7()
    with transaction.atomic():
        job = request_job(kind=JOB_KIND, payload={"document": str(pk)}, by=by, at=at)
        document = Document.objects.create(
            pk=pk, kind=kind, subject=subject, about=words, customer_id=customer_id, requested_by=by, requested_at=at, job=job
        )
        document_for(by, pk)
        record(Entry(chain=CHAIN, kind="document.requested", of=document), by=by.pk, at=at)
    return document


def try_again(*, document: Document, by: Person, at: datetime) -> None:
    """Raises PermissionDenied, and NothingToRetry when it has not failed."""
    if document.requested_by_id != by.pk:
        raise PermissionDenied("Only the person who asked for this paper can try again. Ask for one of your own instead.")
    with transaction.atomic():
        retry_job(job=document.job, by=by, at=at)
        facts = {"after": document.job.reason}
        record(Entry(chain=CHAIN, kind="document.retried", of=document, facts=facts), by=by.pk, at=at)


def publish_document(*, job: Job, sha256: str, size: int, at: datetime) -> None:
    """Link the rendered file. Runs inside the transaction that finishes the job."""
    with transaction.atomic():
        document = Document.objects.get(job=job)
        document.file, _ = StoredFile.objects.get_or_create(
            sha256=sha256, defaults={"size": size, "media_type": PDF, "stored_at": at}
        )
        document.rendered_at = at
        document.save(update_fields=["file", "rendered_at"])
        facts = {"job": str(job.pk), "attempt": str(job.attempt)}
        record(Entry(chain=CHAIN, kind="document.rendered", of=document, facts=facts), by=None, at=at)
