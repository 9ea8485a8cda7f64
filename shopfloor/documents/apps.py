from datetime import datetime
from typing import TYPE_CHECKING

from django.apps import AppConfig

from shopfloor.jobs.kinds import JobKind, Payload, Progress, register_job_kind

if TYPE_CHECKING:
    from shopfloor.jobs.models import Job


class DocumentsConfig(AppConfig):
    name = "shopfloor.documents"

    def ready(self) -> None:
        from shopfloor.documents import events, records

        records.register()
        events.register()
        register_job_kind(JobKind(name="document", work=_work, publish=_publish))


# The renderer takes a second to import: only a worker with a document in hand pays for it.
def _work(payload: Payload, progress: Progress) -> Payload:
    from shopfloor.documents.tasks import render

    return render(payload, progress)


def _publish(job: "Job", result: Payload, at: datetime) -> None:
    from shopfloor.documents.tasks import publish

    publish(job, result, at)
