from datetime import datetime
from typing import TYPE_CHECKING

from django.apps import AppConfig
from django.urls import reverse

from shopfloor.jobs.kinds import JobKind, Payload, Progress, register_job_kind
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.records import register_record

if TYPE_CHECKING:
    from shopfloor.documents.models import Document
    from shopfloor.jobs.models import Job
    from shopfloor.ledger.models import LedgerEvent


class DocumentsConfig(AppConfig):
    name = "shopfloor.documents"

    def ready(self) -> None:
        from shopfloor.documents.models import Document, StoredFile

        register_record(Document, content=_content)
        register_kind("document.requested", sentence=_sentence("asked for"), link=_link)
        register_kind("document.retried", sentence=_sentence("asked again for"), link=_link)
        register_kind("document.rendered", sentence=_rendered, link=_link)
        protect(StoredFile)
        protect(Document, closes=("file", "rendered_at"))
        register_job_kind(JobKind(name="document", work=_work, publish=_publish))


# The renderer takes a second to import: only a worker with a document in hand pays for it.
def _work(payload: Payload, progress: Progress) -> Payload:
    from shopfloor.documents.tasks import render

    return render(payload, progress)


def _publish(job: "Job", result: Payload, at: datetime) -> None:
    from shopfloor.documents.tasks import publish

    publish(job, result, at)
