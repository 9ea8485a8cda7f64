"""The worker's part of a document: render with no transaction open, then publish with the job's end."""

from datetime import datetime
from uuid import UUID

from shopfloor.documents import files, queries, rendering, services
from shopfloor.jobs.kinds import Payload, Progress
from shopfloor.jobs.models import Job

STEPS = 3


def render(payload: Payload, progress: Progress) -> Payload:
    document = queries.document(UUID(payload["document"]))
    progress(0, STEPS)
    page = rendering.page_of(document)
    progress(1, STEPS)
    pdf = rendering.pdf_of(page)
    progress(2, STEPS)
    return {"sha256": files.shelve(pdf), "size": len(pdf)}


def publish(job: Job, result: Payload, at: datetime) -> None:
    services.publish_document(job=job, sha256=result["sha256"], size=result["size"], at=at)
