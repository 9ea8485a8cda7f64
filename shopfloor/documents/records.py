"""What the ledger keeps of a document, and which tables the database protects."""

from shopfloor.documents.models import Document, StoredFile
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.canonical import moment
from shopfloor.ledger.records import register_record


def register() -> None:
    protect(StoredFile)
    protect(Document, closes=("file", "rendered_at"))
    register_record(Document, content=_content, private=("about",))


def _content(document: Document) -> dict[str, object]:
    return {
        "kind": document.kind,
        "subject": document.subject,
        "customer": None if document.customer_id is None else str(document.customer_id),
        "requested_by": str(document.requested_by_id),
        "requested_at": moment(document.requested_at),
        "job": str(document.job_id),
        "sha256": document.file.sha256 if document.file else None,
        "size": str(document.file.size) if document.file else None,
        "rendered_at": moment(document.rendered_at) if document.rendered_at else None,
    }
