from datetime import datetime
from typing import TYPE_CHECKING

from django.apps import AppConfig

from shopfloor.jobs.kinds import JobKind, Payload, Progress, register_job_kind

if TYPE_CHECKING:
    from shopfloor.jobs.models import Job


class TestbenchConfig(AppConfig):
    name = "engines.testbench"

    def ready(self) -> None:
        from engines.testbench import records

        records.register()
        register_job_kind(JobKind(name="run-log", work=_work, publish=_publish))


def _work(payload: Payload, progress: Progress) -> Payload:
    from engines.testbench.tasks import read_log

    return read_log(payload, progress)


def _publish(job: "Job", result: Payload, at: datetime) -> None:
    from engines.testbench.tasks import publish

    publish(job, result, at)
